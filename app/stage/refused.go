package stage

import (
	"strings"
	"testing"

	"skep/calc"
	"skep/calc/message"
	"skep/calc/quantity"
)

// RefusedShowsNoNumbers sees that a design which the engine refuses is shown as
// refused, with the reason, and none of the numbers of the design before it.
func (s *Stage) RefusedShowsNoNumbers(t testing.TB, refuse func(error)) {
	t.Helper()
	p, err := calc.NewEngine().Predict(s.Design())
	if err != nil {
		t.Fatal(err)
	}
	number := s.Say().Number(quantity.Gravity, p.FinalGravitySG.Mid)
	if got := Texts(s.Window().Content()); !strings.Contains(got, number) {
		t.Fatalf("%s is not shown at all, so this shows nothing: %s", number, got)
	}
	refuse(message.Fault("no such beer"))
	if got := Texts(s.Window().Content()); strings.Contains(got, number) || !strings.Contains(got, "refused: ") || !strings.Contains(got, "no such beer") {
		t.Errorf("%s is still shown, or no refusal: %s", number, got)
	}
}
