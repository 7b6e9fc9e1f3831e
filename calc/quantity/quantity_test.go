package quantity

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"skep/calc/message"
)

var (
	metric   = Units{}
	american = Units{Temperature: F, Gravity: SG, Volume: USGallon, Mass: Lb, Colour: SRM}
	german   = Units{Gravity: Plato, DecimalComma: true}
)

// The expected numbers are defined factors (international pound, US gallon of
// 231 in³, °F) worked by hand, and for °P the ASBC table's rows as they stand
// in the design notes: 12.00 °P is SG 1.0484, 10 °P is 1.0400.
func TestFormat(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		units Units
		kind  Kind
		value float64
		want  string
	}{
		{metric, Temperature, 66.5, "66.5 °C"},
		{american, Temperature, 66.5, "151.7 °F"},
		{german, Temperature, 66.5, "66,5 °C"},
		{metric, Temperature, -1.25, "−1.3 °C"},
		{metric, Temperature, -0.01, "0.0 °C"},
		{american, TemperatureDifference, 1, "1.8 °F"},
		{metric, Gravity, 1.0484, "1.048"},
		{german, Gravity, 1.0484, "12,0 °P"},
		{german, Gravity, 1, "0,0 °P"},
		{metric, Strength, 5.34, "5.3 %"},
		{metric, MassG, 550, "550 g"},
		{metric, MassKg, 0.55, "550 g"},
		{metric, MassKg, 3.4, "3.40 kg"},
		{metric, MassG, 12.5, "12.5 g"},
		{metric, MassG, 12.96, "13 g"},
		{metric, MassG, 999.7, "1.00 kg"},
		{metric, MassG, 0, "0 g"},
		{american, MassG, 538.640939375, "1 lb 3 oz"}, // 19 oz × 28.349523125 g
		{american, MassG, 453.59237, "1 lb"},
		{american, MassG, 453.3, "1 lb"}, // not "16 oz"
		{american, MassG, 28.349523125, "1 oz"},
		{american, MassG, 0, "0 oz"},
		{american, MassG, 0.2, "0.2 g"},    // not "0 oz": a pinch of metabisulphite
		{american, MassG, 0.03125, "0 oz"}, // less than a pinch: shown so that it reads back the same
		{american, MassG, 1.42, "0.1 oz"},
		{american, MassKg, 4.53592, "10 lb"},
		{metric, Volume, 15, "15.0 L"},
		{american, Volume, 3.785411784, "1.00 gal"},
		{metric, Minutes, 60, "60 min"},
		{metric, Hours, 12, "12 h"},
		{metric, Hours, 12.5, "12.5 h"},
		{metric, Percent, 73, "73 %"},
		{metric, Percent, 73.5, "73.5 %"},
		{metric, Index, 61.6, "62"},
		{metric, Colour, 9, "9 EBC"},
		{american, Colour, 25, "12.7 SRM"}, // the methods' definitions: 25 A and 12.7 A
		{metric, GramsPerLitre, 6.25, "6.3 g/L"},
		{metric, Bitterness, 24.4, "24 IBU"},
		{metric, LitresPerKg, 3, "3 L/kg"},
		{german, LitresPerKg, 2.75, "2,75 L/kg"},
		{american, LitresPerKg, 3, "1.44 qt/lb"}, // 0.946352946 L a quart, 0.45359237 kg a pound
		{metric, LitresPerHour, 2.5, "2.5 L/h"},
		{american, LitresPerHour, 3.785411784, "1 gal/h"},
		{metric, Gravity, math.NaN(), "–"},
		{metric, Gravity, math.Inf(1), "–"},
		{metric, Kinds, 1, "–"},
	} {
		if got := NewFormatter(c.units, nil).Format(c.kind, c.value); got != c.want {
			t.Errorf("Format(kind %d, %v) in %q = %q, want %q", c.kind, c.value, c.units.Encode(), got, c.want)
		}
	}
}

