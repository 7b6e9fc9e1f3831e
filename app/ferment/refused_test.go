package ferment

import (
	"errors"
	"strings"
	"testing"

	"skep/app/stage"
	"skep/calc"
	"skep/calc/quantity"
)

// A design that the engine refuses is shown as refused, with the reason, and none
// of the numbers of the design before it.
func TestARefusedDesignShowsNoNumbers(t *testing.T) {
	s := fermenting(t, 0)
	p, err := calc.NewEngine().Predict(s.Design())
	if err != nil {
		t.Fatal(err)
	}
	number := s.Say().Number(quantity.Gravity, p.FinalGravitySG.Mid)
	if got := stage.Texts(s.Window().Content()); !strings.Contains(got, number) {
		t.Fatalf("%s is not shown at all, so this shows nothing: %s", number, got)
	}
	s.ferment.answered(&frame{err: errors.New("no such beer")})
	if got := stage.Texts(s.Window().Content()); strings.Contains(got, number) || !strings.Contains(got, "refused: no such beer") {
		t.Errorf("%s is still shown, or no refusal: %s", number, got)
	}
}
