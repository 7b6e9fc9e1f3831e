// Package recipe gives each package of the physics what it takes of a design: the
// grist, the liquor, the mash, the hops, the package. A [design.Design] comes in,
// plain inputs and what follows of them go out: which key is which input stands here
// and nowhere else. It knows no draw, no doubt and no prediction.
package recipe

import (
	"skep/calc/boil"
	"skep/calc/carbonation"
	"skep/calc/colour"
	"skep/calc/crush"
	"skep/calc/design"
	"skep/calc/honey"
	"skep/calc/mash"
	"skep/calc/water"
	"skep/calc/watertest"
)

// Grist is all of a design's grain together.
func Grist(d design.Design) water.Grist {
	var g water.Grist
	for i := range d.Grain {
		g = g.Plus(malt(&d.Grain[i]))
	}
	return g
}

func malt(g *design.Grain) water.Malt {
	return water.Malt{MassKg: g.MassKg, ExtractPct: g.ExtractPct, MoisturePct: g.MoisturePct, ColourEBC: g.ColourEBC}
}

// HoneyAt is all honey that goes in at one of the moments, as water and extract.
func HoneyAt(d design.Design, moments ...string) water.Liquid {
	var sum water.Liquid
	for i := range d.Honey {
		h := &d.Honey[i]
		for _, m := range moments {
			if h.Moment == m {
				sum = sum.Plus(water.Honey(h.MassKg, h.MoisturePct))
			}
		}
	}
	return sum
}

// LiquorInput is a design as its liquor's plan needs it.
func LiquorInput(d design.Design) water.Input {
	in := water.Input{
		IntoFermenterL: d.Batch.IntoFermenterL, AltitudeM: d.Batch.AltitudeM,
		Grist: Grist(d), BoilMinutes: d.Boil.Minutes,
		BoilHoney: HoneyAt(d, design.MomentBoil), WhirlpoolHoney: HoneyAt(d, design.MomentWhirlpool),
		LateHoney:    HoneyAt(d, design.MomentPitching, design.MomentFermenting),
		LiquorLPerKg: d.Mash.LiquorLPerKg, GrainC: d.Mash.GrainC, FirstRestC: firstRestC(d),
		Kit: water.Kit{
			VesselL: d.Kit.VesselL, HeaterW: d.Kit.HeaterW, VesselHeatKJPerK: d.Kit.VesselHeatKJPerK,
			MashEfficiencyPct: d.Kit.MashEfficiencyPct, UnderTheBedL: d.Kit.UnderTheBedL,
			HeldByGrainLPerKg: d.Kit.HeldByGrainLPerKg, SteamLPerH: d.Kit.SteamLPerH,
			LeftWithBreakL: d.Kit.LeftWithBreakL, LeftInChillerL: d.Kit.LeftInChillerL, FermenterL: d.Kit.FermenterL,
		},
	}
	for i := range d.Hop {
		if d.Hop[i].When != design.HopCold {
			in.HopsG += d.Hop[i].MassG
		}
	}
	return in
}

// firstRestC is where the mash starts; 66 °C where there is no rest.
func firstRestC(d design.Design) float64 {
	if len(d.Mash.Rest) == 0 {
		return 66
	}
	return d.Mash.Rest[0].TemperatureC
}

// Liquor is the plan of a design's liquor, litres and liquids of the day.
func Liquor(d design.Design) water.Plan { return water.For(LiquorInput(d)) }

// LiquorForExtract is [Liquor] when the extract that the grain gives the wort is
// known from elsewhere (a coarse crush, a measured gravity).
func LiquorForExtract(d design.Design, grainExtractKg float64) water.Plan {
	return water.ForExtract(LiquorInput(d), grainExtractKg)
}

// LiquorIons is the design's liquor with its additions spread over all of it,
// mash and sparge, and the acid that was added, mEq/L; ok is false where the
// design says nothing of its water.
func LiquorIons(d design.Design) (ions water.Ions, acidMEqL float64, ok bool) {
	w := d.Water
	if w == nil {
		return water.Ions{}, 0, false
	}
	plan := Liquor(d)
	volume := plan.MashLiquor + plan.Sparge
	if !(volume > 0) {
		return water.Ions{}, 0, false
	}
	tap := water.Ions{
		CalciumMgL: w.Calcium, MagnesiumMgL: w.Magnesium, SodiumMgL: w.Sodium,
		ChlorideMgL: w.Chloride, SulphateMgL: w.Sulphate, BicarbonateMgL: w.Bicarbonate,
	}
	added := water.Salts{
		GypsumG: w.GypsumG, CalciumChlorideG: w.CalciumChlorideG, EpsomG: w.EpsomG,
		TableSaltG: w.TableSaltG, BakingSodaG: w.BakingSodaG,
	}
	return tap.Plus(added.Ions(volume)), water.AcidMEqL(w.LacticAcid88ML, volume), true
}

// MashPH is the pH of a design's mash, cooled to room temperature, as 10th, 50th
// and 90th percentile, with the acid that it asks for. ok is false where it says
// nothing of its water or has no grain.
func MashPH(d design.Design) (low, mid, high float64, ok bool) {
	low, mid, high, ok = mashPHBefore(d)
	if ok && d.Water.MashPHWanted != nil && *d.Water.MashPHWanted < mid {
		fall := mid - *d.Water.MashPHWanted
		low, mid, high = low-fall, mid-fall, high-fall
	}
	return low, mid, high, ok
}

// usualAcid is taken where a design wants a pH and names no acid.
const usualAcid = "lactic 80 %"

