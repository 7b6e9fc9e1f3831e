package boil_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/boil"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tolerance)
	}
}

// TestTinseth: rows of the posted table (the whole table:
// testdata/boil).
func TestTinseth(t *testing.T) {
	t.Parallel()
	for _, r := range [][3]float64{{3, 1.030, .034}, {15, 1.050, .114}, {30, 1.080, .135}, {33, 1.130, .091}, {30, 1.057, .166}} {
		near(t, "utilisation", boil.TinsethUtilisation(r[0], r[1]), r[2], 0.0005)
	}
	near(t, "nothing at once", boil.TinsethUtilisation(0, 1.05), 0, 0)
	near(t, "nothing before", boil.TinsethUtilisation(-5, 1.05), 0, 0)
}

// TestIsomerise: check points of J.-P. Hosom, articles 10 and 13, for the
// constants of Malowicki & Shellhammer 2005.
func TestIsomerise(t *testing.T) {
	t.Parallel()
	near(t, "k1 at 100 °C", boil.IsoRate(100), 0.01249, 1e-5)
	near(t, "k2 at 100 °C", boil.LossRate(100), 3.0873e-3, 1e-6)
	near(t, "iso, 30 min at 100 °C", boil.Isomerise(100, 30).Iso, 0.2976, 1e-4)
	near(t, "iso, 19 min at 62.8 °C", boil.Isomerise(62.8, 19).Iso/boil.Isomerise(100, 19).Iso, 0.034, 0.0005)
	if got := boil.Isomerise(100, -1); got != (boil.Acids{AlphaLeft: 1}) {
		t.Errorf("before the hops: %+v", got)
	}
	// Iso-alpha is greatest after 149 min at 100 °C, 63 at 110 (same constants).
	for _, r := range [][2]float64{{100, 149}, {110, 63}} {
		top := boil.Isomerise(r[0], r[1]).Iso
		if boil.Isomerise(r[0], r[1]-4).Iso > top || boil.Isomerise(r[0], r[1]+4).Iso > top {
			t.Errorf("iso-alpha is not greatest at %v min and %v °C", r[1], r[0])
		}
	}
}

func TestAcidsAreConserved(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(40, 140).Draw(t, "temperature")
		m := rapid.Float64Range(0, 1440).Draw(t, "minutes")
		a := boil.Isomerise(c, m)
		if a.AlphaLeft < 0 || a.Iso < 0 || a.Degraded < 0 || math.Abs(a.AlphaLeft+a.Iso+a.Degraded-1) > 1e-12 {
			t.Fatalf("%+v", a)
		}
		later, hotter := boil.Isomerise(c, m+1), boil.Isomerise(c+1, m)
		if later.AlphaLeft > a.AlphaLeft || later.Degraded < a.Degraded-1e-12 || hotter.AlphaLeft > a.AlphaLeft {
			t.Fatalf("%+v, a minute later %+v, a degree hotter %+v", a, later, hotter)
		}
	})
}

func TestEffectiveAlpha(t *testing.T) {
	t.Parallel()
	near(t, "below the cap", boil.EffectiveAlpha(100), 100, 0)
	near(t, "none", boil.EffectiveAlpha(-1), 0, 0)
	// J.-P. Hosom, article 13: plain Tinseth is 45 to 50 % too high at 840 mg/L.
	near(t, "overshoot at 840 mg/L", 840/boil.EffectiveAlpha(840), 1.475, 0.025)
	if boil.EffectiveAlpha(261) <= boil.EffectiveAlpha(260) {
		t.Error("more alpha does not bitter more")
	}
}
