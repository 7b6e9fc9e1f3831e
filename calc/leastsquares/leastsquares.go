// Package leastsquares fits constants to measurements by Levenberg and Marquardt's
// method: Gauss and Newton's step from the slopes of the residuals, damped until it
// goes downhill (D. W. Marquardt, SIAM J. Appl. Math. 11:431, 1963). It is for a
// handful of constants and a smooth model; what is known of a constant beforehand
// counts as one more residual. The fits of calc/record use it, no prediction does.
//
// Residuals as a function of the constants come in, the constants that make them least
// go out. It must not know what they mean.
package leastsquares

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"
)

// Residuals fills dst with the weighted residuals, (ours - measured)/sigma, at x.
// Where the model has no answer it may put a large finite number.
type Residuals func(dst, x []float64)

// Fit is where the sum of squares is least.
type Fit struct {
	X []float64
	// StdErr is one standard error of each constant, the residuals' sigmas taken
	// at their word: the roots of the diagonal of (JᵀJ)⁻¹. Infinite where the
	// residuals say nothing of it.
	StdErr     []float64
	SumSquares float64
	Steps      int
}

const (
	mostSteps    = 300
	firstDamping = 1e-3
	mostDamping  = 1e12
	// slopeStep is the step of the central differences: residuals that come from
	// an integrator are good to about its square.
	slopeStep = 1e-4
	// leastGain ends the search: a step that lowers the sum of squares by less,
	// relative to it.
	leastGain = 1e-12
)

// ErrNotFinite is a start where a residual is no number.
var ErrNotFinite = errors.New("a residual is not a finite number at the start")

// ErrUnsettled is a search that ran out of steps.
var ErrUnsettled = errors.New("the fit has not settled: the residuals may not be smooth, or constants may undo each other")

// Minimise searches from start; terms is how many residuals there are.
func Minimise(residuals Residuals, terms int, start []float64) (Fit, error) {
	n := len(start)
	f := Fit{X: append([]float64(nil), start...)}
	r, try := mat.NewVecDense(terms, nil), mat.NewVecDense(terms, nil)
	at := func(r *mat.VecDense, x []float64) float64 {
		residuals(r.RawVector().Data, x)
		return mat.Dot(r, r)
	}
	f.SumSquares = at(r, f.X)
	if math.IsNaN(f.SumSquares) || math.IsInf(f.SumSquares, 0) {
		return f, ErrNotFinite
	}
	j := mat.NewDense(terms, n, nil)
	slopes := func() {
		fd.Jacobian(j, residuals, f.X, &fd.JacobianSettings{Formula: fd.Central, Step: slopeStep})
	}
	damping := firstDamping
	next := make([]float64, n)
	var h mat.SymDense
	var grad, step mat.VecDense
	slopes()
	for ; f.Steps < mostSteps; f.Steps++ {
		h.SymOuterK(1, j.T())
		grad.MulVec(j.T(), r)
		damped := mat.NewSymDense(n, nil)
		damped.CopySym(&h)
		steepest := 0.0
		for i := range n {
			steepest = max(steepest, h.At(i, i))
		}
		for i := range n { // the floor keeps a constant that nothing tells of where it is
			damped.SetSym(i, i, h.At(i, i)*(1+damping)+1e-10*steepest)
		}
		var chol mat.Cholesky
		better := false
		if chol.Factorize(damped) && chol.SolveVecTo(&step, &grad) == nil {
			for i := range n {
				next[i] = f.X[i] - step.AtVec(i)
			}
			if s := at(try, next); s < f.SumSquares {
				better = true
				gain := f.SumSquares - s
				copy(f.X, next)
				r, try = try, r
				f.SumSquares = s
				if gain <= leastGain*s {
					f.StdErr = standardErrors(j)
					return f, nil
				}
			}
		}
		if better {
			damping /= 10
			slopes()
			continue
		}
		if damping *= 10; damping > mostDamping { // nowhere lower from here
			f.StdErr = standardErrors(j)
			return f, nil
		}
	}
	return f, ErrUnsettled
}

// standardErrors are the roots of the diagonal of (JᵀJ)⁻¹, by singular values.
func standardErrors(j *mat.Dense) []float64 {
	_, n := j.Dims()
	out := make([]float64, n)
	var svd mat.SVD
	if !svd.Factorize(j, mat.SVDThin) {
		for i := range out {
			out[i] = math.Inf(1)
		}
		return out
	}
	var v mat.Dense
	svd.VTo(&v)
	for i := range n {
		sum := 0.0
		for c, w := range svd.Values(nil) {
			q := v.At(i, c) / w
			if math.IsNaN(q) {
				continue
			}
			sum += q * q
		}
		out[i] = math.Sqrt(sum)
	}
	return out
}
