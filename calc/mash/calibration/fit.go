package calibration

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"

	"skep/calc/mash"
)

// Parameter is one fitted constant.
type Parameter struct {
	Name string
	Unit string
	of   func(*mash.Kinetics) *float64
	log  bool // fitted as its logarithm: it must stay positive

	// What is known of it beforehand, with one standard deviation (of the
	// logarithm where log is set). It counts as one more row each, so that a
	// constant that the mashes say little of stays where it makes sense.
	Prior, PriorSD float64
}

// Parameters are the fitted constants, in order.
func Parameters() []Parameter {
	return []Parameter{
		{"GelRate", "1/min", func(k *mash.Kinetics) *float64 { return &k.GelRate }, true, 0.35, 0.4},
		{"GelMidC", "°C", func(k *mash.Kinetics) *float64 { return &k.GelMidC }, false, 59.5, 1.5},
		{"GelWidthC", "°C", func(k *mash.Kinetics) *float64 { return &k.GelWidthC }, true, 1.2, 0.4},
		{"GelThickC", "°C per kg/L", func(k *mash.Kinetics) *float64 { return &k.GelThickC }, true, 6, 0.7},
		{"GelStepC", "°C", func(k *mash.Kinetics) *float64 { return &k.GelStepC }, true, 2, 0.4},
		{"BetaRate", "1/min", func(k *mash.Kinetics) *float64 { return &k.BetaRate }, true, 0.3, 1},
		{"BetaMaltotriose", "share", func(k *mash.Kinetics) *float64 { return &k.BetaMaltotriose }, true, 0.12, 0.5},
		{"BetaLoss", "1/min", func(k *mash.Kinetics) *float64 { return &k.BetaLoss }, true, 0.23, 1},
		{"BetaLossE", "kJ/mol", func(k *mash.Kinetics) *float64 { return &k.BetaLossE }, true, 285, 0.3},
		{"BetaGuard", "mol/L", func(k *mash.Kinetics) *float64 { return &k.BetaGuard }, true, 0.05, 1},
		{"YieldLimit", "share", func(k *mash.Kinetics) *float64 { return &k.YieldLimit }, true, 0.25, 0.4},
		{"YieldMaltotriose", "share", func(k *mash.Kinetics) *float64 { return &k.YieldMaltotriose }, true, 0.08, 0.4},
		{"YieldGlucose", "share", func(k *mash.Kinetics) *float64 { return &k.YieldGlucose }, true, 0.04, 0.5},
		{"LimitRate", "1/min", func(k *mash.Kinetics) *float64 { return &k.LimitRate }, true, 0.02, 1},
	}
}

// Estimate is a fitted constant with its standard error and the committed value.
type Estimate struct {
	Parameter
	Value, StdErr, Committed float64
}

// Fit is the result of a calibration.
type Fit struct {
	Kinetics    mash.Kinetics
	Estimates   []Estimate
	Rows        []Row     // the fitted rows
	Model       []float64 // what each gives
	ChiSquare   float64   // sum of squared residuals over sigma, prior knowledge included
	Evaluations int
}

func (p Parameter) get(k *mash.Kinetics) float64 {
	if p.log {
		return math.Log(*p.of(k))
	}
	return *p.of(k)
}

func (p Parameter) set(k *mash.Kinetics, x float64) {
	if p.log {
		x = math.Exp(math.Max(-12, math.Min(7, x)))
	}
	*p.of(k) = x
}

// Run fits the constants to the rows of use "fit", starting from start.
func Run(all []Row, start mash.Kinetics) (*Fit, error) {
	return RunParameters(all, start, Parameters())
}

// RunParameters fits a choice of constants and leaves the others.
func RunParameters(all []Row, start mash.Kinetics, params []Parameter) (*Fit, error) {
	var rows []Row
	for _, r := range all {
		if r.Use == "fit" {
			rows = append(rows, r)
		}
	}
	if len(rows) < len(params) {
		return nil, fmt.Errorf("%d rows cannot fix %d constants", len(rows), len(params))
	}
	var failed error
	residuals := func(dst, x []float64) {
		k := start
		for i, p := range params {
			p.set(&k, x[i])
		}
		for i, r := range rows {
			v, err := Measure(k, r)
			if err != nil {
				// A line search may try what no mash can be: steer away.
				failed = err
				dst[i] = 1e6
				continue
			}
			dst[i] = (v - r.Value) / r.Sigma
		}
		for i, p := range params {
			prior := p.Prior
			if p.log {
				prior = math.Log(prior)
			}
			dst[len(rows)+i] = (x[i] - prior) / p.PriorSD
		}
	}
	terms := len(rows) + len(params)
	x := make([]float64, len(params))
	for i, p := range params {
		x[i] = p.get(&start)
	}
	res := make([]float64, terms)
	jac := mat.NewDense(terms, len(params), nil)
	jacobian := func(x []float64) {
		fd.Jacobian(jac, residuals, x, &fd.JacobianSettings{Formula: fd.Central, Step: 1e-4})
	}
	// Gauss and Newton: the curvature of a sum of squares from its slopes.
	problem := optimize.Problem{
		Func: func(x []float64) float64 {
			residuals(res, x)
			var s float64
			for _, v := range res {
				s += v * v
			}
			return s
		},
		Grad: func(grad, x []float64) {
			residuals(res, x)
			jacobian(x)
			for j := range grad {
				grad[j] = 0
				for i, v := range res {
					grad[j] += 2 * v * jac.At(i, j)
				}
			}
		},
		Hess: func(h *mat.SymDense, x []float64) {
			jacobian(x)
			for a := range params {
				for b := a; b < len(params); b++ {
					var s float64
					for i := range terms {
						s += 2 * jac.At(i, a) * jac.At(i, b)
					}
					if a == b {
						s += 1e-9
					}
					h.SetSym(a, b, s)
				}
			}
		},
	}
	out, err := optimize.Minimize(problem, x, &optimize.Settings{
		GradientThreshold: 1e-5, MajorIterations: 300,
		Converger: &optimize.FunctionConverge{Absolute: 1e-10, Iterations: 12},
	}, &optimize.Newton{Linesearcher: &optimize.Backtracking{}})
	if out == nil {
		return nil, fmt.Errorf("the fit did not start: %w", errors.Join(err, failed))
	}
	fit := &Fit{Kinetics: start, Rows: rows, ChiSquare: out.F, Evaluations: out.FuncEvaluations}
	for i, p := range params {
		p.set(&fit.Kinetics, out.X[i])
	}
	for _, r := range rows {
		v, err := Measure(fit.Kinetics, r)
		if err != nil {
			return nil, err
		}
		fit.Model = append(fit.Model, v)
	}
	jacobian(out.X)
	errs := standardErrors(jac)
	for i, p := range params {
		e := Estimate{Parameter: p, Value: *p.of(&fit.Kinetics), StdErr: errs[i]}
		if p.log {
			e.StdErr *= e.Value
		}
		k := mash.Committed()
		e.Committed = *p.of(&k)
		fit.Estimates = append(fit.Estimates, e)
	}
	return fit, nil
}

// standardErrors are the roots of the diagonal of (J'J)^-1: the rows are
// weighted by their own sigma, which is taken at its word.
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
	s := svd.Values(nil)
	for i := range n {
		var sum float64
		for c, w := range s {
			q := v.At(i, c) / math.Max(w, 1e-12)
			sum += q * q
		}
		out[i] = math.Sqrt(sum)
	}
	return out
}
