package water_test

import (
	"testing"

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
	for _, x := range [][4]float64{{0, 1.05, 1.04, 2}, {20, 1, 1.04, 2}, {20, 1.05, 1, 2}, {20, 1.04, 1.05, 0}} {
		if c, ok := water.Correct(x[0], x[1], x[2], x[3]); ok || c != (water.Correction{}) {
			t.Errorf("%v gives %+v", x, c)
		}
	}
}
