package explain

import (
	"fmt"
	"strconv"

	"skep/calc/honey"
	"skep/calc/recipe"
	"skep/calc/sugar"
	"skep/calc/taste"
)

// fromDesign are inputs that the design has.
func (x *Explainer) fromDesign(names ...[3]string) []Input {
	var in []Input
	for _, n := range names { // name, key, unit
		text, err := x.design.Get(n[1])
		if err != nil {
			continue
		}
		if v, err := strconv.ParseFloat(text, 64); err == nil {
			in = append(in, Input{Name: n[0], Key: n[1], Value: v, Unit: n[2]})
		}
	}
	return in
}

// one is another number of the prediction as the only input.
func one(key, unit string) func(x *Explainer) []Input {
	return func(x *Explainer) []Input { return []Input{x.fromPrediction(key, unit)} }
}

func (x *Explainer) fromPrediction(key, unit string) Input {
	return Input{Name: sheetOf(key).name, Key: key, Value: x.values[key].band.Mid, Unit: unit}
}

func extractInputs(x *Explainer) []Input {
	w := &x.working
	in := []Input{
		{Name: "laboratory extract of the grain", Value: w.Plan.LaboratoryKg, Unit: "kg"},
		{Name: "conversion of the mash, over a well-made one", Value: w.Conversion},
		{Name: "share of the vessel's wort that reaches the fermenter", Value: w.Plan.KeptShare},
		{Name: "extract of the grain in the fermenter", Value: w.GrainExtractKg, Unit: "kg"},
		{Name: "extract of the honey in the fermenter", Value: w.HoneyExtractKg, Unit: "kg"},
		{Name: "OE at pitching", Value: w.OriginalPlato, Unit: "°P"},
		{Name: "OE with all honey", Value: w.EffectiveOriginalPlato, Unit: "°P"},
	}
	in = append(in, x.fromDesign([3]string{"mash efficiency", "kit.mash_efficiency_pct", "%"}, [3]string{"wort into the fermenter", "batch.into_fermenter_l", "L"})...)
	return append(in, x.honeyInputs()...)
}

func (x *Explainer) honeyInputs() []Input {
	var in []Input
	for i, h := range x.design.Honey {
		name := orElse(h.Name, numbered("honey", i, len(x.design.Honey)))
		in = append(in, x.fromDesign(
			[3]string{name, fmt.Sprintf("honey.%d.mass_kg", i), "kg"},
			[3]string{"moisture of " + name, fmt.Sprintf("honey.%d.moisture_pct", i), "%"})...)
	}
	return in
}

func spectrum(s sugar.Spectrum, what, unit string, scale float64) []Input {
	var in []Input
	for _, k := range []struct {
		kind string
		v    float64
	}{
		{"glucose", s.Glucose}, {"fructose", s.Fructose}, {"sucrose", s.Sucrose}, {"maltose", s.Maltose},
		{"maltotriose", s.Maltotriose}, {"dextrin", s.Dextrin}, {"other", s.Other},
	} {
		in = append(in, Input{Name: k.kind + what, Value: scale * k.v, Unit: unit})
	}
	return in
}

func mashInputs(x *Explainer) []Input {
	w := &x.working
	in := spectrum(w.MashWort, " of the mash", "% of extract", 100)
	for i := range x.design.Mash.Rest {
		in = append(in, x.fromDesign(
			[3]string{"temperature of the " + numbered("rest", i, len(x.design.Mash.Rest)), fmt.Sprintf("mash.rest.%d.temperature_c", i), "°C"},
			[3]string{"length of the " + numbered("rest", i, len(x.design.Mash.Rest)), fmt.Sprintf("mash.rest.%d.minutes", i), "min"})...)
	}
	in = append(in, taught("the mash is warmer than set, as this kit has taught, by", x.engine.Doubts().RestShiftC, "K")...)
	in = append(in, x.fromDesign([3]string{"mash liquor", "mash.liquor_l_per_kg", "L/kg"})...)
	if _, ph, _, ok := recipe.MashPH(x.design); ok {
		in = append(in, Input{Name: "pH of the mash, cooled", Value: ph, Unit: "pH"})
	}
	return append(in, Input{Name: "extract of the grain in the fermenter", Value: w.GrainExtractKg, Unit: "kg"},
		Input{Name: "extract of the honey in the fermenter, all of it", Value: w.HoneyExtractKg, Unit: "kg"})
}

