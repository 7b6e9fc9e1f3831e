package honeyways_test

import (
	"math"
	"testing"
	"time"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/honeyways"
	"skep/calc/measured"
)

// What lands nearest is no further off than any amount of the ladder; more honey is
// stronger and drier; and without a pitch, or honey that is left, there is no way.
func TestWays(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "gate-field-middle.toml")
	at := time.Date(2026, 6, 6, 16, 0, 0, 0, time.UTC)
	strength := 6.5
	d.Reading, d.Taste.StrengthPct = nil, &strength
	ways := func() (honeyways.Ways, *follow.Batch, bool) {
		var f follow.Follower
		b, err := f.Follow(d, at.Add(30*time.Hour), measured.Instruments{}, calc.Doubts{})
		if err != nil {
			t.Fatal(err)
		}
		w, ok := honeyways.Of(b)
		return w, b, ok
	}
	if _, _, ok := ways(); ok {
		t.Error("a way before pitching")
	}
	d.Reading = []design.Reading{{What: measured.Pitched, At: at, Value: 1}}
	w, b, ok := ways()
	if !ok || len(w.Ladder) < 5 {
		t.Fatalf("%v, %d amounts", ok, len(w.Ladder))
	}
	for i, x := range w.Ladder {
		if x.Miss < w.Nearest.Miss-1e-9 {
			t.Errorf("%v kg misses by %.3f, less than the nearest's %.3f", x.MassKg, x.Miss, w.Nearest.Miss)
		}
		if i > 0 && !(x.Lands[calc.Strength].Mid > w.Ladder[i-1].Lands[calc.Strength].Mid && x.Lands[calc.Dryness].Mid > w.Ladder[i-1].Lands[calc.Dryness].Mid) {
			t.Errorf("%v kg is not stronger and drier than %v", x.MassKg, w.Ladder[i-1].MassKg)
		}
	}
	if planned := b.Conditioned.Design.Honey[w.Honey].MassKg; math.Abs(w.More.MassKg-planned-w.StepKg) > 1e-9 {
		t.Errorf("more is %v kg, planned %v and a step of %v", w.More.MassKg, planned, w.StepKg)
	}
	d.Honey = nil
	if _, _, ok := ways(); ok {
		t.Error("a way without honey")
	}
}
