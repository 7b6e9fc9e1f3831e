package ferment

import (
	"math"

	"skep/calc/ode/pair"
)

// node is a course at one moment of the yeast's clock: the state, its slope and
// the extract fermented per hour, g per litre pitched.
type node struct {
	tau   float64
	y, d  State
	rate  float64
	plain float64 // tau before the clock's stretch, and
	paced float64 // the rate by the hour, where milestones have asked for it
	bend  State   // what the way from the node before is beside a cubic
}

// Steps are chosen so that each errs by about this share of a state, or by
// absolute times that, mol/m³ or g/L: a course then errs by less than 0.00001 SG
// (TestStatesAgreeWithLSODA holds a much smaller one to an independent solver).
const (
	usualTolerance   = 1e-6
	untimedTolerance = 1e-5 // gravities are 0.000001 off then, 0.00002 at the most
	absolute         = 100.0
)

// The shortest step, hours of the yeast: it is made whatever its error, so that
// no course can fail. Every state stays within what went in, so the least that
// such a step does is to be inexact for a few seconds.
const shortestStep = 1e-4

// integrator makes steps of Dormand and Prince's pair of order 5(4) (J. Comput.
// Appl. Math. 6:19, 1980, as package ode has it, which tests hold it to) on a
// state of fixed size: a prediction follows hundreds of courses, and the general
// solver takes several times as long.
type integrator struct {
	slopes    slopes
	tolerance float64
	h         float64 // the next step
}

// step goes on from a node by one step, or by less so as to end at limit.
func (g *integrator) step(from *node, limit float64, to *node) {
	for {
		h, last := g.h, false
		if rest := limit - from.tau; h >= 0.99*rest {
			h, last = rest, true
		}
		err := g.try(from, h, to)
		scale := 5.0
		if err > 0 {
			// About the fifth root, by square roots: a power takes as long as a step.
			quarter := math.Sqrt(math.Sqrt(err))
			eighth := math.Sqrt(quarter)
			scale = min(max(0.9/(eighth*math.Sqrt(eighth)), 0.2), 5)
		}
		if !(err <= 1) && h > shortestStep {
			if math.IsNaN(err) {
				scale = 0.2
			}
			g.h = max(h*scale, shortestStep)
			continue
		}
		// A step cut short by the limit says little of the next.
		if !last || h*scale > g.h {
			g.h = max(h*scale, shortestStep)
		}
		to.tau = from.tau + h
		if last {
			to.tau = limit
		}
		return
	}
}