func (x *Explainer) strainInputs() []Input {
	w := &x.working
	y := fmt.Sprintf("yeast.%d.", x.yeast)
	return append(x.fromDesign(
		[3]string{"attenuation of the strain, low", y + "attenuation_low_pct", "% on the reference wort"},
		[3]string{"attenuation of the strain, high", y + "attenuation_high_pct", "% on the reference wort"}),
		Input{Name: "the strain takes of simple sugars", Value: 100 * w.Take.Simple, Unit: "%"},
		Input{Name: "of maltose", Value: 100 * w.Take.Maltose, Unit: "%"},
		Input{Name: "of maltotriose", Value: 100 * w.Take.Maltotriose, Unit: "%"},
		Input{Name: "of dextrin", Value: 100 * w.Take.Dextrin, Unit: "%"})
}

func fermentedInputs(x *Explainer) []Input {
	w := &x.working
	in := []Input{
		{Name: "OE with all honey", Value: w.EffectiveOriginalPlato, Unit: "°P"},
		{Name: "fermented share of the extract", Value: 100 * w.FermentedShare, Unit: "%"},
		{Name: "RE", Value: w.RealExtractPlato, Unit: "°P"},
		{Name: "AE", Value: w.ApparentPlato, Unit: "°P"},
		{Name: "alcohol by mass", Value: w.ABWPct, Unit: "%"},
		{Name: "final gravity of the middle beer", Value: w.FinalGravitySG, Unit: "SG"},
	}
	in = append(in, x.strainInputs()...)
	return append(in, mashInputs(x)...)
}

func residueInputs(x *Explainer) []Input {
	w := &x.working
	in := spectrum(w.Residue, " left in the middle beer", "g/L", 1)
	in = append(in, Input{Name: "dextrin trimmed by live honey enzymes", Value: 100 * w.Trimmed, Unit: "%"},
		Input{Name: "RE", Value: w.RealExtractPlato, Unit: "°P"})
	return append(in, x.strainInputs()...)
}

func tasteInputs(x *Explainer) []Input {
	w := &x.working
	in := []Input{
		{Name: "RDF", Key: "real_attenuation_pct", Value: w.RDFPct, Unit: "%"},
		{Name: "S, sweetness as sucrose", Key: "sweetness_g_l", Value: w.SweetnessGL, Unit: "g/L"},
		{Name: "alcohol", Key: "strength_pct", Value: w.ABVPct, Unit: "% vol"},
	}
	told := x.engine.Doubts()
	in = append(in, taught("dryness as you taste it above the index, as your tastings have taught", told.Dryness.Shift, "")...)
	in = append(in, taught("body as you taste it above the index, as your tastings have taught", told.Body.Shift, "")...)
	return append(in, spectrum(w.Residue, " left in the middle beer", "g/L", 1)...)
}

// bodyInputs are those of taste, with what alcohol fills and what honey leaves.
func bodyInputs(x *Explainer) []Input {
	w := &x.working
	return append(tasteInputs(x), Input{Name: "F, what alcohol fills", Value: taste.Fullness(w.ABVPct, w.Weights), Unit: "g/L"},
		Input{Name: "of what is left, honey's", Value: w.HoneyLeftGL, Unit: "g/L"})
}

// taught is what batches have told, if they have.
func taught(name string, v float64, unit string) []Input {
	if v == 0 {
		return nil
	}
	return []Input{{Name: name, Value: v, Unit: unit}}
}

func characterInputs(x *Explainer) []Input {
	var in []Input
	gramsPerL := 0.0
	for i, c := range x.working.Character {
		gramsPerL += c.GramsPerL
		name := orElse(x.design.Honey[i].Name, numbered("honey", i, len(x.design.Honey)))
		in = append(in, Input{Name: name, Key: fmt.Sprintf("honey.%d.mass_kg", i), Value: c.GramsPerL, Unit: "g per litre of beer"},
			Input{Name: "CO2 still to come when it goes in", Value: c.CO2VolumesAfter, Unit: "L/L"})
	}
	if gramsPerL > 0 {
		in = append(in, Input{Name: "beside the index: the honey's acid makes the beer more acid by about", Value: honey.BeerPHDrop(gramsPerL), Unit: "pH"})
	}
	return in
}

