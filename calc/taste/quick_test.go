package taste

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The oracle is the exponential itself.
func TestNotSweetIsTheExponential(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.Float64Range(-5, 100).Draw(t, "g/L")
		if d := math.Abs(notSweet(s) - math.Exp(-s/6)); d > 1e-10 {
			t.Fatalf("%v g/L: off by %g", s, d)
		}
	})
}
