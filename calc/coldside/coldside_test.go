package coldside_test

import (
	"fmt"
	"math"
	"testing"

	"skep/calc/alcohol"
	"skep/calc/coldside"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tolerance)
	}
}

// A quarter of an hour at 60 °C is 15 pasteurisation units.
func ExamplePasteurisationUnits() {
	units, err := coldside.PasteurisationUnits(10, 65)
	fmt.Printf("%.1f %v\n", units, err)
	// Output: 52.5 <nil>
}

// 4 g/L of hops, a week at 18 °C with the yeast in it.
func ExampleCreep() {
	fall := coldside.Creep(4, 7, 18)
	fmt.Printf("%.1f °P (%.1f to %.1f)\n", fall.Mid, fall.Low, fall.High)
	// Output: 0.3 °P (0.0 to 0.6)
}

// TestCreep: Kirkpatrick and Shellhammer 2018: 10 g/L Cascade, 20 °C, 1 °P of
// real extract in 5 days, about twice that in 40.
func TestCreep(t *testing.T) {
	t.Parallel()
	real := func(days float64) float64 { return alcohol.RealPerApparent * coldside.Creep(10, days, 20).High }
	near(t, "real extract in 5 days", real(5), 1, 0.02)
	near(t, "in 40 days", real(40), 2, 0.05)
	for _, more := range []coldside.Fall{coldside.Creep(12, 5, 20), coldside.Creep(10, 6, 20), coldside.Creep(10, 5, 22)} {
		if base := coldside.Creep(10, 5, 20); !(more.High > base.High && more.Mid > base.Mid && more.Low == 0) {
			t.Errorf("%+v is not more than %+v", more, base)
		}
	}
	for _, none := range []coldside.Fall{coldside.Creep(0, 5, 20), coldside.Creep(5, 0, 20), coldside.Creep(math.NaN(), 5, 20), coldside.Creep(5, 5, math.NaN())} {
		if none != (coldside.Fall{}) {
			t.Errorf("%+v of nothing", none)
		}
	}
}

// TestPasteurise: MEBAK's formula worked out apart, and two yeasts' spores.
func TestPasteurise(t *testing.T) {
	t.Parallel()
	for _, r := range [][3]float64{{15, 60, 15}, {20, 62, 38.8}, {10, 65, 52.4}, {30, 58, 15.5}, {30, 55, 5.7}} {
		got, err := coldside.PasteurisationUnits(r[0], r[1])
		if err != nil {
			t.Error(err)
		}
		near(t, "units", got, r[2], 0.06)
	}
	for _, r := range []struct {
		of   coldside.Spores
		want float64
	}{{coldside.HardestSpores, 1.3}, {coldside.SofterSpores, 2.5}} {
		got, err := r.of.LogReduction(15, 60)
		if err != nil {
			t.Error(err)
		}
		near(t, "powers of ten", got, r.want, 0.05)
		warmer, _ := r.of.LogReduction(15, 60+r.of.ZC)
		near(t, "ten times quicker", warmer, 10*got, 1e-9)
	}
	for _, bad := range [][2]float64{{10, 40}, {10, 80}, {-1, 60}, {math.NaN(), 60}} {
		if _, err := coldside.PasteurisationUnits(bad[0], bad[1]); err == nil {
			t.Errorf("%v is not refused", bad)
		}
		if _, err := coldside.HardestSpores.LogReduction(bad[0], bad[1]); err == nil {
			t.Errorf("%v is not refused for spores", bad)
		}
	}
}

// TestCereals: what a grist's names tell.
func TestCereals(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		grains []string
		want   string
	}{
		{[]string{"Pale malt", "Wheat malt"}, "[barley wheat]"},
		{[]string{"Flaked oats", "Rye malt", "Sugar"}, "[oats rye]"},
		{[]string{"Table sugar", "Flaked maize", "Buckwheat malt"}, "[]"},
		{[]string{"Spelt malt"}, "[wheat]"},
		{[]string{"Crystal 120"}, "[barley]"},
		{[]string{"Weizenmalz hell", "Haferflocken", "Rübenzucker"}, "[wheat oats]"},
		{[]string{"Słód pszeniczny", "Słód żytni", "Cukier"}, "[wheat rye]"},
		{[]string{"Buchweizen", "Reisflocken"}, "[]"},
	} {
		if got := fmt.Sprint(coldside.Cereals(c.grains)); got != c.want {
			t.Errorf("%v: %s, want %s", c.grains, got, c.want)
		}
	}
}

func TestTainted(t *testing.T) {
	t.Parallel()
	if coldside.Tainted("Lime blossom") || !coldside.Tainted("Spring honey, Black Sea coast") {
		t.Error("honeys of rhododendron are told wrongly")
	}
}
