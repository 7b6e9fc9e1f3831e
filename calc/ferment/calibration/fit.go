package calibration

import (
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
	LagHours  float64
	Series    []Series
	Estimates []Estimate
	Rows      []Row
	Ours      []float64 // what each row gives
	ChiSquare float64
}

// parameters are what is fitted, and with puts logarithms of them into a set of
// constants and a lag.
var parameters = []struct {
	name      string
	committed float64
	start     float64
	set       func(k *ferment.Kinetics, lag *float64, v float64)
}{
	{"uptake", ferment.FittedUptake, 0.02, func(k *ferment.Kinetics, _ *float64, v float64) { k.Uptake = v }},
	{"growth", ferment.FittedGrowth, 8, func(k *ferment.Kinetics, _ *float64, v float64) {
		for i := range k.Yield {
			k.Yield[i] *= v / ferment.FittedGrowth
		}
	}},
	{"activation", ferment.FittedEaKcal, 16, func(k *ferment.Kinetics, _ *float64, v float64) { k.EaKcal = v }},
	{"lag", ferment.UsualLagHours, 10, func(_ *ferment.Kinetics, lag *float64, v float64) { *lag = v }},
}

func with(logs []float64) (ferment.Kinetics, float64) {
	k, lag := ferment.Trade(), ferment.UsualLagHours
	for i, p := range parameters {
		p.set(&k, &lag, math.Exp(logs[i]))
	}
	return k, lag
}

// Run refits the constants to the rows and series marked fit.
func Run(rows []Row, series []Series) (Fit, error) {
	f := Fit{Series: Of(series, useFit)}
	for _, r := range rows {
		if r.Use == useFit {
			f.Rows = append(f.Rows, r)
		}
	}
	if len(f.Rows)+len(f.Series) < len(parameters) {
		return f, fmt.Errorf("%d constants need at least as many rows and series marked fit", len(parameters))
	}
	var failed error
	// One residual a row, and the root of its chi square a series.
	residuals := func(logs []float64) []float64 {
		k, lag := with(logs)
		var out []float64
		for _, r := range f.Rows {
			v, err := Measure(k, lag, r)
			if err != nil {
				failed, v = err, math.Inf(1)
			}
			out = append(out, (v-r.Value)/r.Sigma)
		}
		for i := range f.Series {
			m, err := match(k, lag, &f.Series[i])
			if err != nil {
				failed, m.ChiSquare = err, math.Inf(1)
			}
			out = append(out, math.Sqrt(independence*m.ChiSquare))
		}
		return out
	}
	start := make([]float64, len(parameters))
	for i, p := range parameters {
		start[i] = math.Log(p.start)
	}
	sum := func(logs []float64) float64 {
		for i, l := range logs {
			if math.Abs(l-start[i]) > 3 { // far outside: a finite wall
				return 1e6
			}
		}
		s := 0.0
		for _, v := range residuals(logs) {
			s += v * v
		}
		return s
	}
	best, at := math.Inf(1), start
	for range 3 { // again from where it ended: the simplex can come to rest too soon
		res, err := optimize.Minimize(optimize.Problem{Func: sum}, at,
			&optimize.Settings{FuncEvaluations: 500, Converger: &optimize.FunctionConverge{Absolute: 1e-5, Iterations: 40}},
			&optimize.NelderMead{SimplexSize: 0.15})
		if res == nil {
			return f, fmt.Errorf("the fit failed: %w", err)
		}
		best, at = res.F, res.X
	}
	if failed != nil {
		return f, failed
	}
	f.Kinetics, f.LagHours = with(at)
	f.ChiSquare = best
	for _, r := range f.Rows {
		v, _ := Measure(f.Kinetics, f.LagHours, r)
		f.Ours = append(f.Ours, v)
	}
	errs, err := standardErrors(sum, at)
	if err != nil {
		return f, err
	}
	for i, p := range parameters {
		f.Estimates = append(f.Estimates, Estimate{p.name, math.Exp(at[i]), errs[i], p.committed})
	}
	return f, nil
}

// standardErrors are the roots of the diagonal of twice the inverse of the chi
// square's second derivatives.
func standardErrors(sum func([]float64) float64, at []float64) ([]float64, error) {
	const h = 0.05
	n := len(at)
	value := func(i, j int, u, v float64) float64 {
		x := append([]float64(nil), at...)
		x[i] += u
		x[j] += v
		return sum(x)
	}
	second := mat.NewDense(n, n, nil)
	for i := range n {
		for j := range i + 1 {
			d := (value(i, j, h, h) - value(i, j, h, -h) - value(i, j, -h, h) + value(i, j, -h, -h)) / (4 * h * h)
			second.Set(i, j, d)
			second.Set(j, i, d)
		}
	}
	var inverse mat.Dense
	if err := inverse.Inverse(second); err != nil {
		return nil, fmt.Errorf("the record does not hold all constants: %w", err)
	}
	errs := make([]float64, n)
	for i := range errs {
		errs[i] = math.Sqrt(2 * inverse.At(i, i))
	}
	return errs, nil
}

// Print writes the fit for a person.
func (f Fit) Print(w io.Writer) {
	fmt.Fprintf(w, "chi square %.3f over %d rows and %d series, %d constants\n", f.ChiSquare, len(f.Rows), len(f.Series), len(f.Estimates))
	for _, e := range f.Estimates {
		fmt.Fprintf(w, "%-12s %.5g ± %.0f %%  (committed %.5g)\n", e.Name, e.Value, 100*e.RelStdErr, e.Committed)
	}
	for i, r := range f.Rows {
		fmt.Fprintf(w, "%-20s %9.4f ours %9.4f %-6s (%+.2f sd)\n", r.ID, r.Value, f.Ours[i], r.Unit, (f.Ours[i]-r.Value)/r.Sigma)
	}
	for i := range f.Series {
		if m, err := match(f.Kinetics, f.LagHours, &f.Series[i]); err == nil {
			fmt.Fprintf(w, "%-20s rate %.2f, lag %.1f h, end %.2f °P, scatter %.2f °P\n", f.Series[i].Name, m.Rate, m.LagHours, m.LastPlato, m.RMS(&f.Series[i]))
		}
	}
}