func TestFormatSignedAndRange(t *testing.T) {
	t.Parallel()
	f := NewFormatter(metric, nil)
	for got, want := range map[string]string{
		f.FormatSigned(Hours, 12):                   "+12 h",
		f.FormatSigned(Hours, -6):                   "−6 h",
		f.FormatSigned(Hours, 0):                    "0 h",
		f.FormatSigned(Temperature, 0.01):           "0.0 °C",
		f.FormatRange(Percent, 73, 78):              "73–78 %",
		f.FormatRange(Percent, 75, 75):              "75 %",
		f.FormatRange(Gravity, 1.006, 1.011):        "1.006–1.011",
		f.FormatRange(Temperature, -2, 3):           "−2.0 to 3.0 °C",
		f.FormatRange(MassG, 500, 1200):             "500 g to 1.20 kg",
		f.FormatRange(Percent, math.NaN(), 1):       "–",
		NewFormatter(german, nil).Summary():         "°C · °P · litres",
		NewFormatter(american, nil).Summary():       "°F · SG · US gallons",
		NewFormatter(metric, nil).Number(Volume, 3): "3.0",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func TestParseTakesWhatPeopleType(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		units Units
		kind  Kind
		text  string
		want  float64
		echo  string
	}{
		{metric, Temperature, "151F", 66.111, "read as 66.1 °C"}, // (151−32)/1.8
		{metric, Temperature, "151 °f", 66.111, "read as 66.1 °C"},
		{metric, Temperature, "66,5", 66.5, "read as 66.5 °C"},
		{metric, Temperature, " 66.5 °C ", 66.5, "read as 66.5 °C"},
		{metric, Temperature, "66.5º c", 66.5, "read as 66.5 °C"},
		{metric, Temperature, "−1", -1, "read as −1.0 °C"},
		{metric, Temperature, "- 40 F", -40, "read as −40.0 °C"}, // where the two scales meet
		{american, Temperature, "151", 66.111, "read as 151.0 °F"},
		{american, Temperature, "66.5 °C", 66.5, "read as 151.7 °F"},
		{metric, TemperatureDifference, "1.8 F", 1, "read as 1.0 °C"},
		{metric, Gravity, "1.048", 1.048, "read as 1.048"},
		{metric, Gravity, "1,048", 1.048, "read as 1.048"},
		{metric, Gravity, "1048", 1.048, "read as 1.048"},
		{metric, Gravity, "12 P", 1.04837, "read as 1.048"},
		{metric, Gravity, "12°P", 1.04837, "read as 1.048"},
		{metric, Gravity, "12 plato", 1.04837, "read as 1.048"},
		{german, Gravity, "12", 1.04837, "read as 12,0 °P"},
		{german, Gravity, "1.048", 1.048, "read as 11,9 °P"},
		{german, Gravity, "1.048 sg", 1.048, "read as 11,9 °P"},
		{metric, MassG, "1 lb 3 oz", 538.64, "read as 539 g"},
		{metric, MassG, "1lb3oz", 538.64, "read as 539 g"},
		{metric, MassG, "1 lb 3", 538.64, "read as 539 g"},
		{american, MassG, "19", 538.64, "read as 1 lb 3 oz"},
		{metric, MassG, "550", 550, "read as 550 g"},
		{metric, MassG, "0.55 kg", 550, "read as 550 g"},
		{metric, MassKg, "550 g", 0.55, "read as 550 g"},
		{metric, Temperature, "6.65e1", 66.5, "read as 66.5 °C"},
		{metric, Temperature, "665E-1 °C", 66.5, "read as 66.5 °C"},
		{metric, MassG, "5.5e+2g", 550, "read as 550 g"},
		{metric, Colour, "5ebc", 5, "read as 5 EBC"}, // where the e is the unit's
		{metric, MassKg, "3.4", 3.4, "read as 3.40 kg"},
		{metric, MassKg, "3 kg 400 g", 3.4, "read as 3.40 kg"},
		{metric, MassKg, "0,550", 0.55, "read as 550 g"},
		{american, MassKg, "10", 4.53592, "read as 10 lb"},
		{metric, Volume, "4 gal", 15.1416, "read as 15.1 L"},
		{metric, Volume, "15l", 15, "read as 15.0 L"},
		{metric, Volume, "500 ml", 0.5, "read as 0.5 L"},
		{american, Volume, "4", 15.1416, "read as 4.00 gal"},
		{metric, Hours, "+12 h", 12, "read as 12 h"},
		{metric, Hours, "-6", -6, "read as −6 h"},
		{metric, Hours, "2 d 3 h", 51, "read as 51 h"},
		{metric, Hours, "-1h30m", -1.5, "read as −1.5 h"},
		{metric, Hours, "-1:30", -1.5, "read as −1.5 h"},
		{metric, Minutes, "1h 30m", 90, "read as 90 min"},
		{metric, Minutes, "1h30", 90, "read as 90 min"},
		{metric, Minutes, "1:30", 90, "read as 90 min"},
		{metric, Minutes, "90", 90, "read as 90 min"},
		{metric, Percent, "75%", 75, "read as 75 %"},
		{metric, Strength, "5.3 % vol", 5.3, "read as 5.3 %"},
		{metric, Index, "62", 62, "read as 62"},
		{metric, Colour, "12.7 SRM", 25, "read as 25 EBC"},
		{metric, GramsPerLitre, "6.5 g/L", 6.5, "read as 6.5 g/L"},
		{metric, Bitterness, "24 IBU", 24, "read as 24 IBU"},
		{metric, LitresPerKg, "1.25 qt/lb", 2.6079, "read as 2.61 L/kg"}, // 1.25 × 0.946352946 / 0.45359237
		{american, LitresPerKg, "3 L/kg", 3, "read as 1.44 qt/lb"},
		{american, LitresPerHour, "1", 3.7854, "read as 1 gal/h"},
	} {
		got, err := NewParser(c.units, nil).Parse(c.kind, c.text, Limits{})
		if err != nil {
			t.Errorf("Parse(kind %d, %q): %v", c.kind, c.text, err)
			continue
		}
		if math.Abs(got.Value-c.want) > 1e-4*math.Max(1, math.Abs(c.want))/2 || got.Echo != c.echo {
			t.Errorf("Parse(kind %d, %q) = %v, %q; want %v, %q", c.kind, c.text, got.Value, got.Echo, c.want, c.echo)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	t.Parallel()
	mash := Limits{58, 72}
	for _, c := range []struct {
		units  Units
		kind   Kind
		text   string
		limits Limits
		says   string // part of the message
	}{
		{metric, Temperature, "", mash, "nothing was typed"},
		{metric, Temperature, "   ", mash, "it takes 58.0 °C to 72.0 °C"},
		{metric, Temperature, "warm", mash, "can't read “warm”; it takes 58.0 °C to 72.0 °C"},
		{metric, Temperature, "NaN", mash, "can't read"},
		{metric, Temperature, "inf", mash, "can't read"},
		{metric, Temperature, "+Inf", mash, "can't read"},
		{metric, Temperature, "1e3", mash, "1000.0 °C is outside 58.0 °C to 72.0 °C"},
		{metric, Temperature, "1e9", mash, "that is far outside 58.0 °C to 72.0 °C"},
		{metric, Temperature, "1e400", mash, "can't read “1e400”"},
		{metric, Temperature, "1e", mash, "“e” is not known here; it takes 58.0 °C to 72.0 °C"},
		{metric, Temperature, "e5", mash, "can't read"},
		{metric, Temperature, "1e5.5", mash, "can't read"},
		{metric, Temperature, "١٢", mash, "can't read"},
		{metric, Temperature, "6\x1b[2J", mash, "\ufffd["},
		{metric, Temperature, "66 lb", mash, "“lb” is not known"},
		{metric, Temperature, "66 67", mash, "can't read"},
		{metric, Temperature, "66 °C 5 °C", mash, "can't read"},
		{metric, Temperature, "6.6.5", mash, "can't read"},
		{metric, Temperature, "--66", mash, "can't read"},
		{metric, Temperature, strings.Repeat("9", 79), mash, "far outside 58.0 °C to 72.0 °C"},
		{metric, Temperature, strings.Repeat("9", 400), mash, "too long"},
		{metric, Temperature, "80", mash, "80.0 °C is outside 58.0 °C to 72.0 °C"},
		{american, Temperature, "80", mash, "80.0 °F is outside 136.4 °F to 161.6 °F"},
		{metric, Gravity, "12", Limits{}, "outside"},
		{metric, MassG, "1,200", Limits{}, "thousands"},
		{metric, MassG, "3 oz 1 lb", Limits{}, "can't read"},
		{metric, MassG, "1 kg −2 g", Limits{}, "can't read"},
		{metric, MassG, "-5 g", Limits{}, "outside"},
		{metric, Minutes, "1:75", Limits{}, "can't read"},
		{metric, Kinds, "1", Limits{}, "not known"},
	} {
		got, err := NewParser(c.units, nil).Parse(c.kind, c.text, c.limits)
		if err == nil {
			t.Errorf("Parse(kind %d, %q) = %v, want a refusal", c.kind, c.text, got)
		} else if !strings.Contains(err.Error(), c.says) {
			t.Errorf("Parse(kind %d, %q): %q does not say %q", c.kind, c.text, err, c.says)
		}
	}
}

func TestParseRange(t *testing.T) {
	t.Parallel()
	p := NewParser(metric, nil)
	for text, want := range map[string][2]float64{
		"73-78": {73, 78}, "73–78 %": {73, 78}, "73 % - 78 %": {73, 78}, "73 to 78": {73, 78},
		"78 to 73": {73, 78}, "73..78": {73, 78}, "7.3e1-78": {73, 78}, "730e-1 - 7.8e1 %": {73, 78}, "7.3e+1-78": {73, 78}, "73,5 - 78": {73.5, 78},
	} {
		got, err := p.ParseRange(Percent, text, Limits{})
		if err != nil || got.Low != want[0] || got.High != want[1] {
			t.Errorf("ParseRange(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	got, err := p.ParseRange(Temperature, "-2 to 3", Limits{})
	if err != nil || got.Low != -2 || got.High != 3 || got.Echo != "read as −2.0 to 3.0 °C" {
		t.Errorf("got %v, %v", got, err)
	}
	if got, err = p.ParseRange(Temperature, "150-155 F", Limits{}); err != nil || got.Low != 65.556 || got.High != 68.333 {
		t.Errorf("the one unit must hold for both ends: %v, %v", got, err)
	}
	for text, says := range map[string]string{
		"75": "low and high are needed, as in 73–78 %", "-": "low and high are needed",
		"73-x": "“x” is not known", "x-73": "low and high are needed", "73-": "low and high are needed", "73-178": "178 % is outside 0 % to 100 %", "": "nothing was typed",
	} {
		if got, err := p.ParseRange(Percent, text, Limits{0, 100}); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("ParseRange(%q) = %v, %v; want a refusal with %q", text, got, err, says)
		}
	}
}

func TestUnitsSurviveThePreferences(t *testing.T) {
	t.Parallel()
	for _, u := range []Units{metric, american, german, {Colour: SRM}, {Volume: USGallon, Gravity: Plato}} {
		got, err := DecodeUnits(u.Encode())
		if err != nil || got != u {
			t.Errorf("%q came back as %+v, %v", u.Encode(), got, err)
		}
	}
	if got, err := DecodeUnits("F"); err != nil || got != (Units{Temperature: F}) {
		t.Errorf("a shorter, older line: %+v, %v", got, err)
	}
	for _, bad := range []string{"K", "C SG L kg EBC point more", "C P litres"} {
		if _, err := DecodeUnits(bad); err == nil {
			t.Errorf("DecodeUnits(%q) must fail", bad)
		}
	}
}

func TestTextsGoThroughTheTranslation(t *testing.T) {
	t.Parallel()
	loud := func(m message.Message) string {
		return regexp.MustCompile(`[a-z]+($|[^a-z}])`).ReplaceAllStringFunc(m.English(), strings.ToUpper)
	}
	p := NewParser(metric, loud)
	got, err := p.Parse(Minutes, "60", Limits{})
	if err != nil || got.Echo != "READ AS 60 MIN" {
		t.Errorf("%v, %v", got, err)
	}
	if _, err := p.Parse(Minutes, "soon", Limits{}); err == nil || !strings.HasPrefix(message.OfError(err).In(loud, nil), "CAN'T READ") {
		t.Errorf("untranslated: %v", err)
	}
}

// What a brewer has on the packet or before the eyes: a heater in kilowatts, a malt in
// degrees Lovibond (10 °L is about 12.7 SRM: the maltsters' 1.3546 L − 0.76), honey in
// the grams that its place shows.
func TestUnitsThatStandOnThings(t *testing.T) {
	t.Parallel()
	p := NewParser(Units{}, nil)
	for _, c := range []struct {
		kind        Kind
		text        string
		limits      Limits
		want, about float64
	}{
		{Power, "1.6 kW", Limits{0, 30000}, 1600, 0},
		{Power, "1600", Limits{0, 30000}, 1600, 0},
		{Colour, "10 L", Limits{0, 2000}, 12.7 * 1.97, 0.3},
		{Colour, "3 °L", Limits{0, 2000}, 3.3 * 1.97, 0.1},
		{MassKg, "539", Limits{0, 50}, 0.539, 0},
		{MassKg, "0.539", Limits{0, 50}, 0.539, 0},
		{MassKg, "3", Limits{0, 50}, 3, 0},
	} {
		r, err := p.Parse(c.kind, c.text, c.limits)
		if err != nil || math.Abs(r.Value-c.want) > c.about+1e-9 {
			t.Errorf("%q is read as %v (%v), want %v", c.text, r.Value, err, c.want)
		}
	}
	if _, err := p.Parse(MassKg, "539 kg", Limits{0, 50}); err == nil {
		t.Error("539 kg is taken")
	}
	if _, err := p.Parse(MassKg, "99999", Limits{0, 50}); err == nil {
		t.Error("a bare 99999 is taken")
	}
}
