package calibration

import (
	"errors"
	"fmt"
	"io"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"

	"skep/calc/ferment"
)

// Estimate is one fitted factor with its standard error, as a share of it,
// beside the one committed in package ferment.
type Estimate struct {
	Name                        string
	Value, RelStdErr, Committed float64
}

// Fit is the result of a calibration.
type Fit struct {
	Kinetics  ferment.Kinetics
	Estimates []Estimate
	Rows      []Row
	Ours      []float64 // what each row gives
	ChiSquare float64
}

func with(logs []float64) ferment.Kinetics {
	k := ferment.Trade()
	k.RateScale, k.Affinity, k.Growth = math.Exp(logs[0]), math.Exp(logs[1]), math.Exp(logs[2])
	return k
}

// Run refits the factors to the rows marked fit.
func Run(rows []Row) (Fit, error) {
	var f Fit
	for _, r := range rows {
		if r.Use == useFit {
			f.Rows = append(f.Rows, r)
		}
	}
	if len(f.Rows) < 3 {
		return f, errors.New("three factors need at least three rows marked fit")
	}
	var failed error
	residuals := func(logs []float64) []float64 {
		k := with(logs)
		out := make([]float64, len(f.Rows))
		for i, r := range f.Rows {
			v, err := Measure(k, r)
			if err != nil {
				failed = err
				v = math.Inf(1)
			}
			out[i] = (v - r.Value) / r.Sigma
		}
		return out
	}
	sum := func(logs []float64) float64 {
		for _, l := range logs {
			if math.Abs(l) > 5 { // far outside: a finite wall
				return 1e6
			}
		}
		s := 0.0
		for _, v := range residuals(logs) {
			s += v * v
		}
		return s
	}
	best, at := math.Inf(1), []float64(nil)
	for _, start := range [][]float64{{0, 0, 0}, {math.Log(0.3), math.Log(0.2), math.Log(5)}} {
		// Again from where it ended: the simplex can come to rest too soon.
		for range 3 {
			res, err := optimize.Minimize(optimize.Problem{Func: sum}, start,
				&optimize.Settings{FuncEvaluations: 600, Converger: &optimize.FunctionConverge{Absolute: 1e-10, Iterations: 40}},
				&optimize.NelderMead{SimplexSize: 0.2})
			if res == nil {
				return f, fmt.Errorf("the fit failed: %w", err)
			}
			start = res.X
			if res.F < best {
				best, at = res.F, res.X
			}
		}
	}
	if failed != nil {
		return f, failed
	}
	f.Kinetics, f.ChiSquare = with(at), best
	for _, r := range f.Rows {
		v, _ := Measure(f.Kinetics, r)
		f.Ours = append(f.Ours, v)
	}
	errs, err := standardErrors(residuals, at)
	if err != nil {
		return f, err
	}
	f.Estimates = []Estimate{
		{"rate scale", f.Kinetics.RateScale, errs[0], ferment.FittedRateScale},
		{"affinity", f.Kinetics.Affinity, errs[1], ferment.FittedAffinity},
		{"growth", f.Kinetics.Growth, errs[2], ferment.FittedGrowth},
	}
	return f, nil
}

// standardErrors are the roots of the diagonal of (JᵀJ)⁻¹.
func standardErrors(residuals func([]float64) []float64, at []float64) ([]float64, error) {
	const h = 0.01
	n := len(residuals(at))
	j := mat.NewDense(n, len(at), nil)
	for p := range at {
		up, down := append([]float64(nil), at...), append([]float64(nil), at...)
		up[p] += h
		down[p] -= h
		ru, rd := residuals(up), residuals(down)
		for i := range n {
			j.Set(i, p, (ru[i]-rd[i])/(2*h))
		}
	}
	var normal, inverse mat.Dense
	normal.Mul(j.T(), j)
	if err := inverse.Inverse(&normal); err != nil {
		return nil, fmt.Errorf("the rows do not hold all factors: %w", err)
	}
	errs := make([]float64, len(at))
	for p := range errs {
		errs[p] = math.Sqrt(inverse.At(p, p))
	}
	return errs, nil
}

// Print writes the fit for a person.
func (f Fit) Print(w io.Writer) {
	fmt.Fprintf(w, "chi square %.3f over %d rows, %d factors\n", f.ChiSquare, len(f.Rows), len(f.Estimates))
	for _, e := range f.Estimates {
		fmt.Fprintf(w, "%-12s %.4f ± %.0f %%  (committed %.4f)\n", e.Name, e.Value, 100*e.RelStdErr, e.Committed)
	}
	for i, r := range f.Rows {
		fmt.Fprintf(w, "%-20s %9.4f ours %9.4f %-6s (%+.2f sd)\n", r.ID, r.Value, f.Ours[i], r.Unit, (f.Ours[i]-r.Value)/r.Sigma)
	}
}
