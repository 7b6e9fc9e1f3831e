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
		want := KgM3FromSG(SGFromPlato(PlatoFromGramsPerLitre(g)))
		// 1.5e-9 at half a gram per litre, where the curve is bent to 0 °P; to the last bit from 20 g/L on.
		if d := math.Abs(WortKg(g, 1000)/want - 1); d > 2e-9 {
			t.Fatalf("%v g/L: the mass is off by %g of it", g, d)
		}
	})
}

// Newton's steps need the slopes: each is its function's difference quotient.
func TestSlopes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(0, 80).Draw(t, "temperature")
		for what, x := range map[string]struct {
			f  func(float64) (float64, float64)
			at float64
		}{
			"sucrose": {func(x float64) (float64, float64) { return sucroseDensity(x, c) }, rapid.Float64Range(-0.1, 0.8).Draw(t, "share")},
			"index":   {brixOfN, rapid.Float64Range(MinRefractiveIndex, MaxRefractiveIndex).Draw(t, "index")},
			"bell":    {bell, 1 + bellSG*rapid.Float64Range(-4, 4).Draw(t, "bell")},
		} {
			const h = 1e-6
			up, _ := x.f(x.at + h)
			down, _ := x.f(x.at - h)
			if _, slope := x.f(x.at); math.Abs(slope-(up-down)/(2*h)) > 1e-4*(1+math.Abs(slope)) {
				t.Fatalf("%s at %v: slope %v, quotient %v", what, x.at, slope, (up-down)/(2*h))
			}
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