// MashAcid is the acid at hand that brings a design's mash to the pH it wants:
// its name and the dose in mL, as 10th, 50th and 90th percentile. ok is false
// where none is wanted or none is needed.
func MashAcid(d design.Design) (acid string, lowML, midML, highML float64, ok bool) {
	_, ph, _, known := mashPHBefore(d)
	if !known || d.Water.MashPHWanted == nil || !(*d.Water.MashPHWanted < ph) {
		return "", 0, 0, 0, false
	}
	wanted := *d.Water.MashPHWanted
	acid = d.Water.Acid
	a, listed := water.Acids()[acid]
	if !listed {
		acid = usualAcid
		a = water.Acids()[acid]
	}
	low, mid, high := water.AcidMEq(Grist(d).MassKg, ph, wanted)
	per := a.MEqPerML(wanted)
	return acid, low / per, mid / per, high / per, true
}

// mashPHBefore is MashPH without the acid that the design asks for.
func mashPHBefore(d design.Design) (low, mid, high float64, ok bool) {
	ions, acid, ok := LiquorIons(d)
	if !ok {
		return 0, 0, 0, false
	}
	grist := make([]water.Malt, len(d.Grain))
	for i := range d.Grain {
		grist[i] = malt(&d.Grain[i])
	}
	return water.MashPH(grist, ions.ResidualAlkalinityMEqL()-acid, Liquor(d).LiquorLPerKg)
}

// Hops is a design's boil and what follows it. wortSG is of the wort in the
// boil, volumeL all cool wort in the vessel at its end (water.Plan.CoolL).
func Hops(d design.Design, wortSG, volumeL float64) boil.Brew {
	b := boil.Brew{
		WortSG: wortSG, VolumeL: volumeL, VesselL: d.Kit.VesselL, AltitudeM: d.Batch.AltitudeM,
		BoilMinutes: d.Boil.Minutes, WhirlpoolMinutes: d.Boil.WhirlpoolMinutes,
		StandMinutes: d.Boil.StandMinutes, WhirlpoolStartC: d.Boil.WhirlpoolStartC,
		BeerShare: wortShare(d),
	}
	for i := range d.Hop {
		h := &d.Hop[i]
		c := boil.Charge{AlphaPct: h.AlphaPct, MassG: h.MassG, Whirlpool: h.When == design.HopWhirlpool, Minutes: h.Minutes}
		if h.When == design.HopCold {
			c = boil.Charge{} // never hot: nothing isomerises
		}
		b.Hops = append(b.Hops, c)
	}
	return b
}

// wortShare is how much of the beer the wort is, by volume, 0 to 1: honey that
// goes in cold thins what came from the kettle.
func wortShare(d design.Design) float64 {
	late := 0.0
	for i := range d.Honey {
		if h := &d.Honey[i]; h.Moment == design.MomentPitching || h.Moment == design.MomentFermenting {
			late += honey.VolumeL(h.MassKg, h.MoisturePct, 20)
		}
	}
	if into := d.Batch.IntoFermenterL; into > 0 {
		return into / (into + late)
	}
	return 1
}

// Colour is a design's beer in EBC as 10th, 50th and 90th percentile; volumeL as
// for [Hops].
func Colour(d design.Design, volumeL float64) (low, mid, high float64) {
	mcu := 0.0
	for i := range d.Grain {
		g := &d.Grain[i]
		mcu += colour.MCU(g.MassKg, colour.LovibondFromEBC(g.ColourEBC), volumeL)
	}
	return colour.Beer(mcu * wortShare(d))
}

// Carbonation is a design's package as package carbonation takes it, so high
// above the sea.
func Carbonation(p design.Package, altitudeM float64) carbonation.Package {
	return carbonation.Package{
		Keg: p.Vessel == "keg", VolumesCO2: p.VolumesCO2, Primer: p.Primer, PrimerMoisturePct: p.PrimerMoisturePct,
		WarmestSinceC: p.WarmestSinceC, StoreC: p.StoreC, RatedVolumes: p.RatedVolumes,
		AirKPa: water.AirPressureKPa(altitudeM),
	}
}

// Crush is what a design says of its crush; nil says nothing.
func Crush(c *design.Crush) crush.Crush {
	if c == nil {
		return crush.Crush{}
	}
	return crush.Crush(*c)
}

// WaterTest is what a water test must know of a design's kit.
func WaterTest(d design.Design) watertest.Kit {
	return watertest.Kit{VesselHeatKJPerK: d.Kit.VesselHeatKJPerK, HeaterW: d.Kit.HeaterW, LeftWithBreakL: d.Kit.LeftWithBreakL, AltitudeM: d.Batch.AltitudeM}
}

// MashInput is the design's mash as package mash takes it, every rest so many
// kelvin warmer than set.
func MashInput(d design.Design, shiftC float64) mash.Input {
	in := mash.Input{LiquorLPerKg: d.Mash.LiquorLPerKg}
	if _, ph, _, ok := MashPH(d); ok {
		in.PH = ph
	}
	kg := 0.0
	for _, g := range d.Grain {
		in.Grain = append(in.Grain, mash.Grain{MassKg: g.MassKg, ExtractPct: g.ExtractPct, MoisturePct: g.MoisturePct, Enzymes: g.Enzymes})
		kg += g.MassKg
	}
	for _, r := range d.Mash.Rest {
		in.Rests = append(in.Rests, mash.Rest{TemperatureC: r.TemperatureC + shiftC, Minutes: r.Minutes})
	}
	// How fast the heater lifts liquor, grain and vessel; no heater leaves the
	// package's usual ramp (somebody adds hot liquor).
	if d.Kit.HeaterW > 0 && kg > 0 {
		minutes := water.HeatingMinutes(d.Mash.LiquorLPerKg*kg, kg, d.Kit.VesselHeatKJPerK, 60, 70, d.Kit.HeaterW)
		in.HeatKPerMin = min(max(10/minutes, 0.05), 50)
	}
	return in
}
