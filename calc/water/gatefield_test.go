package water_test

import (
	"skep/calc/design"

	"pgregory.net/rapid"
)

// gateField is our middle design, the example of the file format.
func gateField() design.Design {
	return design.Design{
		Batch: design.Batch{IntoFermenterL: 15},
		Kit: design.Kit{
			VesselL: 30, HeaterW: 2000, VesselHeatKJPerK: 4, MashEfficiencyPct: 74, UnderTheBedL: 1.2,
			HeldByGrainLPerKg: 0.9, SteamLPerH: 2.2, LeftWithBreakL: 1, LeftInChillerL: 0.4, TapC: 14, FermenterL: 25,
		},
		Mash:  design.Mash{LiquorLPerKg: 3, GrainC: 18, Rest: []design.Rest{{TemperatureC: 66.5, Minutes: 60}}},
		Grain: []design.Grain{{Name: "Pale malt", MassKg: 2.7, ExtractPct: 80.5, MoisturePct: 4.5, ColourEBC: 5.5, Enzymes: design.EnzymesOwn}},
		Honey: []design.Honey{{Name: "Lime blossom", MassKg: 0.55, MoisturePct: 17.5, Moment: design.MomentFermenting, HoursAfterHeight: 12}},
		Hop:   []design.Hop{{Name: "Goldings", AlphaPct: 5.2, MassG: 14, When: "boil", Minutes: 60}},
		Boil:  design.Boil{Minutes: 60, WhirlpoolMinutes: 5, StandMinutes: 5, WhirlpoolStartC: 96},
	}
}

// anyDesign draws an ordinary brew on a random vessel, honey at random moments.
func anyDesign(t *rapid.T) design.Design {
	d := gateField()
	between := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	into := between("into", 3, 80)
	d.Batch = design.Batch{IntoFermenterL: into, AltitudeM: between("altitude", -400, 5000)}
	d.Kit.UnderTheBedL = between("under the bed", 0, 3)
	d.Kit.HeldByGrainLPerKg = between("held", 0.3, 2)
	d.Kit.SteamLPerH = between("steam", 0, 6)
	d.Kit.LeftWithBreakL = between("break", 0, 3)
	d.Kit.LeftInChillerL = between("chiller", 0, 2)
	d.Kit.MashEfficiencyPct = between("efficiency", 20, 90)
	d.Boil.Minutes = between("minutes", 0, 120)
	d.Mash.LiquorLPerKg = between("thickness", 1.5, 6)
	d.Grain[0].MassKg = into * between("grain", 0, 0.35)
	d.Grain[0].MoisturePct = between("moisture", 0, 12)
	d.Grain = append(d.Grain, design.Grain{
		MassKg: into * between("second grain", 0, 0.05), ExtractPct: 75, MoisturePct: between("second moisture", 0, 12), ColourEBC: 100,
	})
	d.Honey = nil
	moments := []string{design.MomentBoil, design.MomentWhirlpool, design.MomentPitching, design.MomentFermenting}
	for range rapid.IntRange(0, 3).Draw(t, "honeys") {
		d.Honey = append(d.Honey, design.Honey{
			MassKg: into * between("honey", 0, 0.08), MoisturePct: between("honey moisture", 10, 30),
			Moment: rapid.SampledFrom(moments).Draw(t, "moment"),
		})
	}
	return d
}
