package leastsquares_test

import (
	"errors"
	"math"
	"testing"

	"skep/calc/leastsquares"
)

// TestMisra1a is the certified problem Misra1a of NIST's Statistical Reference
// Datasets, dental research monomolecular adsorption: y = b1 (1 - exp(-b2 x)),
// 14 points, started from its first starting values; b2 is scaled by 1e-3, as a
// search wants its constants of one size. Values from memory, and they hold
// together: the residual sum of squares comes out to all certified digits.
func TestMisra1a(t *testing.T) {
	t.Parallel()
	x := [...]float64{77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0}
	y := [...]float64{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78}
	fit, err := leastsquares.Minimise(func(dst, b []float64) {
		for i := range x {
			dst[i] = b[0]*-math.Expm1(-1e-3*b[1]*x[i]) - y[i]
		}
	}, len(x), []float64{500, 0.1})
	if err != nil {
		t.Fatal(err)
	}
	const rss = 1.2455138894e-01
	near := func(what string, got, want, relative float64) {
		if math.Abs(got-want) > relative*want {
			t.Errorf("%s = %.10g, certified %.10g", what, got, want)
		}
	}
	near("b1", fit.X[0], 2.3894212918e+02, 1e-6)
	near("b2", fit.X[1], 0.55015643181, 1e-6)
	near("residual sum of squares", fit.SumSquares, rss, 1e-8)
	// Certified errors are scaled by the residuals' own standard deviation.
	sd := math.Sqrt(rss / float64(len(x)-2))
	near("error of b1", fit.StdErr[0]*sd, 2.7070075241, 1e-4)
	near("error of b2", fit.StdErr[1]*sd, 7.2668688436e-3, 1e-4)
}

// TestStraightLine: y = 1 + 2x through three points of sigma 0.1, whose normal
// equations are done by hand: a variance of 5/6 and 1/2 times 0.01.
func TestStraightLine(t *testing.T) {
	t.Parallel()
	fit, err := leastsquares.Minimise(func(dst, b []float64) {
		for i, y := range []float64{1, 3, 5} {
			dst[i] = (b[0] + b[1]*float64(i) - y) / 0.1
		}
	}, 3, []float64{0, 0})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{1, 2} {
		if math.Abs(fit.X[i]-want) > 1e-6 {
			t.Errorf("constant %d = %v, want %v", i, fit.X[i], want)
		}
	}
	for i, want := range []float64{0.1 * math.Sqrt(5.0/6), 0.1 * math.Sqrt(0.5)} {
		if math.Abs(fit.StdErr[i]-want) > 1e-6 {
			t.Errorf("error %d = %v, want %v", i, fit.StdErr[i], want)
		}
	}
}

// TestUnknown: a constant that no residual tells of has no finite error, and a
// start that is no number is refused.
func TestUnknown(t *testing.T) {
	t.Parallel()
	fit, err := leastsquares.Minimise(func(dst, b []float64) { dst[0], dst[1] = b[0]-3, b[0]-5 }, 2, []float64{1, 7})
	if err != nil || math.Abs(fit.X[0]-4) > 1e-6 || fit.X[1] != 7 || !math.IsInf(fit.StdErr[1], 1) {
		t.Errorf("%+v, %v", fit, err)
	}
	if _, err := leastsquares.Minimise(func(dst, _ []float64) { dst[0] = math.NaN() }, 1, []float64{1}); !errors.Is(err, leastsquares.ErrNotFinite) {
		t.Errorf("%v", err)
	}
}
