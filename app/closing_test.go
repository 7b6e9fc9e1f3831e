package app

import (
	"slices"
	"testing"
	"time"

	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/measured"
)

// brewDay is a midsummer brew day at Gate Field.
var brewDay = time.Date(2026, 6, 20, 14, 0, 0, 0, time.UTC)

// clock sets the Ferment place's clock so many hours after pitching.
func clock(s *scene, hours float64) {
	s.Clock = func() time.Time { return brewDay.Add(time.Duration(hours * float64(time.Hour))) }
}

// logTo writes readings into the design, as the Ferment place does.
func logTo(t *testing.T, s *scene) func(what string, value, hours float64) {
	return func(what string, value, hours float64) {
		t.Helper()
		r := design.NewReading()
		r.What, r.Value, r.At = what, value, brewDay.Add(time.Duration(hours*float64(time.Hour)))
		if err := s.Edit("reading", func(d *design.Design) { d.Reading = append(d.Reading, r) }); err != nil {
			t.Fatal(err)
		}
		s.settle()
	}
}

// One brew from pitching to the ledger, as the club would do it: readings, one
// that surprises, the honey at its hour, a re-tune, the end, and a next
// prediction that is surer for it.
func TestABrewFromPitchingToTheLedger(t *testing.T) {
	s := newStage(t, "")
	log := logTo(t, s)
	log(measured.OriginalGravity, 1.041, -0.5)
	log(measured.Pitched, 1, 0)
	clock(s, 40)
	s.goTo(3)
	s.settle()
	s.Prefs.Ledger = t.TempDir()
	planned := s.Design()

	// One gravity among three that no beer can have: what comes after it says so.
	log(measured.Gravity, 1.036, 20)
	log(measured.Gravity, 1.004, 28)
	log(measured.Gravity, 1.029, 36)
	s.settle()
	if !slices.ContainsFunc(s.ferment.Batch().Timeline.Points, func(p measured.Point) bool { return p.Value == 1.004 && p.Has(measured.Spike) && !p.Used }) {
		t.Error("1.004 after 28 h, with 1.036 before and 1.029 after it, is taken without a word")
	}
	ui.Change(s, "take out", func(d *design.Design) {
		d.Reading = slices.DeleteFunc(d.Reading, func(r design.Reading) bool { return r.What == measured.Gravity && r.Value == 1.004 })
	})
	s.settle()
	if open := s.ferment.Batch().Moment; open.Phase == follow.Past {
		t.Errorf("the honey moment is %v after 40 h", open.Phase)
	}

	// The honey, less than was planned: what is left is tuned, then locked.
	clock(s, 52)
	log(measured.HoneyAdded, 0.5, 50)
	s.settle()
	if b := s.ferment.Batch(); len(b.Honey.Steps) != 1 || b.Honey.EffectiveOriginalGravitySG.Mid <= 1.041 {
		t.Error("the honey is not reckoned with")
	}

	clock(s, 320)
	for _, r := range []struct {
		what        string
		value, when float64
	}{
		{measured.Gravity, 1.008, 200}, {measured.FinalGravity, 1.008, 280},
	} {
		log(r.what, r.value, r.when)
		s.settle()
	}
	if b := s.ferment.Batch().Bottle; b.Verdict == follow.Wait {
		t.Errorf("two equal readings days apart, and the bottle check says wait: %v", b.Reasons)
	}
	s.ferment.CloseBatch() // says once what was never written down
	s.ferment.CloseBatch()
	s.settle()
	if n := len(s.ledger.Answer.Entries); n != 1 {
		t.Fatalf("%d batches in the ledger, %v", n, s.ledger.Answer.Err)
	}
	if used := s.Taught().Lessons; len(used) != 0 {
		t.Errorf("the batch has taught the prediction of itself: %v", used)
	}

	// The next brew of the same design is predicted more narrowly.
	s.brewThisAgain()
	s.settle()
	planned.Reading = nil
	width := func(d design.Design, x calc.Doubts) float64 {
		e := calc.NewEngine()
		if err := e.SetDoubts(x); err != nil {
			t.Fatal(err)
		}
		p, err := e.Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		return p.FinalGravitySG.High - p.FinalGravitySG.Low
	}
	if err := s.Edit("as planned", func(d *design.Design) { *d = planned }); err != nil {
		t.Fatal(err)
	}
	s.settle()
	taught := s.Taught()
	next, doubts, used := taught.Design, taught.Doubts, taught.Lessons
	if before, after := width(planned, calc.Doubts{}), width(next, doubts); len(used) == 0 || after >= before {
		t.Errorf("%d lessons; the band of the final gravity went from %.5f to %.5f", len(used), before, after)
	}
}
