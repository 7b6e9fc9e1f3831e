package explain

import (
	"math"
	"strings"
	"testing"

	"skep/assets"
	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/recipe"
)

func inputOf(t *testing.T, d design.Design, key, begins string) (Input, bool) {
	t.Helper()
	e, err := Explain(calc.NewEngine(), d, key)
	if err != nil {
		t.Fatal(err)
	}
	for _, in := range e.Inputs {
		if strings.HasPrefix(in.Name.String(), begins) {
			return in, true
		}
	}
	return Input{}, false
}

// The pH of the mash is shown where the mash is, and is that of the water's step.
func TestMashPHIsAnInput(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	if in, found := inputOf(t, d, "wort.maltose", "pH of the mash"); found {
		t.Errorf("nothing is said of the water, and yet %+v", in)
	}
	d.Water = &design.Water{Calcium: 80, Magnesium: 5, Bicarbonate: 180}
	_, want, _, ok := recipe.MashPH(d)
	in, found := inputOf(t, d, "wort.maltose", "pH of the mash")
	if !ok || !found || in.Value != want || in.Unit != "pH" || !(want > 5 && want < 6.2) {
		t.Errorf("pH of the mash: %+v (found %v), by hand %v (known %v)", in, found, want, ok)
	}
}

// White 1962: 29.12 mEq of acid in a kilogram of honey; beer holds about 15
// mEq/(L pH) against it (from memory). The demonstration's 550 g in 15 L or so.
func TestHoneyAcidIsAnInput(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	want := 29.12 * d.Honey[0].MassKg / d.Batch.IntoFermenterL / 15
	in, found := inputOf(t, d, "honey_character", "beside the index: the honey's acid")
	if !found || math.Abs(in.Value-want) > 0.1*want {
		t.Errorf("acid of the honey: %+v (found %v), by hand %.3f", in, found, want)
	}
}

// Honey leaves what no yeast takes: 5 to 10 % of its solids do not ferment (White 1962:
// higher sugars, acids, what he could not tell), and a beer without honey has none of it.
func TestWhatHoneyLeavesIsAnInput(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	in, found := inputOf(t, d, "body", "of what is left, honey's")
	kg := 0.0
	for _, h := range d.Honey {
		kg += h.MassKg
	}
	if most := 0.15 * 1000 * kg / d.Batch.IntoFermenterL; !found || !(in.Value > 0.2 && in.Value < most) {
		t.Errorf("honey leaves %+v (found %v), expected up to %.2f g/L", in, found, most)
	}
	d.Honey = nil
	if in, _ := inputOf(t, d, "body", "of what is left, honey's"); in.Value != 0 {
		t.Errorf("without honey it leaves %+v", in)
	}
}
