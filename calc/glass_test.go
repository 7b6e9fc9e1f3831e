package calc

import (
	"math"
	"testing"

	"skep/assets/demotest"
)

// The glass of a predicted beer tastes as the prediction says.
func TestGlassOfAPredictedBeer(t *testing.T) {
	t.Parallel()
	e := NewEngine()
	b, err := e.Brew(demotest.Design(t, "middle"), 0)
	if err != nil {
		t.Fatal(err)
	}
	var x Draw
	b.Draw(&b.mid, &x)
	g := x.Beer.Glass()
	if dry, full := g.Taste(0, 0); math.Abs(dry-x.Dryness) > 1e-9 || math.Abs(full-x.Body) > 1e-9 {
		t.Errorf("%v %v, want %v %v", dry, full, x.Dryness, x.Body)
	}
}

// A palate that is known moves what is predicted, and narrows it.
func TestAKnownPalateNarrowsDryness(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	e := NewEngine()
	plain, err := e.Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	if err := e.SetDoubts(Doubts{MaltSweet: Score{Mean: 1, SD: 0.5}, AlcoholFull: Score{Mean: -1, SD: 0.5}}); err != nil {
		t.Fatal(err)
	}
	own, err := e.Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	if !(own.Dryness.Mid < plain.Dryness.Mid && own.Body.Mid < plain.Body.Mid) {
		t.Errorf("dryness %+v, body %+v; a stranger's %+v, %+v", own.Dryness, own.Body, plain.Dryness, plain.Body)
	}
	if !(own.Dryness.High-own.Dryness.Low < plain.Dryness.High-plain.Dryness.Low) {
		t.Errorf("dryness %+v is no surer than %+v", own.Dryness, plain.Dryness)
	}
	if err := e.SetDoubts(Doubts{MaltSweet: Score{Mean: 3}}); err == nil {
		t.Error("a score of 3 is taken")
	}
	if err := e.SetDoubts(Doubts{}); err != nil {
		t.Fatal(err)
	}
	if again, err := e.Predict(d); err != nil || again.Dryness != plain.Dryness {
		t.Errorf("%+v, %v; want %+v", again.Dryness, err, plain.Dryness)
	}
}
