package follow

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// target is a posterior: the standard normal prior and the observations.
type target struct {
	m    *model
	obs  []obs
	free []int // the inputs that any observation may tell of
	// fixed holds the others at their middle instead of drawing them: the
	// reduced problems that tests solve by quadrature.
	fixed  bool
	scores []theta // that the draws are made of; nil: the usual
	// That the draws of equal weight are spread by.
	nowHours, heightHours float64
	// untimed: no observation is of a time, so no draw's milestones are looked for.
	untimed bool
}

func (g *target) at(t *theta, l *evaluation) {
	if g.untimed {
		g.m.runUntilNow(t, l)
	} else {
		g.m.run(t, l)
	}
	l.x = l.x[:0]
	for i := range g.obs {
		l.x = append(l.x, g.m.predicted(&g.obs[i], t, l))
	}
}

// nll of the observations at an evaluation.
func (g *target) nll(l *evaluation) float64 {
	s := 0.0
	for i := range g.obs {
		v, _, _ := g.obs[i].nll(l.x[i])
		s += v
	}
	return s
}

// mode is the most likely draw and the curvature around it.
type mode struct {
	theta theta
	x     []float64   // predicted there
	slope [][]float64 // by observation and free input
	curv  []float64   // by observation
	cost  float64     // negative log of the posterior, up to a constant

	precision *mat.SymDense // over the free inputs
	upper     mat.Cholesky  // of it
	ok        bool
}

// evidence is the logarithm of the posterior's mass around the mode, by the
// normal approximation, up to a constant.
func (r *mode) evidence() float64 { return -r.cost - r.upper.LogDet()/2 }

const (
	mostSteps  = 25
	difference = 0.02 // sd
	// nearEnough is a last step, sd: the draws about a mode are weighed, and one that is
	// a hundredth of an sd off serves as well.
	nearEnough = 0.03
)

// mode goes downhill from a start by damped Gauss and Newton steps: the
// curvature of each observation times the square of its slope, and one for the
// prior.
func (g *target) mode(start theta) mode {
	n := len(g.free)
	r := mode{theta: start}
	var l, try evaluation
	g.at(&r.theta, &l)
	cost := half(&r.theta) + g.nll(&l)
	damp := 0.0
	h := mat.NewSymDense(n, nil)
	grad, step := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	fresh := true
	for range mostSteps {
		if fresh {
			g.slopes(&r, &l)
			g.curve(&r, h, grad)
		}
		damped := mat.NewSymDense(n, nil)
		damped.CopySym(h)
		for i := range n {
			damped.SetSym(i, i, h.At(i, i)*(1+damp))
		}
		var chol mat.Cholesky
		if !chol.Factorize(damped) || chol.SolveVecTo(step, grad) != nil {
			damp = max(4*damp, 0.1)
			fresh = false
			continue
		}
		next := r.theta
		most := 0.0
		for i, k := range g.free {
			// No step of more than two sd: the model bends.
			s := min(max(step.AtVec(i), -2), 2)
			next[k] = min(max(next[k]-s, -6), 6)
			most = max(most, math.Abs(s))
		}
		g.at(&next, &try)
		c := half(&next) + g.nll(&try)
		if !(c <= cost+1e-9) {
			damp = max(4*damp, 0.1)
			fresh = false
			if damp > 1e6 {
				break
			}
			continue
		}
		done := most < nearEnough
		r.theta, cost = next, c
		l, try = try, l
		damp, fresh = damp/4, true
		if damp < 1e-3 {
			damp = 0
		}
		if done {
			break
		}
	}
	g.at(&r.theta, &l)
	g.slopes(&r, &l)
	g.curve(&r, h, grad)
	r.precision, r.cost = h, cost
	r.ok = r.upper.Factorize(h)
	return r
}

// slopes fills in predictions and slopes at a draw, by differences.
func (g *target) slopes(r *mode, l *evaluation) {
	r.x = append(r.x[:0], l.x...)
	if len(r.slope) != len(g.obs) {
		r.slope = make([][]float64, len(g.obs))
		for i := range r.slope {
			r.slope[i] = make([]float64, len(g.free))
		}
		r.curv = make([]float64, len(g.obs))
	}
	g.m.work.parallel(len(g.free), func(k int, l *evaluation) {
		t := r.theta
		t[g.free[k]] += difference
		g.at(&t, l)
		for i := range g.obs {
			r.slope[i][k] = (l.x[i] - r.x[i]) / difference
		}
	})
}

// curve is the precision over the free inputs and the slope of the cost.
func (g *target) curve(r *mode, h *mat.SymDense, grad *mat.VecDense) {
	for i, k := range g.free {
		grad.SetVec(i, r.theta[k])
		for j := i; j < len(g.free); j++ {
			v := 0.0
			if i == j {
				v = 1
			}
			h.SetSym(i, j, v)
		}
	}
	for o := range g.obs {
		_, slope, curvature := g.obs[o].nll(r.x[o])
		r.curv[o] = curvature
		s := r.slope[o]
		for i := range s {
			grad.SetVec(i, grad.AtVec(i)+slope*s[i])
			for j := i; j < len(s); j++ {
				h.SetSym(i, j, h.At(i, j)+curvature*s[i]*s[j])
			}
		}
	}
}

// quadratic is jᵀ H⁻¹ j.
func quadratic(h *mat.Cholesky, j []float64) float64 {
	v := mat.NewVecDense(len(j), j)
	var x mat.VecDense
	if h.SolveVecTo(&x, v) != nil {
		return 0
	}
	return mat.Dot(v, &x)
}