func clockInputs(x *Explainer) []Input {
	y := fmt.Sprintf("yeast.%d.", x.yeast)
	in := x.fromDesign([3]string{"temperature of the fermentation", y + "temperature_c", "°C"}, [3]string{"cells pitched", y + "cells_billion_per_l", "billion/L"})
	in = append(in, spectrum(x.working.GrainGL, " of the malt at pitching", "g/L", 1)...)
	for i, gL := range x.working.HoneyGL {
		if gL > 0 {
			in = append(in, Input{Name: numbered("honey", i, len(x.working.HoneyGL)), Value: gL, Unit: "g/L of extract"})
		}
	}
	return append(in, x.strainInputs()...)
}

func hopInputs(x *Explainer) []Input {
	in := []Input{{Name: "wort after the boil", Value: x.working.Plan.PostBoilGravitySG, Unit: "SG"}, {Name: "volume, cool", Value: x.working.Plan.CoolL, Unit: "L"}}
	for i, h := range x.design.Hop {
		name := orElse(h.Name, numbered("hop", i, len(x.design.Hop)))
		in = append(in, x.fromDesign(
			[3]string{name, fmt.Sprintf("hop.%d.mass_g", i), "g"},
			[3]string{"alpha acid of " + name, fmt.Sprintf("hop.%d.alpha_pct", i), "%"},
			[3]string{"boiling of " + name, fmt.Sprintf("hop.%d.minutes", i), "min"})...)
	}
	return in
}

func colourInputs(x *Explainer) []Input {
	in := []Input{{Name: "volume, cool", Value: x.working.Plan.CoolL, Unit: "L"}}
	for i, g := range x.design.Grain {
		name := orElse(g.Name, numbered("grain", i, len(x.design.Grain)))
		in = append(in, x.fromDesign([3]string{name, fmt.Sprintf("grain.%d.mass_kg", i), "kg"}, [3]string{"colour of " + name, fmt.Sprintf("grain.%d.colour_ebc", i), "EBC"})...)
	}
	return in
}

func strikeInputs(x *Explainer) []Input {
	return append(x.fromDesign(
		[3]string{"first rest", "mash.rest.0.temperature_c", "°C"}, [3]string{"grain", "mash.grain_c", "°C"},
		[3]string{"mash liquor", "mash.liquor_l_per_kg", "L/kg"}, [3]string{"heat the vessel takes", "kit.vessel_heat_kj_per_k", "kJ/K"}),
		x.fromPrediction("volumes.mash_liquor", "L"))
}

func bottleInputs(x *Explainer) []Input {
	in := x.fromDesign(
		[3]string{"CO2 wanted", "package.volumes_co2", "volumes"}, [3]string{"warmest since it finished", "package.warmest_since_c", "°C"},
		[3]string{"warmest store", "package.store_c", "°C"})
	f := x.values["final_gravity_sg"].band
	return append(in, Input{Name: "final gravity, dry end", Key: "final_gravity_sg", Value: f.Low, Unit: "SG"},
		Input{Name: "final gravity, sweet end", Key: "final_gravity_sg", Value: f.High, Unit: "SG"},
		x.fromPrediction("primer_g_per_l", "g/L"))
}

func volumeInputs(x *Explainer) []Input {
	return x.fromDesign(
		[3]string{"wort into the fermenter", "batch.into_fermenter_l", "L"}, [3]string{"mash liquor", "mash.liquor_l_per_kg", "L/kg"},
		[3]string{"steam", "kit.steam_l_per_h", "L/h"}, [3]string{"length of the boil", "boil.minutes", "min"},
		[3]string{"left with the break", "kit.left_with_break_l", "L"}, [3]string{"left in the chiller", "kit.left_in_chiller_l", "L"},
		[3]string{"wort held by the grain", "kit.held_by_grain_l_per_kg", "L/kg"}, [3]string{"liquor under the bed", "kit.under_the_bed_l", "L"})
}
