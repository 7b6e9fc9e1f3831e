package calc

import (
	"math"
	"testing"

	"skep/assets/demotest"

	"pgregory.net/rapid"

	"skep/calc/carbonation"
	"skep/calc/design"
	"skep/calc/recipe"
)

// TestAnyDesignTheFileAllows: over the whole of every key's range the day is
// finite and no volume is below zero, however silly the brew.
func TestAnyDesignTheFileAllows(t *testing.T) {
	t.Parallel()
	keys := map[string]design.Key{}
	for _, k := range design.Keys() {
		keys[k.Path] = k
	}
	middle := demotest.Design(t, "middle")
	rapid.Check(t, func(t *rapid.T) {
		of := func(path string) float64 {
			k, ok := keys[path]
			if !ok {
				t.Fatalf("no key %s", path)
			}
			return rapid.Float64Range(k.Min, k.Max).Draw(t, path)
		}
		d := middle.Clone()
		d.Batch = design.Batch{IntoFermenterL: of("batch.into_fermenter_l"), AltitudeM: of("batch.altitude_m")}
		d.Kit = design.Kit{
			VesselL: of("kit.vessel_l"), HeaterW: of("kit.heater_w"), VesselHeatKJPerK: of("kit.vessel_heat_kj_per_k"),
			MashEfficiencyPct: of("kit.mash_efficiency_pct"), UnderTheBedL: of("kit.under_the_bed_l"),
			HeldByGrainLPerKg: of("kit.held_by_grain_l_per_kg"), SteamLPerH: of("kit.steam_l_per_h"),
			LeftWithBreakL: of("kit.left_with_break_l"), LeftInChillerL: of("kit.left_in_chiller_l"), FermenterL: of("kit.fermenter_l"),
		}
		d.Boil = design.Boil{
			Minutes: of("boil.minutes"), WhirlpoolMinutes: of("boil.whirlpool_minutes"),
			StandMinutes: of("boil.stand_minutes"), WhirlpoolStartC: of("boil.whirlpool_start_c"),
		}
		d.Mash.LiquorLPerKg, d.Mash.GrainC = of("mash.liquor_l_per_kg"), of("mash.grain_c")
		d.Mash.Rest[0].TemperatureC = of("mash.rest.N.temperature_c")
		d.Grain[0] = design.Grain{MassKg: of("grain.N.mass_kg"), ExtractPct: of("grain.N.extract_pct"), MoisturePct: of("grain.N.moisture_pct"), ColourEBC: of("grain.N.colour_ebc")}
		d.Honey[0].MassKg, d.Honey[0].MoisturePct = of("honey.N.mass_kg"), of("honey.N.moisture_pct")
		d.Honey[0].Moment = rapid.SampledFrom(keys["honey.N.moment"].Words).Draw(t, "moment")
		d.Hop[0] = design.Hop{AlphaPct: of("hop.N.alpha_pct"), MassG: of("hop.N.mass_g"), Minutes: of("hop.N.minutes"), When: rapid.SampledFrom(keys["hop.N.when"].Words).Draw(t, "when")}
		d.Package = design.Package{
			Vessel: "bottle", VolumesCO2: of("package.volumes_co2"), Primer: rapid.SampledFrom(keys["package.primer"].Words).Draw(t, "primer"),
			PrimerMoisturePct: of("package.primer_moisture_pct"), WarmestSinceC: of("package.warmest_since_c"),
			StoreC: of("package.store_c"), RatedVolumes: of("package.rated_volumes"),
		}
		p := recipe.Liquor(d)
		bitter := recipe.Hops(d, p.PostBoilGravitySG, p.CoolL).Bitterness()
		pale, colourEBC, dark := recipe.Colour(d, p.CoolL)
		b := carbonation.Bottle(recipe.Carbonation(d.Package, d.Batch.AltitudeM))
		for i, v := range []float64{
			p.MashLiquor, p.Sparge, p.PreBoil, p.PostBoil, p.IntoFermenter, p.Packaged, p.CoolL, p.FermenterL, p.MashLevelL,
			p.IntoFermenterWort.WaterKg, p.IntoFermenterWort.ExtractKg, p.PreBoilGravitySG, p.PostBoilGravitySG, p.KeptShare,
			bitter.Low, bitter.Mid, bitter.High, pale, colourEBC, dark, b.Volumes, b.PrimerGPerL, 1.02 + b.BarGauge,
		} {
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
				t.Fatalf("value %d is %v: %+v", i, v, p)
			}
		}
		if !(bitter.Low <= bitter.Mid && bitter.Mid <= bitter.High && pale <= colourEBC && colourEBC <= dark) {
			t.Fatalf("bands %v %v %v, %v %v %v", bitter.Low, bitter.Mid, bitter.High, pale, colourEBC, dark)
		}
		if math.IsNaN(p.StrikeTemperatureC) || math.IsInf(p.StrikeTemperatureC, 0) {
			t.Fatalf("strike %v", p.StrikeTemperatureC)
		}
	})
}
