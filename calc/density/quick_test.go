package density

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The oracle is the exact function beside it.
func TestQuickIsTheSameFunction(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(-12, 60).Draw(t, "plato")
		if d := math.Abs(QuickSG(p) - SGFromPlato(p)); d > 1e-9 {
			t.Fatalf("%v °P: off by %g SG", p, d)
		}
		g := rapid.Float64Range(-5, 600).Draw(t, "g/L")
		if d := math.Abs(QuickPlato(g) - PlatoFromGramsPerLitre(g)); d > 1e-7 {
			t.Fatalf("%v g/L: off by %g °P", g, d)
		}
	})
}

func BenchmarkSGFromPlato(b *testing.B) {
	x := 0.0
	for b.Loop() {
		x = math.Mod(x+1.37, 20)
		SGFromPlato(x)
	}
}

func BenchmarkQuickSG(b *testing.B) {
	x := 0.0
	for b.Loop() {
		x = math.Mod(x+1.37, 20)
		QuickSG(x)
	}
}
