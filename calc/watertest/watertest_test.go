package watertest_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"skep/calc/design"
	"skep/calc/quantity"
	"skep/calc/watertest"
)

// A kettle of 18 L: ten litres from 15 to 60 °C in half an hour.
func Example() {
	t := watertest.New()
	t.HeatL, t.HeatFromC, t.HeatToC, t.HeatMinutes = 10, 15, 60, 30
	for _, p := range watertest.Parts() {
		r, ok, err := p.Work(&t, watertest.Kit{VesselHeatKJPerK: 2.8})
		if ok && err == nil {
			fmt.Println(r.Key, r.Value)
			fmt.Println(r.Arithmetic)
		}
	}
	// Output:
	// kit.heater_w 1110
	// (9.99 kg × 4.18 kJ/kgK + vessel 2.8 kJ/K) × 45.0 °C = 2005 kJ in 30 min: 1114 W
}

// work is what one part comes to.
func work(t *testing.T, test watertest.Test, kit watertest.Kit, key string) watertest.Result {
	t.Helper()
	for _, p := range watertest.Parts() {
		r, ok, err := p.Work(&test, kit)
		if ok && err != nil {
			t.Fatal(err)
		}
		if ok && r.Key == key {
			return r
		}
	}
	t.Fatalf("nothing comes of it for %s", key)
	return watertest.Result{}
}

// TestHeating: water of 4.18 kJ/(kg K) and 998.2 g/L (tables of IAPWS): 1 kW for an
// hour is 3600 kJ and warms ten litres by 86.3 K, in a vessel that takes nothing.
func TestHeating(t *testing.T) {
	test := watertest.New()
	test.HeatL, test.HeatFromC, test.HeatToC, test.HeatMinutes = 10, 5, 5+3600/(9.982*4.18), 60
	if r := work(t, test, watertest.Kit{}, "kit.heater_w"); math.Abs(r.Value-1000) > 10 {
		t.Errorf("%g W, want 1000", r.Value)
	}
}

// TestBoiling: 12 L measured at 100 °C are 11.52 L at 20 °C (958.35 and 998.21 g/L,
// IAPWS-95 at 1 atm as in the CRC handbook), and 2 kW, the latent heat being 2256.5
// kJ/kg, boil away 3.19 kg an hour at most.
func TestBoiling(t *testing.T) {
	test := watertest.New()
	test.BoilBeforeL, test.BoilBeforeC, test.BoilAfterL, test.BoilAfterC, test.BoilMinutes = 12, 100, 10, 20, 60
	r := work(t, test, watertest.Kit{HeaterW: 2000}, "kit.steam_l_per_h")
	if math.Abs(r.Value-1.50) > 0.051 || !r.Note.Empty() {
		t.Errorf("%g L/h, want 12 × 958.35/998.21 − 10 = 1.52; note %q", r.Value, r.Note)
	}
	test.BoilBeforeC, test.BoilBeforeL = math.NaN(), 13.3
	if r := work(t, test, watertest.Kit{HeaterW: 2000}, "kit.steam_l_per_h"); r.Note.Empty() {
		t.Errorf("%g L/h of a heater of 2 kW are taken without a word", r.Value)
	}
	test.BoilBeforeL = 13.1
	if r := work(t, test, watertest.Kit{HeaterW: 2000}, "kit.steam_l_per_h"); !r.Note.Empty() {
		t.Errorf("%g L/h of a heater of 2 kW: %s", r.Value, r.Note)
	}
}

// TestThermometerAtAltitude: a thermometer that is right shows what tables of
// kitchens at altitude print for boiling water, in whole °F (from memory: 212 at the
// sea, 208 at 2000 ft, 203 at 5000, 198 at 7500, 194 at 10000).
func TestThermometerAtAltitude(t *testing.T) {
	for _, r := range [][2]float64{{0, 212}, {2000, 208}, {5000, 203}, {7500, 198}, {10000, 194}} {
		test := watertest.New()
		test.IceC, test.BoilingC = 0, (r[1]-32)/1.8
		got := work(t, test, watertest.Kit{AltitudeM: r[0] * 0.3048}, "kit.thermometer_reads_high_k")
		if math.Abs(got.Value) > 0.31 { // half a °F, and the rounding to 0.1
			t.Errorf("%g ft: off by %g K", r[0], got.Value)
		}
	}
}

