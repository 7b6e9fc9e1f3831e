package ferment

import "math"

// node is a course at one moment of the yeast's clock: the state, its slope and
// the extract fermented per hour, g per litre pitched.
type node struct {
	tau   float64
	y, d  State
	rate  float64
	paced float64 // rate by the hour, where milestones have asked for it
}

// Steps are chosen so that each errs by about this share of a state, or by
// absolute times that, mol/m³ or g/L: a course then errs by less than 0.00001 SG
// (TestStatesAgreeWithLSODA holds a much smaller one to an independent solver).
const (
	usualTolerance = 1e-6
	absolute       = 100.0
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
	rates     Rates
	perVolume float64 // the reciprocal of the volume,
	perMost   float64 // and of the most yeast there can be
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

// try makes a step of h and returns its error over the tolerance.
func (g *integrator) try(from *node, h float64, to *node) float64 {
	y, k1 := &from.y, &from.d
	var z, k2, k3, k4, k5, k6 State
	for i := range z {
		z[i] = y[i] + h*(1.0/5*k1[i])
	}
	g.rates.derive(&z, &k2, g.perVolume, g.perMost)
	for i := range z {
		z[i] = y[i] + h*(3.0/40*k1[i]+9.0/40*k2[i])
	}
	g.rates.derive(&z, &k3, g.perVolume, g.perMost)
	for i := range z {
		z[i] = y[i] + h*(44.0/45*k1[i]-56.0/15*k2[i]+32.0/9*k3[i])
	}
	g.rates.derive(&z, &k4, g.perVolume, g.perMost)
	for i := range z {
		z[i] = y[i] + h*(19372.0/6561*k1[i]-25360.0/2187*k2[i]+64448.0/6561*k3[i]-212.0/729*k4[i])
	}
	g.rates.derive(&z, &k5, g.perVolume, g.perMost)
	for i := range z {
		z[i] = y[i] + h*(9017.0/3168*k1[i]-355.0/33*k2[i]+46732.0/5247*k3[i]+49.0/176*k4[i]-5103.0/18656*k5[i])
	}
	g.rates.derive(&z, &k6, g.perVolume, g.perMost)
	for i := range z {
		z[i] = y[i] + h*(35.0/384*k1[i]+500.0/1113*k3[i]+125.0/192*k4[i]-2187.0/6784*k5[i]+11.0/84*k6[i])
	}
	to.y = z
	to.rate = g.rates.derive(&to.y, &to.d, g.perVolume, g.perMost)
	sum := 0.0
	for i := range z {
		e := h * (71.0/57600*k1[i] - 71.0/16695*k3[i] + 71.0/1920*k4[i] - 17253.0/339200*k5[i] + 22.0/525*k6[i] - 1.0/40*to.d[i])
		size := math.Abs(y[i])
		if after := math.Abs(z[i]); after > size {
			size = after
		}
		e /= g.tolerance * (absolute + size)
		sum += e * e
	}
	return math.Sqrt(sum / states)
}

// between is the state between two nodes of one stretch, by cubics.
func between(a, b *node, tau float64) (y State) {
	h := b.tau - a.tau
	if !(h > 0) {
		return b.y
	}
	u := (tau - a.tau) / h
	for i := range y {
		y[i] = a.y[i] + u*(h*a.d[i]+u*((3*(b.y[i]-a.y[i])-h*(2*a.d[i]+b.d[i]))+u*(2*(a.y[i]-b.y[i])+h*(a.d[i]+b.d[i]))))
	}
	return y
}
