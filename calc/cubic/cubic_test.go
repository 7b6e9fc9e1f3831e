package cubic

import (
	"math"
	"testing"
)

// A cubic is its own table, ends and all; of another function the error falls with the
// fourth power of the step: h⁴/384 of the fourth derivative (de Boor, A Practical Guide
// to Splines, 1978, chapter 4).
func TestTable(t *testing.T) {
	own := New(-2, 3, 0.5, func(x float64) (float64, float64) { return 1 + x*(2-x*(3-x)), 2 - x*(6-3*x) })
	for x := -2.0; x <= 3; x += 1.0 / 64 {
		if want := 1 + x*(2-x*(3-x)); math.Abs(own.At(x)-want) > 1e-14 {
			t.Errorf("at %v: %v, want %v", x, own.At(x), want)
		}
	}
	for _, h := range []float64{1, 0.5, 0.125} {
		e := New(0, 4, h, func(x float64) (float64, float64) { return math.Exp(-x), -math.Exp(-x) })
		worst := 0.0
		for x := 0.0; x <= 4; x += 1.0 / 512 {
			worst = math.Max(worst, math.Abs(e.At(x)-math.Exp(-x)))
		}
		if most := h * h * h * h / 384; worst > most || worst < most/4 {
			t.Errorf("step %v: off by %v, want near %v", h, worst, most)
		}
	}
}

func BenchmarkTable(b *testing.B) {
	e := New(0, 4, 0.125, func(x float64) (float64, float64) { return math.Exp(-x), -math.Exp(-x) })
	x := 0.0
	for b.Loop() {
		x = math.Mod(x+1.37, 4)
		e.At(x)
	}
}
