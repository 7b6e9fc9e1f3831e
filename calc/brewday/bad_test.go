package brewday_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/recipe"
	"skep/calc/water"
)

// warns tells whether a step warns of something, and names the key to change.
func warns(s *brewday.Step, text, key string) bool {
	for _, w := range s.Warnings {
		if strings.Contains(w.String(), text) {
			for _, k := range w.Keys {
				if k == key {
					return true
				}
			}
		}
	}
	return false
}

// TestBadInput: what does not fit is one clear line at its step with what to
// change; the sound design is not warned of any of it. Where the engine refuses
// the design, the day is worked out all the same.
func TestBadInput(t *testing.T) {
	t.Parallel()
	good, _ := planned(t, middle(t))
	for _, c := range []struct {
		name   string
		change func(d *design.Design)
		at     brewday.Key
		text   string
		key    string
	}{
		{"grain bill too large", func(d *design.Design) { d.Kit.VesselL = 10 }, brewday.MashIn, "The mash takes", "kit.vessel_l"},
		{"boil dry", func(d *design.Design) { d.Kit.SteamLPerH, d.Boil.Minutes = 20, 240 }, brewday.Boil, "boil dry", "boil.minutes"},
		{"negative sparge", func(d *design.Design) { d.Mash.LiquorLPerKg = 8 }, brewday.Sparge, "no sparge", "mash.liquor_l_per_kg"},
		{"kettle too small", func(d *design.Design) { d.Kit.VesselL = 18 }, brewday.Boil, "before the boil", "batch.into_fermenter_l"},
		{"little head", func(d *design.Design) { d.Kit.VesselL = 20.5 }, brewday.Boil, "little room for foam", "kit.vessel_l"},
		{"weak heater", func(d *design.Design) { d.Kit.HeaterW = 1000 }, brewday.Boil, "boil away", "kit.heater_w"},
		{"hops of 40 % alpha", func(d *design.Design) { d.Hop[0].AlphaPct = 40 }, brewday.Boil, "more than any hop has", "hop.0.alpha_pct"},
		{"hops longer than the boil", func(d *design.Design) { d.Hop[0].Minutes = 90 }, brewday.Boil, "longer than the boil", "hop.0.minutes"},
		{"hop soak", func(d *design.Design) { d.Hop[0].MassG = 400 }, brewday.Boil, "hops alone keep", "kit.left_with_break_l"},
		{"no boil", func(d *design.Design) { d.Boil.Minutes = 0 }, brewday.Boil, "Nothing is boiled", "boil.minutes"},
		{"hot tap", func(d *design.Design) { d.Kit.TapC = 28 }, brewday.RunOff, "ice in the water", "kit.tap_c"},
		{"cooler rest", func(d *design.Design) { d.Mash.Rest = append(d.Mash.Rest, design.Rest{TemperatureC: 60, Minutes: 20}) }, brewday.Rests, "cooler than the one before", "mash.rest.1.temperature_c"},
		{"too fine", func(d *design.Design) { d.Crush = &design.Crush{ByEye: "too-fine"} }, brewday.Crush, "too fine", "crush.by_eye"},
		{"alkaline", func(d *design.Design) { d.Water = &design.Water{Bicarbonate: 400} }, brewday.Liquor, "add acid", "water.lactic_acid_88_ml"},
		{"soured", func(d *design.Design) { d.Water = &design.Water{LacticAcid88ML: 20} }, brewday.Liquor, "less acid", "water.lactic_acid_88_ml"},
		{"little yeast", func(d *design.Design) { d.Yeast[0].CellsBillionPerL = 1 }, brewday.Pitching, "little yeast", "yeast.0.cells_billion_per_l"},
		{"fermenter full", func(d *design.Design) { d.Kit.FermenterL = 16 }, brewday.Honey, "foam over", "kit.fermenter_l"},
		{"honey too early", func(d *design.Design) { d.Honey[0].HoursAfterHeight = 1 }, brewday.Honey, "before the window", "honey.0.hours_after_height"},
		{"honey too late", func(d *design.Design) { d.Honey[0].HoursAfterHeight = 200 }, brewday.Honey, "after the window", "honey.0.hours_after_height"},
		{"too much gas", func(d *design.Design) { d.Package.VolumesCO2 = 4 }, brewday.Packaging, "Do not bottle this", "package.volumes_co2"},
		{"no primer", func(d *design.Design) { d.Package.Primer = "none" }, brewday.Packaging, "Without a primer", "package.primer"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := middle(t)
			c.change(&d)
			p, _ := calc.NewEngine().Predict(d) // refused: a zero prediction
			day := brewday.Plan(d, p)
			sound(t, day)
			if s := step(t, day, c.at); !warns(s, c.text, c.key) {
				t.Errorf("%s warns %+v, want %q and %s", c.at, s.Warnings, c.text, c.key)
			}
			if warns(step(t, good, c.at), c.text, c.key) {
				t.Errorf("the sound design is warned of %q too", c.text)
			}
		})
	}
}

