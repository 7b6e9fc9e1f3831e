package stress

import (
	"math"
	"strings"
	"testing"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.6g, expected %.6g within %.2g", what, got, want, within)
	}
}

// ordinary is a 12 °P beer of malt, well pitched, at 19 °C.
func ordinary() Input {
	return Input{TolerancePct: 10, ColdestC: 15, WarmestC: 24, TemperatureC: 19, StrengthPct: 5,
		OriginalPlato: 12, MaltPlato: 12, PitchBillionPerL: 9}
}

func find(all []Stress, what string) (Stress, bool) {
	for _, s := range all {
		if s.What == what {
			return s, true
		}
	}
	return Stress{}, false
}

// The design notes' rows on nitrogen and oxygen.
func TestNitrogen(t *testing.T) {
	t.Parallel()
	// Diammonium phosphate, (NH4)2HPO4: 2 N of 14.0067 in 132.056 g/mol.
	near(t, "nitrogen of the salt, mg/g", PerNutrientG, 2*14.0067/132.056*1000, 0.5)
	for _, c := range []struct {
		name              string
		malt, honey, salt float64
		want              float64
	}{
		{"12 °P of malt (Fix 1999 and others: 150 to 260, middle 200)", 12, 0, 0, 204},
		{"a third of honey", 8, 48, 0, 137},
		{"and 100 mg/L of the salt", 8, 48, 0.1, 159},
		{"100 mg/L of the salt alone", 0, 0, 0.1, 21},
	} {
		in := Input{MaltPlato: c.malt, HoneyGPerL: c.honey, NutrientGPerL: c.salt}
		near(t, c.name, in.NitrogenMgPerL(), c.want, 1)
	}
	// Least FAN at normal gravity 130 mg/L, quick and full attenuation 170 to 190.
	in := Input{OriginalPlato: 12}
	near(t, "need at 12 °P", in.NeedMgPerL(), 130, 0.1)
	in.MaltPlato = 170.0 / 17
	near(t, "pace at 170 mg/L", in.Pace(), 1, 1e-9)
	in.MaltPlato /= 2
	if p := in.Pace(); !(p > 0.5 && p < 0.8) {
		t.Errorf("half of the nitrogen gives a pace of %.2f", p)
	}
	// 1172 L at 8 to 10 mg/L: 9.4 to 11.7 g.
	near(t, "oxygen, least", OxygenG(1172, 8), 9.4, 0.05)
	near(t, "oxygen, most", OxygenG(1172, 10), 11.7, 0.05)
}

// Nutrient is advised above about a quarter of honey (trade), and following the
// advice ends it.
func TestNutrientAdvice(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		share  float64
		warned bool
	}{{0, false}, {0.1, false}, {0.3, true}, {0.5, true}} {
		in := ordinary()
		in.MaltPlato = 12 * (1 - c.share)
		in.HoneyGPerL = c.share * 125 / 0.83
		s, ok := find(Of(in), Nitrogen)
		if ok != c.warned {
			t.Errorf("%.0f %% honey: warned %v", 100*c.share, ok)
			continue
		}
		if !ok {
			continue
		}
		dose := in.MoreNutrientGPerL()
		if !(dose > 0 && dose <= 1) || !strings.Contains(Warning(s, 20).String(), "nutrient") {
			t.Errorf("%.0f %% honey: %g g/L, %q", 100*c.share, dose, Warning(s, 20))
		}
		in.NutrientGPerL += dose
		if again, ok := find(Of(in), Nitrogen); ok && again.Risk > 0.06 {
			t.Errorf("%.0f %% honey with %g g/L: still %.2f", 100*c.share, dose, again.Risk)
		}
	}
}

// A well-fed, well-pitched 9 % beer is not stressed (Casey, Magnus & Ingledew 1984).
func TestStrongAndWellKept(t *testing.T) {
	t.Parallel()
	in := ordinary()
	in.TolerancePct = UsualTolerancePct
	in.StrengthPct, in.OriginalPlato, in.MaltPlato, in.PitchBillionPerL = 9, 20.4, 20.4, 15.3
	if all := Of(in); len(all) != 0 {
		t.Errorf("stressed by %v", all)
	}
	if r := StopRisk(in); r > 0.05 {
		t.Errorf("stops with a risk of %.3f", r)
	}
	if all := Of(ordinary()); len(all) != 0 {
		t.Errorf("an ordinary beer is stressed by %v", all)
	}
}

// Each cause alone is found, further on it is likelier, and its sentence says what to do.
func TestEachCause(t *testing.T) {
	t.Parallel()
	for what, c := range map[string]struct {
		set  func(*Input, float64)
		a, b float64
		do   string
	}{
		Alcohol:  {func(in *Input, v float64) { in.StrengthPct = v }, 10, 13, "a strain that bears more"},
		Cold:     {func(in *Input, v float64) { in.TemperatureC = v }, 14, 11, "warmer"},
		Heat:     {func(in *Input, v float64) { in.TemperatureC = v }, 26, 32, "cool"},
		Pitch:    {func(in *Input, v float64) { in.PitchBillionPerL = v }, 4.5, 1, "billion cells"},
		Nitrogen: {func(in *Input, v float64) { in.MaltPlato = v }, 8, 1, "nutrient"},
		Gravity: {func(in *Input, v float64) { in.OriginalPlato, in.MaltPlato, in.PitchBillionPerL = v, v, 0.75*v }, 23, 30,
			"in proportion"},
	} {
		last := 0.0
		for _, v := range []float64{c.a, c.b} {
			in := ordinary()
			c.set(&in, v)
			all := Of(in)
			s, ok := find(all, what)
			if !ok || len(all) != 1 {
				t.Errorf("%s at %g: %v", what, v, all)
				continue
			}
			if s.Risk <= last || s.Risk > 1 {
				t.Errorf("%s at %g: risk %g after %g", what, v, s.Risk, last)
			}
			last = s.Risk
			if w := Warning(s, 20).String(); !strings.Contains(w, c.do) {
				t.Errorf("%s: %q does not say %q", what, w, c.do)
			}
			if r := StopRisk(in); (what == Alcohol || what == Heat) != (r < 0.02) {
				t.Errorf("%s at %g: risk of a stop %g", what, v, r)
			}
		}
	}
}

func TestNothingKnown(t *testing.T) {
	t.Parallel()
	for _, s := range Of(Input{}) {
		t.Errorf("nothing known, and %v", s)
	}
	in := Input{TemperatureC: math.NaN(), OriginalPlato: math.Inf(1)}
	for _, s := range every(&in) {
		if math.IsNaN(s.Risk) {
			t.Errorf("%s: no number", s.What)
		}
	}
}

func TestEarly(t *testing.T) {
	t.Parallel()
	last := 1.0
	for u := 0.0; u <= 1; u += 0.1 {
		e := Early(u)
		if !(e < last && e >= 0.5) {
			t.Errorf("at %.1f %g of the attenuation", u, e)
		}
		last = e
	}
	near(t, "middle of the tolerance", Strength(0, 0), UsualTolerancePct, 0)
	near(t, "one sd more", Strength(9, 1), 10, 1e-12)
}
