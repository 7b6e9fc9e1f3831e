package mixture

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// The exact quantile of t with four degrees of freedom, against gonum.
func TestHeavyQuantile(t *testing.T) {
	t.Parallel()
	dist := distuv.StudentsT{Sigma: 1, Nu: 4}
	for _, z := range []float64{-4, -2.5, -1, -0.2, 0, 0.001, 0.5, 1.2815515655446004, 3, 4} {
		want := dist.Quantile(distuv.UnitNormal.CDF(z))
		if got := heavyQuantile(z); !(math.Abs(got-want) <= 2e-5*(1+math.Abs(z))*(1+math.Abs(got))) {
			t.Errorf("quantile of %g: %g, expected %g", z, got, want)
		}
	}
}
