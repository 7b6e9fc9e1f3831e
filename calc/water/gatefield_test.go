package water_test

import (
	"skep/calc/water"

	"pgregory.net/rapid"
)

// paleMalt is the grist of our middle brew.
var paleMalt = water.Malt{MassKg: 2.7, ExtractPct: 80.5, MoisturePct: 4.5, ColourEBC: 5.5}

// gateField is our middle brew, the example of the file format.
func gateField() water.Input {
	return water.Input{
		IntoFermenterL: 15,
		Kit: water.Kit{
			VesselL: 30, HeaterW: 2000, VesselHeatKJPerK: 4, MashEfficiencyPct: 74, UnderTheBedL: 1.2,
			HeldByGrainLPerKg: 0.9, SteamLPerH: 2.2, LeftWithBreakL: 1, LeftInChillerL: 0.4, FermenterL: 25,
		},
		LiquorLPerKg: 3, GrainC: 18, FirstRestC: 66.5,
		Grist:     water.GristOf(paleMalt),
		LateHoney: water.Honey(0.55, 17.5),
		HopsG:     14, BoilMinutes: 60,
	}
}

// anyBrew draws an ordinary brew on a random vessel, honey at random moments.
func anyBrew(t *rapid.T) water.Input {
	in := gateField()
	between := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	into := between("into", 3, 80)
	in.IntoFermenterL, in.AltitudeM = into, between("altitude", -400, 5000)
	in.Kit.UnderTheBedL = between("under the bed", 0, 3)
	in.Kit.HeldByGrainLPerKg = between("held", 0.3, 2)
	in.Kit.SteamLPerH = between("steam", 0, 6)
	in.Kit.LeftWithBreakL = between("break", 0, 3)
	in.Kit.LeftInChillerL = between("chiller", 0, 2)
	in.Kit.MashEfficiencyPct = between("efficiency", 20, 90)
	in.BoilMinutes = between("minutes", 0, 120)
	in.LiquorLPerKg = between("thickness", 1.5, 6)
	in.Grist = water.GristOf(
		water.Malt{MassKg: into * between("grain", 0, 0.35), ExtractPct: 80.5, MoisturePct: between("moisture", 0, 12)},
		water.Malt{MassKg: into * between("second grain", 0, 0.05), ExtractPct: 75, MoisturePct: between("second moisture", 0, 12)},
	)
	honey := func(name string) water.Liquid {
		return water.Honey(into*between(name, 0, 0.08), between(name+"'s moisture", 10, 30))
	}
	in.BoilHoney, in.WhirlpoolHoney, in.LateHoney = honey("boil honey"), honey("whirlpool honey"), honey("late honey")
	return in
}
