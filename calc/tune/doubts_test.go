package tune

import (
	"math"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
)

// A tuner lands with the doubts of the engine that it is made with, and so
// where that engine predicts.
func TestTunerHasTheEnginesDoubts(t *testing.T) {
	t.Parallel()
	d, e := demotest.Design(t, "middle"), calc.NewEngine()
	own := predict(t, e, d)
	if err := e.SetDoubts(calc.Doubts{EfficiencySD: 0.8, MaltSD: 1.5, SweetShare: 0.4}); err != nil {
		t.Fatal(err)
	}
	tu, err := New(e, d)
	if err != nil {
		t.Fatal(err)
	}
	l, err := tu.Land()
	if err != nil {
		t.Fatal(err)
	}
	p := predict(t, e, d)
	if l.Bands != p.Four() {
		t.Errorf("the tuner lands on %+v, the engine predicts %+v", l.Bands, p.Four())
	}
	palate := calc.Doubts{Dryness: calc.Palate{Shift: -12, SD: 5}, Body: calc.Palate{Shift: 8, SD: 4}}
	if err := e.SetDoubts(palate); err != nil {
		t.Fatal(err)
	}
	// The one made before keeps what it was made with, but for what its engine
	// predicts: an engine of its own.
	tu = tuner(t, d)
	perceiving, err := New(e, d)
	if err != nil {
		t.Fatal(err)
	}
	// The pin is where the beer is to be perceived: what lands there is another
	// beer than without the palate, by about as much as the palate is off.
	pin := taste(own.Dryness.Mid-12, own.Body.Mid+8, no)
	for _, c := range []struct {
		tu      *Tuner
		dry     float64
		nowhere bool
	}{{perceiving, own.Dryness.Mid - 12, false}, {tu, own.Dryness.Mid - 12, true}} {
		r, err := c.tu.To(pin, Levers{})
		if err != nil {
			t.Fatal(err)
		}
		if r.Reached == c.nowhere {
			t.Errorf("as it stands it lands at %+v, wanted %+v: reached %v", r.Ways[0].Prediction.Dryness, c.dry, r.Reached)
		}
	}
	far := taste(own.Dryness.Mid-30, no, no)
	r, err := perceiving.To(far, Free(nil))
	if err != nil || !r.Reached {
		t.Fatalf("%+v, %v", r, err)
	}
	if got := r.Ways[0].Prediction.Dryness.Mid; math.Abs(got-(own.Dryness.Mid-30)) > ReachedIndex {
		t.Errorf("it is perceived at %v, wanted %v", got, own.Dryness.Mid-30)
	}
	if index := predict(t, calc.NewEngine(), r.Ways[0].Design).Dryness.Mid; math.Abs(index-(own.Dryness.Mid-18)) > 2*ReachedIndex {
		t.Errorf("the index of that beer is %v, wanted about %v", index, own.Dryness.Mid-18)
	}
	if was := own.Dryness; l.Bands[calc.Dryness].High-l.Bands[calc.Dryness].Low >= was.High-was.Low {
		t.Errorf("less doubt, and dryness is %+v, was %+v", l.Bands[calc.Dryness], was)
	}
}
