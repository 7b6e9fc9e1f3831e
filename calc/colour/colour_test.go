package colour_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/colour"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tolerance)
	}
}

// TestMorey: D. A. Morey's formula worked out; 15.2 MCU is 9.648 SRM (a page
// that says 9.8, and a copy with the exponent 0.65896859, are wrong).
func TestMorey(t *testing.T) {
	t.Parallel()
	for _, r := range [][2]float64{{2, 2.401}, {10, 7.240}, {15.2, 9.648}, {15.6, 9.82}, {40, 18.736}} {
		near(t, "SRM", colour.MoreySRM(r[0]), r[1], 0.003)
	}
	near(t, "EBC of 20 MCU", colour.MoreyEBC(20), 22.93, 0.01)
	near(t, "no malt", colour.MoreySRM(0), 0, 0)
	near(t, "less than no malt", colour.MoreySRM(-1), 0, 0)
	near(t, "no wort", colour.MCU(1, 2, 0), 0, 0)
	near(t, "example, MCU", colour.MCU(4, 2, 20)+colour.MCU(0.3, 20, 20), 5.8418, 1e-3)
}

// TestLovibond: 10 °L is about 12.7 SRM and 40 °L about 53.4 (an
// encyclopaedia's page on the method).
func TestLovibond(t *testing.T) {
	t.Parallel()
	near(t, "10 °L", colour.EBCFromLovibond(10)/1.9685, 12.7, 0.1)
	near(t, "40 °L", colour.EBCFromLovibond(40)/1.9685, 53.4, 0.1)
	near(t, "none", colour.LovibondFromEBC(0), 0, 0)
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.Float64Range(0, 600).Draw(t, "lovibond")
		if back := colour.LovibondFromEBC(colour.EBCFromLovibond(l)); math.Abs(back-l) > 1e-9*(1+l) {
			t.Fatalf("%v °L comes back as %v", l, back)
		}
	})
}

func TestBeer(t *testing.T) {
	t.Parallel()
	mcu := colour.MCU(4, colour.LovibondFromEBC(2*1.9685), 20) + colour.MCU(0.3, 20, 20)
	low, mid, high := colour.Beer(mcu)
	near(t, "4 kg of 2 °L and 0.3 kg of 20 °L in 20 L", mid, 5.007*1.9685, 0.01)
	if !(low < 0.8*mid && high > 1.2*mid) {
		t.Errorf("band %v to %v about %v", low, high, mid)
	}
	if low, mid, high := colour.Beer(0); low != 0 || mid != 0 || high != 0 {
		t.Errorf("nothing: %v %v %v", low, mid, high)
	}
}
