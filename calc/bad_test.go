package calc

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"skep/assets/demotest"

	"pgregory.net/rapid"

	"skep/calc/design"
	"skep/calc/message"
)

func set(t failer, d *design.Design, pairs ...string) {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if err := d.Set(pairs[i], pairs[i+1]); err != nil {
			t.Fatalf("%s = %s: %v", pairs[i], pairs[i+1], err)
		}
	}
}

// steps is the middle demo with a rest before and one after its own, which is
// then number 1.
func steps(t testing.TB) design.Design {
	d := demotest.Design(t, "middle")
	first, last := design.NewRest(), design.NewRest()
	first.TemperatureC, first.Minutes = 52, 10
	last.TemperatureC, last.Minutes = 76, 10
	d.Mash.Rest = []design.Rest{first, d.Mash.Rest[0], last}
	return d
}

// Issue 4, bad input that is within the ranges of a design: a finite answer
// with a warning where a brewer would not go.
func TestOddDesignsAreAnswered(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name  string
		pairs []string
		says  string // a warning
	}{
		{"rest at 40 °C", []string{"mash.rest.0.temperature_c", "40"}, "gelatinises"},
		{"rest at 80 °C", []string{"mash.rest.0.temperature_c", "80"}, "beta-amylase"},
		{"a mash of one minute", []string{"mash.rest.0.minutes", "1"}, "extract"},
		{"no base malt, raw grain only", []string{"grain.0.enzymes", "borrowed", "grain.1.enzymes", "borrowed"}, "no base malt"},
		{"no base malt, specialty only", []string{"grain.0.enzymes", "none", "grain.1.enzymes", "none"}, ""},
		{"all honey", []string{"grain.0.mass_kg", "0", "grain.1.mass_kg", "0", "honey.0.mass_kg", "4"}, "honey and water"},
		{"all honey, from the boil", []string{"grain.0.mass_kg", "0", "grain.1.mass_kg", "0", "honey.0.mass_kg", "4", "honey.0.moment", "boil"}, "honey and water"},
		{"water", []string{"grain.0.mass_kg", "0", "grain.1.mass_kg", "0", "honey.0.mass_kg", "0"}, "honey and water"},
		{"a strain that takes 10 %", []string{"yeast.0.attenuation_low_pct", "10", "yeast.0.attenuation_high_pct", "10"}, ""},
		{"a strain that takes 100 %", []string{"yeast.0.attenuation_low_pct", "100", "yeast.0.attenuation_high_pct", "100"}, "more than a yeast reaches"},
		{"a range of 90 points", []string{"yeast.0.attenuation_low_pct", "10", "yeast.0.attenuation_high_pct", "100"}, ""},
		{"yeast at 40 °C", []string{"yeast.0.temperature_c", "40"}, "held at the bound"},
		{"yeast at 4 °C, hardly any", []string{"yeast.0.temperature_c", "4", "yeast.0.cells_billion_per_l", "0.1"}, ""},
		{"honey of 30 % moisture", []string{"honey.0.moisture_pct", "30"}, "legal limit"},
		{"50 kg of honey", []string{"honey.0.mass_kg", "50"}, ""},
		{"honey two days before the height", []string{"honey.0.hours_after_height", "-48"}, ""},
		{"honey ten days after it", []string{"honey.0.hours_after_height", "240"}, "after the window closes"},
		{"200 kg of malt", []string{"grain.0.mass_kg", "200"}, ""},
		{"no thermometer error", []string{"kit.rest_error_c", "0"}, ""},
		{"a thermometer 5 °C off", []string{"kit.rest_error_c", "5"}, ""},
		{"no heater", []string{"kit.heater_w", "0"}, ""},
	} {
		for rests, d := range map[string]design.Design{"single rest": demotest.Design(t, "middle"), "three rests": steps(t)} {
			pairs := append([]string(nil), c.pairs...)
			if rests == "three rests" {
				for i := range pairs {
					pairs[i] = strings.Replace(pairs[i], "mash.rest.0", "mash.rest.1", 1)
				}
			}
			set(t, &d, pairs...)
			p, err := NewEngineDraws(64).Predict(d)
			if err != nil {
				// A refusal must say what is out of range.
				if !strings.ContainsAny(err.Error(), "0123456789") {
					t.Errorf("%s, %s: refused without a range: %v", c.name, rests, err)
				} else {
					t.Logf("%s, %s: refused: %v", c.name, rests, err)
				}
				continue
			}
			sound(t, &p)
			// With two more rests a cold, hot or short one is not so bad.
			if rests == "single rest" && !strings.Contains(message.InEnglish(p.Warnings, "\n"), c.says) {
				t.Errorf("%s: the warnings do not say %q: %q", c.name, c.says, p.Warnings)
			}
		}
	}
}

