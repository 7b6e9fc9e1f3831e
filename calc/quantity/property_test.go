package quantity

import (
	"math"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func anyUnits(t *rapid.T) Units {
	return Units{
		Temperature:  TemperatureUnit(rapid.IntRange(0, 1).Draw(t, "temperature")),
		Gravity:      GravityUnit(rapid.IntRange(0, 1).Draw(t, "gravity")),
		Volume:       VolumeUnit(rapid.IntRange(0, 1).Draw(t, "volume")),
		Mass:         MassUnit(rapid.IntRange(0, 1).Draw(t, "mass")),
		Colour:       ColourUnit(rapid.IntRange(0, 1).Draw(t, "colour")),
		DecimalComma: rapid.Bool().Draw(t, "comma"),
	}
}

// typedKinds are those that a person types.
func typedKinds() (list []Kind) {
	for k := range Kinds {
		if k.typed() {
			list = append(list, k)
		}
	}
	return list
}

func anyValue(t *rapid.T) (Kind, float64) {
	k := rapid.SampledFrom(typedKinds()).Draw(t, "kind")
	w := k.Widest()
	return k, rapid.Float64Range(w.Low, w.High).Draw(t, "value")
}

// What is on the screen can be typed back, in any units, and then shows the
// same: a field that is opened and left changes nothing.
func TestShownTextReadsBackTheSame(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		u := anyUnits(t)
		k, v := anyValue(t)
		p := NewParser(u, nil)
		text := p.f.Format(k, v)
		got, err := p.Parse(k, text, Limits{})
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if again := p.f.Format(k, got.Value); again != text {
			t.Fatalf("%v is shown as %q, read as %v, shown as %q", v, text, got.Value, again)
		}
		signed, err := p.Parse(k, p.f.FormatSigned(k, v), Limits{})
		if err != nil || signed.Value != got.Value {
			t.Fatalf("%q: %v, %v", p.f.FormatSigned(k, v), signed, err)
		}
	})
}

// A value read once is stable: written in other units and read there it shows
// the same in the first.
func TestUnitsDoNotDrift(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		mine, theirs := NewParser(anyUnits(t), nil), NewFormatter(anyUnits(t), nil)
		k, v := anyValue(t)
		first := roundTo(v, kinds[k].kept)
		back := roundTo(theirs.Metric(k, theirs.Shown(k, first)), kinds[k].kept)
		if math.Abs(back-first) > 1e-9*math.Max(1, math.Abs(first)) {
			t.Fatalf("%v came back as %v", first, back)
		}
		if a, b := mine.f.Format(k, first), mine.f.Format(k, back); a != b {
			t.Fatalf("%q became %q", a, b)
		}
	})
}

// Whatever the limits, an accepted value lies within them.
func TestAcceptedLiesWithinTheLimits(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := NewParser(anyUnits(t), nil)
		k, a := anyValue(t)
		w := k.Widest()
		b := rapid.Float64Range(w.Low, w.High).Draw(t, "other end")
		typed := rapid.Float64Range(w.Low, w.High).Draw(t, "typed")
		limits := Limits{math.Min(a, b), math.Max(a, b)}
		if limits == (Limits{}) {
			limits = w // which is what no limits stand for
		}
		got, err := p.Parse(k, p.f.Format(k, typed), limits)
		if err == nil && !(got.Value >= limits.Low && got.Value <= limits.High) {
			t.Fatalf("%v accepted outside %v", got.Value, limits)
		}
		// The ends as shown are always accepted.
		for _, end := range []float64{limits.Low, limits.High} {
			if _, err := p.Parse(k, p.f.Format(k, end), limits); err != nil {
				t.Fatalf("end %v of %v: %v", end, limits, err)
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, text := range []string{"151F", "66,5", "1.048", "12 °P", "1 lb 3 oz", "+12 h", "1h 30m", "73-78",
		"−−1", "1e309", "NaN", "°", "..", "1..2", "-", "to", "1:30", "1e5", "1e-3-2e1", "1e+", "1e400", "5ebc", "\x00", "\xff", "９", "1,200", "5 to"} {
		for k := range Kinds {
			f.Add(uint8(k), text, uint8(k)*7)
		}
	}
	f.Fuzz(func(t *testing.T, kind uint8, text string, flags uint8) {
		k := Kind(kind) % Kinds
		u := Units{TemperatureUnit(flags & 1), GravityUnit(flags >> 1 & 1), VolumeUnit(flags >> 2 & 1),
			MassUnit(flags >> 3 & 1), ColourUnit(flags >> 4 & 1), flags>>5&1 == 1}
		p := NewParser(u, nil)
		w := k.Widest()
		if got, err := p.Parse(k, text, Limits{}); err != nil {
			if err.Error() == "" || utf8.ValidString(text) && !utf8.ValidString(err.Error()) {
				t.Errorf("message %q", err)
			}
		} else if !(got.Value >= w.Low && got.Value <= w.High) || got.Echo == "" {
			t.Errorf("%q read as %v, %q", text, got.Value, got.Echo)
		}
		if got, err := p.ParseRange(k, text, Limits{}); err == nil && !(got.Low >= w.Low && got.High <= w.High && got.Low <= got.High) {
			t.Errorf("%q read as %v", text, got)
		}
	})
}