// TestNeverSafe: whatever the bottle, no text calls it safe; above its rating
// the day says not to bottle, and within it that this is no promise.
func TestNeverSafe(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := demoFrom(t)
		d.Package.VolumesCO2 = rapid.Float64Range(0, 6).Draw(t, "volumes")
		d.Package.RatedVolumes = rapid.Float64Range(0.5, 10).Draw(t, "rated")
		d.Package.StoreC = rapid.Float64Range(0, 40).Draw(t, "store")
		fg := rapid.Float64Range(0.998, 1.015).Draw(t, "fg")
		wide := rapid.Float64Range(0, 0.006).Draw(t, "doubt")
		p := calc.Prediction{OriginalGravitySG: calc.Band{Low: 1.039, Mid: 1.040, High: 1.041}, FinalGravitySG: calc.Band{Low: fg - wide, Mid: fg, High: fg + wide}}
		day := brewday.Plan(d, p)
		sound(t, day)
		s, _ := day.Step(brewday.Packaging)
		_, texts := everything(day)
		for _, x := range texts {
			if strings.Contains(strings.ToLower(x.String()), "safe") {
				t.Fatalf("calls something safe: %q", x.Text)
			}
		}
		var volumes, headroom, rated float64
		for _, n := range s.Numbers {
			switch n.Label.String() {
			case "in the bottle":
				volumes = n.Value
			case "may still fall by":
				headroom = 1000 * n.Value
			case "made for":
				rated = n.Value
			}
		}
		told := func(text string) bool {
			for _, w := range s.Warnings {
				if strings.Contains(w.String(), text) {
					return true
				}
			}
			for _, n := range s.Notes {
				if strings.Contains(n.Text, text) {
					return true
				}
			}
			return false
		}
		if got := told("Do not bottle this"); got != (volumes > rated) {
			t.Fatalf("%v of %v volumes: refused %v", volumes, rated, got)
		}
		if got, want := told("may still ferment before"), volumes <= rated && headroom < 1-1e-6; got != want {
			t.Fatalf("%v of %v volumes, %v points: warned %v", volumes, rated, headroom, got)
		}
		if got, want := told("no promise"), len(s.Warnings) == 0; want && !got {
			t.Fatalf("%v of %v volumes: called sound without a word", volumes, rated)
		}
		if got := told("unknown make"); got != (rated <= 3) {
			t.Fatalf("rated %v: named as unknown %v", rated, got)
		}
	})
}

