package recipe

import (
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/honey"
	"skep/calc/stress"
	"skep/calc/water"
)

// Below the one a yeast wants the cells of a lager, unless its own range ends above
// the other: then it is a cold ale (common practice, no source).
const lagerBelowC, lagerColdestC = 14.0, 12.0

// Stress is a design as one yeast meets it, every uncertain input at its middle; the
// strength is left out. plan is the liquor of the day.
func Stress(d design.Design, y design.Yeast, plan *water.Plan) stress.Input {
	litres := plan.FermenterL
	in := stress.Input{
		TolerancePct: y.TolerancePct, ColdestC: y.ColdestC, WarmestC: y.WarmestC,
		TemperatureC: y.TemperatureC, HottestC: y.TemperatureC,
		Cold:             y.TemperatureC < lagerBelowC && y.ColdestC < lagerColdestC,
		PitchBillionPerL: y.CellsBillionPerL,
	}
	for _, s := range d.Temperature {
		in.HottestC = max(in.HottestC, s.TemperatureC)
	}
	grain := plan.LaboratoryKg * min(max(d.Kit.MashEfficiencyPct-Crush(d.Crush).EfficiencyPoints(), 0), 100) / 100 * plan.KeptShare
	pitched, late, honeyKg := grain, 0.0, 0.0
	mass := density.WortKg(grain, d.Batch.IntoFermenterL)
	lateMass := 0.0
	for i := range d.Honey {
		h := &d.Honey[i]
		kg := honey.SolidsKg(h.MassKg, min(max(h.MoisturePct, honey.MinMoisturePct), honey.MaxMoisturePct))
		honeyKg += h.MassKg
		if h.Moment == design.MomentFermenting {
			late, lateMass = late+kg, lateMass+h.MassKg
		} else {
			pitched, mass = pitched+kg, mass+h.MassKg
		}
	}
	if !(litres > 0) || !(mass > 0) {
		return in
	}
	in.PitchedPlato = 100 * pitched / mass
	in.OriginalPlato = 100 * (pitched + late) / (mass + lateMass)
	in.MaltPlato = 100 * grain / (mass + lateMass)
	in.HoneyGPerL, in.NutrientGPerL = 1000*honeyKg/litres, d.Batch.NutrientG/litres
	return in
}