// TestThermometerBetween: half a degree high in ice and 1.5 K low at the boil is 0.83
// K low at 66 °C, by the rule of three; one point alone stands for all.
func TestThermometerBetween(t *testing.T) {
	test := watertest.New()
	test.IceC, test.BoilingC = 0.5, 99.97-1.5
	kit := watertest.Kit{}
	if r := work(t, test, kit, "kit.thermometer_reads_high_k"); math.Abs(r.Value+0.8) > 1e-9 {
		t.Errorf("%g K", r.Value)
	}
	test.BoilingC = math.NaN()
	if r := work(t, test, kit, "kit.thermometer_reads_high_k"); r.Value != 0.5 {
		t.Errorf("by ice alone %g K", r.Value)
	}
}

// What stays behind, and that hops and break hold more than water.
func TestWhatStaysBehind(t *testing.T) {
	test := watertest.New()
	test.BedInL, test.BedOutL = 6, 5.1
	test.ChillerInL, test.ChillerOutL = 3, 2.65
	test.TapInL, test.TapOutL = 5, 4.6
	for key, want := range map[string]float64{"kit.under_the_bed_l": 0.9, "kit.left_in_chiller_l": 0.35, "kit.left_with_break_l": 1} {
		if r := work(t, test, watertest.Kit{LeftWithBreakL: 1}, key); math.Abs(r.Value-want) > 1e-9 {
			t.Errorf("%s is %g, want %g", key, r.Value, want)
		}
	}
}

// Whatever is half measured or can't be is said, and gives no number.
func TestWhatCanNotBe(t *testing.T) {
	for want, fill := range map[string]func(*watertest.Test){
		"missing yet":        func(t *watertest.Test) { t.HeatL, t.HeatFromC, t.HeatToC = 10, 15, 60 },
		"too little":         func(t *watertest.Test) { t.HeatL, t.HeatFromC, t.HeatToC, t.HeatMinutes = 10, 60, 15, 30 },
		"no heater":          func(t *watertest.Test) { t.HeatL, t.HeatFromC, t.HeatToC, t.HeatMinutes = 300, 10, 90, 1 },
		"more came out":      func(t *watertest.Test) { t.BedInL, t.BedOutL = 5, 6 },
		"more after":         func(t *watertest.Test) { t.BoilBeforeL, t.BoilAfterL, t.BoilMinutes = 10, 12, 60 },
		"is not between":     func(t *watertest.Test) { t.BedInL, t.BedOutL = -1, -2 },
		"no thermometer":     func(t *watertest.Test) { t.IceC = 9 },
		"is not between 60.": func(t *watertest.Test) { t.BoilingC = 12 },
	} {
		test := watertest.New()
		fill(&test)
		said := ""
		for _, p := range watertest.Parts() {
			if _, ok, err := p.Work(&test, watertest.Kit{}); ok && err != nil {
				said = err.Error()
			} else if ok {
				t.Errorf("%s: a number comes of it", want)
			}
		}
		if !strings.Contains(said, want) {
			t.Errorf("it says %q, want %q", said, want)
		}
	}
}

// Each number has a key of the design, in its unit, whose range holds it.
func TestResultsAreKeysOfAKit(t *testing.T) {
	test := watertest.New()
	test.BedInL, test.BedOutL, test.TapInL, test.TapOutL, test.ChillerInL, test.ChillerOutL = 6, 5, 5, 4, 3, 2.5
	test.HeatL, test.HeatFromC, test.HeatToC, test.HeatMinutes = 10, 15, 60, 30
	test.BoilBeforeL, test.BoilAfterL, test.BoilMinutes, test.IceC = 12, 10.5, 60, 0.3
	seen := map[string]bool{}
	for _, p := range watertest.Parts() {
		r, ok, err := p.Work(&test, watertest.Kit{})
		k, known := design.KeyOf(r.Key)
		kind, listed := quantity.OfUnit(k.Unit)
		if !ok || err != nil || !known || seen[r.Key] || listed && kind != r.Kind || r.Value < k.Min || r.Value > k.Max {
			t.Errorf("%s: %g, key %v, %v", r.Key, r.Value, known, err)
		}
		seen[r.Key] = true
	}
}
