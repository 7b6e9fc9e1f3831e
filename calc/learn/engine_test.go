package learn

import (
	"math"
	"testing"

	"skep/calc"
	"skep/calc/design"
)

// What the lessons say reaches the engine: the bands of original gravity and
// height narrow, the height moves by the lesson's factor, and the palate acts
// as it does here.
func TestLessonsReachTheEngine(t *testing.T) {
	t.Parallel()
	batches, d := history(t, 12)
	l := Learn(batches, d)
	applied, doubts, _ := l.Apply(d, nil)
	predict := func(d design.Design, x calc.Doubts) calc.Prediction {
		t.Helper()
		e := calc.NewEngine()
		if err := e.SetDoubts(x); err != nil {
			t.Fatal(err)
		}
		p, err := e.Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	without, with := predict(applied, calc.Doubts{}), predict(applied, doubts.Engine())
	if a, b := without.OriginalGravitySG, with.OriginalGravitySG; (b.High-b.Low > a.High-a.Low) != (doubts.EfficiencySD > efficiencySD) {
		t.Errorf("efficiency ± %.2f: the original gravity is %+v, was %+v", doubts.EfficiencySD, b, a)
	}
	factor := doubts.Clock[0].TimeFactor
	if got := with.HeightHours.Mid / without.HeightHours.Mid; math.Abs(got/factor-1) > 0.02 {
		t.Errorf("the height moved by %.3f, want %.3f", got, factor)
	}
	b := with.Dryness
	low, mid, high := doubts.Dryness.Perceived(b.Low, b.Mid, b.High)
	if got := with.Perceived(doubts.Engine()).Dryness; math.Abs(got.Low-low)+math.Abs(got.Mid-mid)+math.Abs(got.High-high) > 1e-9 {
		t.Errorf("perceived as %+v, here %v %v %v", got, low, mid, high)
	}
	if got := predict(d, (Doubts{}).Engine()).HeightHours; got != predict(d, calc.Doubts{}).HeightHours {
		t.Error("nothing told, and the height is another")
	}
	wild := Doubts{EfficiencySD: 99, MaltSD: 99, SweetShare: 1, Clock: []ClockDoubts{{1e9, 99}, {1e-9, 0}, {}}, Body: TasteDoubts{1e6, 1e6, 1, true}}
	if err := calc.NewEngine().SetDoubts(wild.Engine()); err != nil {
		t.Error(err)
	}
}
