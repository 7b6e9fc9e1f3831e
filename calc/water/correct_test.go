package water_test

import (
	"testing"

	"pgregory.net/rapid"

	"skep/calc/density"
	"skep/calc/water"
)

// TestCorrect: by points times litres (common practice, no source): 20 L of
// 1.060 to 1.050 take 4 L of water; 20 L of 1.045 to 1.050 lose 2 L, an hour at
// 2 L/h. Masses move that by 2 %.
func TestCorrect(t *testing.T) {
	t.Parallel()
	c, ok := water.Correct(20, 1.060, 1.050, 2)
	near(t, "water", c.AddL, 4, 0.08)
	near(t, "no longer", c.LongerMinutes, 0, 0)
	if !ok {
		t.Error("refused")
	}
	c, ok = water.Correct(20, 1.045, 1.050, 2)
	near(t, "longer", c.LongerMinutes, 60, 2)
	near(t, "no water", c.AddL, 0, 0)
	if !ok {
		t.Error("refused")
	}
	if c, ok := water.Correct(20, 1.05, 1.05, 0); !ok || c != (water.Correction{}) {
		t.Errorf("as strong as wanted: %+v %v", c, ok)
	}
	for _, x := range [][4]float64{{0, 1.05, 1.04, 2}, {20, 1, 1.04, 2}, {20, 1.05, 1, 2}, {20, 1.04, 1.05, 0}, {20, 1.04, 1.05, -1}} {
		if c, ok := water.Correct(x[0], x[1], x[2], x[3]); ok || c != (water.Correction{}) {
			t.Errorf("%v gives %+v", x, c)
		}
	}
}

// TestCorrectBalances: the extract is the same before and after, to the
// microgram: only water comes or goes.
func TestCorrectBalances(t *testing.T) {
	t.Parallel()
	const waterKgPerL = 0.9982031
	rapid.Check(t, func(t *rapid.T) {
		litres, steam := rapid.Float64Range(5, 60).Draw(t, "L"), rapid.Float64Range(1, 5).Draw(t, "steam")
		now, wanted := rapid.Float64Range(1.02, 1.1).Draw(t, "now"), rapid.Float64Range(1.02, 1.1).Draw(t, "wanted")
		c, ok := water.Correct(litres, now, wanted, steam)
		if !ok {
			return // more than a day of boiling
		}
		kg := litres * density.KgM3FromSG(now) / 1000
		after := kg + (c.AddL-c.LongerMinutes/60*steam)*waterKgPerL
		if a, b := kg*density.PlatoFromSG(now), after*density.PlatoFromSG(wanted); a-b > 1e-6*a || b-a > 1e-6*a {
			t.Fatalf("extract %v before, %v after: %+v", a, b, c)
		}
	})
}