// TestAnyDesignTheFileAllows: over each key's whole range the day is finite and
// whole, however silly the brew, with a prediction and without.
func TestAnyDesignTheFileAllows(t *testing.T) {
	t.Parallel()
	keys := map[string]design.Key{}
	for _, k := range design.Keys() {
		keys[k.Path] = k
	}
	base := middle(t)
	_, predicted := planned(t, base)
	rapid.Check(t, func(t *rapid.T) {
		d := base.Clone()
		of := func(path string) float64 {
			k, ok := keys[path]
			if !ok {
				t.Fatalf("no key %s", path)
			}
			return rapid.Float64Range(k.Min, k.Max).Draw(t, path)
		}
		word := func(path string) string { return rapid.SampledFrom(keys[path].Words).Draw(t, path) }
		d.Batch = design.Batch{IntoFermenterL: of("batch.into_fermenter_l"), AltitudeM: of("batch.altitude_m")}
		d.Kit = design.Kit{
			VesselL: of("kit.vessel_l"), HeaterW: of("kit.heater_w"), VesselHeatKJPerK: of("kit.vessel_heat_kj_per_k"),
			MashEfficiencyPct: of("kit.mash_efficiency_pct"), UnderTheBedL: of("kit.under_the_bed_l"),
			HeldByGrainLPerKg: of("kit.held_by_grain_l_per_kg"), SteamLPerH: of("kit.steam_l_per_h"),
			LeftWithBreakL: of("kit.left_with_break_l"), LeftInChillerL: of("kit.left_in_chiller_l"),
			TapC: of("kit.tap_c"), FermenterL: of("kit.fermenter_l"),
		}
		d.Boil = design.Boil{Minutes: of("boil.minutes"), WhirlpoolMinutes: of("boil.whirlpool_minutes"), StandMinutes: of("boil.stand_minutes"), WhirlpoolStartC: of("boil.whirlpool_start_c")}
		d.Mash.LiquorLPerKg, d.Mash.GrainC = of("mash.liquor_l_per_kg"), of("mash.grain_c")
		d.Mash.Rest = nil
		for range rapid.IntRange(0, 3).Draw(t, "rests") {
			d.Mash.Rest = append(d.Mash.Rest, design.Rest{TemperatureC: of("mash.rest.N.temperature_c"), Minutes: of("mash.rest.N.minutes")})
		}
		d.Grain[0].MassKg, d.Grain[0].ExtractPct, d.Grain[0].MoisturePct = of("grain.N.mass_kg"), of("grain.N.extract_pct"), of("grain.N.moisture_pct")
		d.Grain = d.Grain[:rapid.IntRange(0, 2).Draw(t, "grains")]
		d.Honey[0].MassKg, d.Honey[0].MoisturePct, d.Honey[0].HoursAfterHeight = of("honey.N.mass_kg"), of("honey.N.moisture_pct"), of("honey.N.hours_after_height")
		d.Honey[0].Moment = word("honey.N.moment")
		d.Honey = d.Honey[:rapid.IntRange(0, 1).Draw(t, "honeys")]
		d.Hop[0] = design.Hop{Name: "x", AlphaPct: of("hop.N.alpha_pct"), MassG: of("hop.N.mass_g"), When: word("hop.N.when"), Minutes: of("hop.N.minutes")}
		d.Yeast[0].TemperatureC, d.Yeast[0].CellsBillionPerL, d.Yeast[0].Form = of("yeast.N.temperature_c"), of("yeast.N.cells_billion_per_l"), word("yeast.N.form")
		d.Water = &design.Water{Calcium: of("water.calcium"), Bicarbonate: of("water.bicarbonate"), GypsumG: of("water.gypsum_g"), LacticAcid88ML: of("water.lactic_acid_88_ml")}
		d.Package = design.Package{
			Vessel: word("package.vessel"), VolumesCO2: of("package.volumes_co2"), Primer: word("package.primer"), PrimerMoisturePct: of("package.primer_moisture_pct"),
			WarmestSinceC: of("package.warmest_since_c"), StoreC: of("package.store_c"), RatedVolumes: of("package.rated_volumes"),
		}
		p := predicted
		if rapid.Bool().Draw(t, "without prediction") {
			p = calc.Prediction{}
		}
		sound(t, brewday.Plan(d, p))
	})
}

// TestWarnsWithTheVolumes: all that package water finds wrong with a brew stands at
// one step of the day.
func TestWarnsWithTheVolumes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := demoFrom(t)
		d.Kit.VesselL = d.Batch.IntoFermenterL * rapid.Float64Range(0.5, 2).Draw(t, "vessel")
		d.Kit.FermenterL = d.Batch.IntoFermenterL * rapid.Float64Range(0.9, 1.6).Draw(t, "fermenter")
		d.Mash.LiquorLPerKg = rapid.Float64Range(1.5, 8).Draw(t, "thickness")
		d.Boil.Minutes = rapid.Float64Range(0, 240).Draw(t, "boil")
		plan := recipe.Liquor(d)
		day := brewday.Plan(d, calc.Prediction{})
		for _, w := range plan.Warnings {
			n := 0
			for _, said := range day.Warnings() {
				if said.Message.String() == w.Message.String() {
					n++
				}
			}
			if n != 1 && w.At != water.AtFerment { // nothing ferments in a day without a prediction
				t.Fatalf("%q is said %d times: %+v", w, n, day.Warnings())
			}
		}
	})
}
