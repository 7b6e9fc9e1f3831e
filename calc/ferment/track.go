package ferment

import (
	"math"

	"skep/calc/ode"
)

// trackNode is the course at one moment of the yeast's clock, per litre pitched.
type trackNode struct {
	tau   float64 // h
	done  float64 // extract fermented, g
	rate  float64 // its slope, g/h
	slope float64 // the slope of the rate, g/h²
}

// track is an undisturbed course as a table, close enough for cubics between
// its nodes; total is all extract that will ferment, g.
type track struct {
	nodes []trackNode
	total float64
}

// Cubic Hermite between a and b.
func hermite(a, b, va, sa, vb, sb, x float64) float64 {
	h := b - a
	if h <= 0 {
		return vb
	}
	u := (x - a) / h
	return va + u*(h*sa+u*((3*(vb-va)-h*(2*sa+sb))+u*(2*(va-vb)+h*(sa+sb))))
}

func (k *track) rateIn(i int, tau float64) float64 {
	a, b := &k.nodes[i-1], &k.nodes[i]
	return hermite(a.tau, b.tau, a.rate, a.slope, b.rate, b.slope, tau)
}

func (k *track) doneIn(i int, tau float64) float64 {
	a, b := &k.nodes[i-1], &k.nodes[i]
	return hermite(a.tau, b.tau, a.done, a.rate, b.done, b.rate, tau)
}

// solver is the workspace of one course.
type solver struct {
	ode    *ode.Solver
	f      ode.System
	rates  Rates
	x0     float64
	volume float64 // litres in the fermenter per litre pitched
	opt    ode.Options
}

// Tolerances of ordinary work: states within about 1e-6 of the whole.
var ordinary = ode.Options{RelTol: 1e-6, AbsTol: 1e-5}

func newSolver(in *Input, opt ode.Options) *solver {
	k := in.Kinetics
	if k == nil {
		trade := Trade()
		k = &trade
	}
	s := &solver{
		ode: ode.New(states), rates: k.At(in.TemperatureC), volume: 1, opt: opt,
		x0: k.PitchX * in.PitchBillionPerL / UsualPitchBillionPerL,
	}
	s.f = func(_ float64, y, d []float64) { s.rates.derive((*State)(y), (*State)(d), s.x0, s.volume) }
	return s
}

// Nodes per step of the integrator.
const nodesPerStep = 4

// follow makes the track of a course without additions, to its end or to tau
// = limit.
func (s *solver) follow(start State, limit float64) (track, error) {
	k := track{total: start.extract(), nodes: make([]trackNode, 0, 256)}
	var d, up, out State
	add := func(tau float64, y *State) {
		rate := s.rates.derive(y, &d, s.x0, s.volume)
		// The slope of the rate along the course, by a central difference.
		const e = 1e-3 // h
		for i := range up {
			up[i] = y[i] + e*d[i]
			out[i] = y[i] - e*d[i]
		}
		var scratch State
		slope := s.rates.derive(&up, &scratch, s.x0, s.volume)
		slope = (slope - s.rates.derive(&out, &scratch, s.x0, s.volume)) / (2 * e)
		k.nodes = append(k.nodes, trackNode{tau, k.total - y.extract(), rate, slope})
	}
	y := start
	add(0, &y)
	if err := s.ode.Start(s.f, 0, limit, y[:], s.opt); err != nil {
		return k, err
	}
	for !s.ode.Done() && k.nodes[len(k.nodes)-1].done < trackEnd*k.total {
		if err := s.ode.Step(); err != nil {
			return k, err
		}
		from, to := s.ode.Last()
		for p := 1; p <= nodesPerStep; p++ {
			tau := from + (to-from)*float64(p)/nodesPerStep
			s.ode.At(tau, y[:])
			add(tau, &y)
		}
	}
	return k, nil
}

// bisect finds where f passes from negative to not negative between a and b.
func bisect(a, b float64, f func(float64) float64) float64 {
	for range 50 {
		m := (a + b) / 2
		if f(m) < 0 {
			a = m
		} else {
			b = m
		}
		if b-a < 1e-10*math.Max(1, math.Abs(b)) {
			break
		}
	}
	return b
}
