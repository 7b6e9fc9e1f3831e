package ferment

import (
	"math"
	"math/rand/v2"
	"testing"
)

// drawPitched is a course as a prediction draws them, a strong wort or a weak one,
// with much simple sugar or little, cold or warm.
func drawPitched(r *rand.Rand) Pitched {
	simple := 0.08 + 0.5*r.Float64()
	p := Pitched{
		Fermentable: wort12.Times((0.4 + 1.2*r.Float64()) * (1 - simple)), VolumeShare: 1, BillionPerL: 2 + 20*r.Float64(),
		TemperatureC: 10 + 18*r.Float64(), LagHours: UsualLagHours * LagFactor(r.NormFloat64()), RateFactor: RateFactor(r.NormFloat64()),
		Shape: ShapeFactor(min(max(r.NormFloat64(), -3), 3)), HeightPlace: r.Float64(),
	}
	p.Fermentable.Glucose, p.Fermentable.Dextrin, p.Fermentable.Other = simple*120, 0, 0
	return p
}

// Where a course has two tops of nearly one height, the least change of what is
// fermented, or of how exactly it is followed, may put one of them in the place of
// the other. What is said of the height must not jump with it.
func TestHeightDoesNotJump(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(13, 3))
	var usual, exact, moved Walk
	exact.tolerance, moved.tolerance = 1e-10, 1e-10
	worst, jump, two := 0.0, 0.0, 0
	for range 3000 {
		p := drawPitched(r)
		usual.Run(p, nil)
		exact.Run(p, nil)
		if tops(&exact) > 1 {
			two++
		}
		if d := math.Abs(usual.HeightHours/exact.HeightHours - 1); d > worst {
			worst = d
		}
		q := p
		q.Fermentable.Glucose *= 1.0001
		moved.Run(q, nil)
		if d := math.Abs(moved.HeightHours/exact.HeightHours - 1); d > jump {
			jump = d
		}
	}
	t.Logf("heights err by %.2g and move by %.2g of themselves at most; %d courses have two tops above %g", worst, jump, two, flatFrom)
	if worst > 0.03 || jump > 0.005 {
		t.Errorf("a height errs by %.3f of itself, and moves by %.4f with a ten-thousandth more glucose", worst, jump)
	}
	if two < 20 {
		t.Errorf("only %d of the courses have two tops", two)
	}
}

// tops counts those of a walk that are above flatFrom.
func tops(w *Walk) (n int) {
	_, peak := w.top()
	last := 0.0
	rising := true
	for h := 0.0; h < w.Window[1]; h += 0.25 {
		rate := w.At(h).RateGPerLH
		if rising && rate < last && last > flatFrom*peak {
			n++
		}
		rising, last = rate > last, rate
	}
	return n
}