// Issue 4, bad input outside the ranges: a refusal with key, value and range.
func TestBadDesignsAreRefused(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(*design.Design)
		says   []string
	}{
		{"no time", func(d *design.Design) { d.Mash.Rest[0].Minutes = 0 }, []string{"mash.rest.0.minutes", "1", "240"}},
		{"frozen", func(d *design.Design) { d.Mash.Rest[0].TemperatureC = -1 }, []string{"mash.rest.0.temperature_c", "40", "80"}},
		{"no attenuation", func(d *design.Design) { d.Yeast[0].AttenuationLowPct = 0 }, []string{"yeast.0.attenuation_low_pct", "10", "100"}},
		{"too much of it", func(d *design.Design) { d.Yeast[0].AttenuationHighPct = 101 }, []string{"yeast.0.attenuation_high_pct", "100"}},
		{"the wrong way round", func(d *design.Design) { d.Yeast[0].AttenuationLowPct = 90 }, []string{"attenuation_low_pct", "attenuation_high_pct"}},
		{"watery honey", func(d *design.Design) { d.Honey[0].MoisturePct = 40 }, []string{"honey.0.moisture_pct", "40", "10", "30"}},
		{"a negative dose", func(d *design.Design) { d.Honey[0].MassKg = -0.1 }, []string{"honey.0.mass_kg", "-0.1", "0", "50"}},
		{"two hundred kilograms", func(d *design.Design) { d.Grain[0].MassKg = 200 }, []string{"grain.0.mass_kg = 200 kg", "15 L", "SG 1.25", "take less"}},
		{"a fermenter of syrup", func(d *design.Design) { d.Honey[0].MassKg = 50 }, []string{"honey.0.mass_kg = 50 kg", "15 L", "SG 1.25"}},
		{"NaN", func(d *design.Design) { d.Grain[0].MassKg = math.NaN() }, []string{"grain.0.mass_kg"}},
		{"infinite", func(d *design.Design) { d.Kit.RestErrorC = math.Inf(1) }, []string{"kit.rest_error_c"}},
		{"no rest", func(d *design.Design) { d.Mash.Rest = nil }, []string{"mash.rest"}},
		{"no grain line", func(d *design.Design) { d.Grain = nil }, []string{"grain"}},
		{"unknown moment", func(d *design.Design) { d.Honey[0].Moment = "supper" }, []string{"honey.0.moment"}},
	} {
		d := demotest.Design(t, "middle")
		c.change(&d)
		_, err := NewEngineDraws(16).Predict(d)
		_, err2 := NewEngineDraws(16).Curves(d, 0, []float64{66})
		for _, says := range c.says {
			if err == nil || !strings.Contains(err.Error(), says) {
				t.Errorf("%s: %v does not say %q", c.name, err, says)
			}
			if c.name != "no rest" && (err2 == nil || !strings.Contains(err2.Error(), says)) {
				t.Errorf("%s: curves: %v does not say %q", c.name, err2, says)
			}
		}
	}
}

// numbers are the keys that a prediction depends on, with their ranges.
var numbers = func() (keys []design.Key) {
	for _, k := range design.Keys() {
		if k.Kind == design.Number && !strings.HasPrefix(k.Path, "reading") && !strings.HasPrefix(k.Path, "taste") {
			keys = append(keys, k)
		}
	}
	return keys
}()

// Every design within the ranges is answered soundly, or refused in words.
func TestEveryDesignHasAnAnswer(t *testing.T) {
	t.Parallel()
	base := steps(t)
	e := NewEngineDraws(16)
	rapid.Check(t, func(t *rapid.T) {
		d := base.Clone()
		if rapid.Bool().Draw(t, "one rest") {
			d.Mash.Rest = d.Mash.Rest[1:2]
		}
		for range rapid.IntRange(1, 8).Draw(t, "changes") {
			k := rapid.SampledFrom(numbers).Draw(t, "key")
			v := rapid.OneOf(rapid.Float64Range(k.Min, k.Max), rapid.SampledFrom([]float64{k.Min, k.Max})).Draw(t, k.Path)
			path := strings.Replace(k.Path, ".N.", ".0.", 1)
			if strings.HasPrefix(path, "crush") || strings.HasPrefix(path, "water") || strings.HasPrefix(path, "temperature") {
				continue
			}
			set(t, &d, path, strconv.FormatFloat(v, 'g', -1, 64))
		}
		d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct = min(d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct), max(d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct)
		p, err := e.Predict(d)
		if err != nil {
			if len(err.Error()) < 20 {
				t.Fatalf("refused without a word: %v", err)
			}
			return
		}
		sound(t, &p)
	})
}

// FuzzPredict: whatever the numbers, a sound answer or an error.
func FuzzPredict(f *testing.F) {
	f.Add(66.0, 60.0, 76.0, 79.0, 0.5, 17.5, 2.7, 19.0, 12.0, 0.7)
	f.Add(40.0, 1.0, 10.0, 100.0, 50.0, 30.0, 0.0, 40.0, -48.0, 5.0)
	f.Add(80.0, 240.0, 100.0, 100.0, 0.0, 10.0, 200.0, 4.0, 240.0, 0.0)
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, -1.0, 40.0, math.NaN(), math.Inf(-1), 1e300, 1e-300)
	base := demotest.Design(f, "middle")
	e := NewEngineDraws(16)
	f.Fuzz(func(t *testing.T, rest, minutes, low, high, honey, moisture, malt, yeastC, hours, restError float64) {
		d := base.Clone()
		d.Mash.Rest[0] = design.Rest{TemperatureC: rest, Minutes: minutes}
		d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct, d.Yeast[0].TemperatureC = low, high, yeastC
		d.Honey[0].MassKg, d.Honey[0].MoisturePct, d.Honey[0].HoursAfterHeight = honey, moisture, hours
		d.Grain[0].MassKg, d.Kit.RestErrorC = malt, restError
		if p, err := e.Predict(d); err == nil {
			sound(t, &p)
		}
		if c, err := e.Curves(d, 0, []float64{50, 66, 80}); err == nil {
			for o := range c.Bands {
				for _, b := range c.Bands[o] {
					if !(b.Low <= b.Mid && b.Mid <= b.High) || math.IsInf(b.Low, 0) || math.IsInf(b.High, 0) {
						t.Fatalf("outcome %d: %+v", o, b)
					}
				}
			}
		}
	})
}