// try makes a step of h and returns its error over the tolerance. Every unknown
// stands in a variable of its own.
func (g *integrator) try(from *node, h float64, to *node) float64 {
	s := &g.slopes
	g0, m0, n0, d0, x0 := from.y[iG], from.y[iM], from.y[iN], from.y[iD], from.y[iX]
	g1, m1, n1, d1, x1 := from.d[iG], from.d[iM], from.d[iN], from.d[iD], from.d[iX]
	c1 := h * pair.A21
	g2, m2, n2, d2, x2, _ := s.at(
		g0+c1*g1, m0+c1*m1,
		n0+c1*n1, d0+c1*d1,
		x0+c1*x1)
	c1, c2 := h*pair.A31, h*pair.A32
	g3, m3, n3, d3, x3, _ := s.at(
		g0+c1*g1+c2*g2, m0+c1*m1+c2*m2,
		n0+c1*n1+c2*n2, d0+c1*d1+c2*d2,
		x0+c1*x1+c2*x2)
	c1, c2, c3 := h*pair.A41, h*pair.A42, h*pair.A43
	g4, m4, n4, d4, x4, _ := s.at(
		g0+c1*g1+c2*g2+c3*g3, m0+c1*m1+c2*m2+c3*m3,
		n0+c1*n1+c2*n2+c3*n3, d0+c1*d1+c2*d2+c3*d3,
		x0+c1*x1+c2*x2+c3*x3)
	c1, c2, c3, c4 := h*pair.A51, h*pair.A52, h*pair.A53, h*pair.A54
	g5, m5, n5, d5, x5, _ := s.at(
		g0+c1*g1+c2*g2+c3*g3+c4*g4, m0+c1*m1+c2*m2+c3*m3+c4*m4,
		n0+c1*n1+c2*n2+c3*n3+c4*n4, d0+c1*d1+c2*d2+c3*d3+c4*d4,
		x0+c1*x1+c2*x2+c3*x3+c4*x4)
	c1, c2, c3, c4, c5 := h*pair.A61, h*pair.A62, h*pair.A63, h*pair.A64, h*pair.A65
	g6, m6, n6, d6, x6, _ := s.at(
		g0+c1*g1+c2*g2+c3*g3+c4*g4+c5*g5, m0+c1*m1+c2*m2+c3*m3+c4*m4+c5*m5,
		n0+c1*n1+c2*n2+c3*n3+c4*n4+c5*n5, d0+c1*d1+c2*d2+c3*d3+c4*d4+c5*d5,
		x0+c1*x1+c2*x2+c3*x3+c4*x4+c5*x5)
	c1, c3, c4, c5, c6 := h*pair.B1, h*pair.B3, h*pair.B4, h*pair.B5, h*pair.B6
	gz := g0 + c1*g1 + c3*g3 + c4*g4 + c5*g5 + c6*g6
	mz := m0 + c1*m1 + c3*m3 + c4*m4 + c5*m5 + c6*m6
	nz := n0 + c1*n1 + c3*n3 + c4*n4 + c5*n5 + c6*n6
	dz := d0 + c1*d1 + c3*d3 + c4*d4 + c5*d5 + c6*d6
	xz := x0 + c1*x1 + c3*x3 + c4*x4 + c5*x5 + c6*x6
	g7, m7, n7, d7, x7, rate := s.at(gz, mz, nz, dz, xz)

	eG := h * (pair.E1*g1 + pair.E3*g3 + pair.E4*g4 + pair.E5*g5 + pair.E6*g6 + pair.E7*g7)
	eM := h * (pair.E1*m1 + pair.E3*m3 + pair.E4*m4 + pair.E5*m5 + pair.E6*m6 + pair.E7*m7)
	eN := h * (pair.E1*n1 + pair.E3*n3 + pair.E4*n4 + pair.E5*n5 + pair.E6*n6 + pair.E7*n7)
	eD := h * (pair.E1*d1 + pair.E3*d3 + pair.E4*d4 + pair.E5*d5 + pair.E6*d6 + pair.E7*d7)
	eX := h * (pair.E1*x1 + pair.E3*x3 + pair.E4*x4 + pair.E5*x5 + pair.E6*x6 + pair.E7*x7)
	eF := hexoseMass/1000*eG + maltoseMass/1000*eM + maltotrioseMass/1000*eN + eD
	to.y = State{gz, mz, nz, dz, xz, 0}
	to.y[iF] = s.total - to.y.extract()
	sum := over(eG, g0, gz) + over(eM, m0, mz) + over(eN, n0, nz) + over(eD, d0, dz) + over(eX, x0, xz) + over(eF, from.y[iF], to.y[iF])
	err := math.Sqrt(sum/states) / g.tolerance
	to.d, to.rate = State{g7, m7, n7, d7, x7, rate}, rate
	to.bend = State{
		h * (pair.D1*g1 + pair.D3*g3 + pair.D4*g4 + pair.D5*g5 + pair.D6*g6 + pair.D7*g7),
		h * (pair.D1*m1 + pair.D3*m3 + pair.D4*m4 + pair.D5*m5 + pair.D6*m6 + pair.D7*m7),
		h * (pair.D1*n1 + pair.D3*n3 + pair.D4*n4 + pair.D5*n5 + pair.D6*n6 + pair.D7*n7),
		h * (pair.D1*d1 + pair.D3*d3 + pair.D4*d4 + pair.D5*d5 + pair.D6*d6 + pair.D7*d7),
		h * (pair.D1*x1 + pair.D3*x3 + pair.D4*x4 + pair.D5*x5 + pair.D6*x6 + pair.D7*x7), 0,
	}
	to.bend[iF] = -to.bend.extract()
	// After as long a step as is stable a quartic waves, and a cubic does not.
	if made := to.y[iF] - from.y[iF]; math.Abs(to.bend[iF]) > 0.3*math.Abs(made) {
		to.bend = State{}
	}
	return err
}

// over is the square of an error over the size of what errs.
func over(err, before, after float64) float64 {
	if before < 0 {
		before = -before
	}
	if after < 0 {
		after = -after
	}
	if after > before {
		before = after
	}
	e := err / (absolute + before)
	return e * e
}

// fermented is what has fermented between two nodes of one stretch, as [between]
// has it.
func fermented(a, b *node, tau float64) float64 {
	h := b.tau - a.tau
	if !(h > 0) {
		return b.y[iF]
	}
	u := (tau - a.tau) / h
	from, to := a.y[iF], b.y[iF]
	start, end := h*a.rate, h*b.rate
	return from + u*(start+u*((3*(to-from)-2*start-end)+u*(2*(from-to)+start+end)+(1-u)*(1-u)*b.bend[iF]))
}

// between is the state between two nodes of one stretch.
func between(a, b *node, tau float64) (y State) {
	h := b.tau - a.tau
	if !(h > 0) {
		return b.y
	}
	u := (tau - a.tau) / h
	w := u * u * (1 - u) * (1 - u)
	for i := range y {
		y[i] = a.y[i] + u*(h*a.d[i]+u*((3*(b.y[i]-a.y[i])-h*(2*a.d[i]+b.d[i]))+u*(2*(a.y[i]-b.y[i])+h*(a.d[i]+b.d[i])))) + w*b.bend[i]
	}
	return y
}
