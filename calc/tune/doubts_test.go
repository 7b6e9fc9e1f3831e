package tune

import (
	"testing"

	"skep/calc"
)

// A tuner lands with the doubts of the engine that it is made with, and so
// where that engine predicts.
func TestTunerHasTheEnginesDoubts(t *testing.T) {
	t.Parallel()
	d, e := demo(t, "middle"), calc.NewEngine()
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
	if was := own.Dryness; l.Bands[calc.Dryness].High-l.Bands[calc.Dryness].Low >= was.High-was.Low {
		t.Errorf("less doubt, and dryness is %+v, was %+v", l.Bands[calc.Dryness], was)
	}
}
