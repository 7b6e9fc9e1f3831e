package taste

import (
	"fmt"
	"strings"
	"testing"

	"skep/app/stage"
	"skep/calc/density"
	"skep/calc/quantity"
)

// A number that is opened is in the person's units, its band, what went in and
// what a step of a lever would change. 1.8 °F are 1 K, 0.264 US gal a litre.
func TestAnOpenedNumberIsInThePersonsUnits(t *testing.T) {
	s := tasteStage(t)
	l := &explainLive{}
	a := l.answer(explainAsk{s.Taught(), "final_gravity_sg"})
	if a.err != nil {
		t.Fatal(a.err)
	}
	opened := func() string {
		s.taste.explained(a)
		defer s.Window().Canvas().Overlays().Remove(s.Window().Canvas().Overlays().Top())
		return stage.Texts(s.Window().Canvas().Overlays().Top())
	}
	metric := opened()
	if want := fmt.Sprintf("%.4f (%.4f to %.4f) SG", a.of.Band.Mid, a.of.Band.Low, a.of.Band.High); !strings.Contains(metric, want) || !strings.Contains(metric, "+1.0 °C:") {
		t.Fatalf("%q is not in %s", want, metric)
	}
	s.Prefs.Units = quantity.Units{Temperature: quantity.F, Gravity: quantity.Plato, Volume: quantity.USGallon, Mass: quantity.Lb, DecimalComma: true}
	s.SetUnits()
	got := opened()
	plato := func(sg float64) string {
		return strings.Replace(fmt.Sprintf("%.2f", density.PlatoFromSG(sg)), ".", ",", 1)
	}
	for _, want := range []string{
		plato(a.of.Band.Mid) + " (" + plato(a.of.Band.Low) + " to " + plato(a.of.Band.High) + ") °P", "+1,8 °F:", "+0,26 gal:", "+3,5 oz:",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in %s", want, got)
		}
	}
	for _, not := range []string{" SG", "°C:", " L:", " kg"} {
		if strings.Contains(strings.ReplaceAll(got, "SG from AE", ""), not) {
			t.Errorf("%q is still in %s", not, got)
		}
	}
}
