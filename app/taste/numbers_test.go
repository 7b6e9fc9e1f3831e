package taste

import (
	"strings"
	"testing"

	"skep/app/stage"
	"skep/app/ui"
	"skep/calc/design"
)

// While a lever moves nobody works out when the beer is finished, for it stands in the
// list of numbers alone: the list never shows a figure that was not worked out, nor one
// of an earlier beer.
func TestTheNumbersNeverShowAnotherBeer(t *testing.T) {
	s := tasteStage(t)
	list := func() string { return stage.Texts(s.taste.Third.Numbers.Object) }
	s.taste.Third.Turn(1)
	s.WaitIdle()
	first := list()
	s.taste.Third.Turn(0)
	s.WaitIdle()
	ui.Move(s, "honey", design.LeverHoney, func(d *design.Design) { d.Honey[0].MassKg = 2 })
	s.WaitIdle()
	short := s.taste.Shown
	if short.finish || short.Prediction.HoneyWindowHours[0].Mid <= 0 {
		t.Fatalf("while a lever moves: %+v", short.Prediction)
	}
	s.taste.Third.Turn(1)
	if now := list(); now == first || !strings.Contains(now, ui.NoNumber) {
		t.Errorf("gone to while a lever moves, the list shows\n%s", now)
	}
	s.taste.show(&short) // one that was on its way
	if now := list(); !strings.Contains(now, ui.NoNumber) {
		t.Errorf("a frame without the finish shows\n%s", now)
	}
	s.WaitIdle()
	moving := list()
	if strings.Contains(moving, ui.NoNumber) || moving == first {
		t.Errorf("with the list shown, a moving lever's beer is\n%s", moving)
	}
	s.EndMove()
	s.WaitIdle()
	if now := list(); now != moving {
		t.Errorf("at rest the list shows\n%s\nbefore it was\n%s", now, moving)
	}
	s.taste.Third.Turn(0)
	s.taste.Third.Turn(1)
	if now := list(); now != moving {
		t.Errorf("gone to again, the list shows\n%s", now)
	}
}
