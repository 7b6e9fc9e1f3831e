package explain

import (
	"fmt"
	"strconv"

	"skep/calc/honey"
	"skep/calc/lever"
	"skep/calc/message"
	"skep/calc/recipe"
	"skep/calc/sugar"
	"skep/calc/taste"
)

// at is an input at a key of the design.
func at(name message.Message, key, unit string) Input { return Input{Name: name, Key: key, Unit: unit} }

// fromDesign are the inputs that the design has, with their values.
func (x *Explainer) fromDesign(wanted ...Input) []Input {
	var in []Input
	for _, n := range wanted {
		text, err := x.design.Get(n.Key)
		if err != nil {
			continue
		}
		if v, err := strconv.ParseFloat(text, 64); err == nil {
			n.Value = v
			in = append(in, n)
		}
	}
	return in
}

// one is another number of the prediction as the only input.
func one(key, unit string) func(x *Explainer) []Input {
	return func(x *Explainer) []Input { return []Input{x.fromPrediction(key, unit)} }
}

func (x *Explainer) fromPrediction(key, unit string) Input {
	return Input{Name: text(sheetOf(key).name), Key: key, Value: x.values[key].band.Mid, Unit: unit}
}

func extractInputs(x *Explainer) []Input {
	w := x.working
	in := []Input{
		{Name: message.New("laboratory extract of the grain"), Value: w.brew.Plan().LaboratoryKg, Unit: "kg"},
		{Name: message.New("conversion of the mash, over a well-made one"), Value: w.Conversion},
		{Name: message.New("share of the vessel's wort that reaches the fermenter"), Value: w.brew.Plan().KeptShare},
		{Name: message.New("extract of the grain in the fermenter"), Value: w.GrainKg, Unit: "kg"},
		{Name: message.New("extract of the honey in the fermenter"), Value: w.AllExtractKg - w.GrainKg, Unit: "kg"},
		{Name: message.New("OE at pitching"), Value: w.OriginalPlato, Unit: "°P"},
		{Name: message.New("OE with all honey"), Value: w.EffectivePlato, Unit: "°P"},
	}
	in = append(in, x.fromDesign(at(message.New("mash efficiency"), "kit.mash_efficiency_pct", "%"), at(message.New("wort into the fermenter"), "batch.into_fermenter_l", "L"))...)
	return append(in, x.honeyInputs()...)
}

func (x *Explainer) honeyInputs() []Input {
	var in []Input
	for i := range x.design.Honey {
		name := recipe.HoneyName(&x.design, i)
		in = append(in, x.fromDesign(
			at(name, fmt.Sprintf("honey.%d.mass_kg", i), "kg"),
			at(message.New("moisture of {honey}", name), fmt.Sprintf("honey.%d.moisture_pct", i), "%"))...)
	}
	return in
}

// spectrum are the sugars of something, of is what each is called there.
func spectrum(s sugar.Spectrum, of message.Message, unit string, scale float64) []Input {
	var in []Input
	for _, k := range []struct {
		kind message.Message
		v    float64
	}{
		{message.New("glucose"), s.Glucose}, {message.New("fructose"), s.Fructose}, {message.New("sucrose"), s.Sucrose}, {message.New("maltose"), s.Maltose},
		{message.New("maltotriose"), s.Maltotriose}, {message.New("dextrin"), s.Dextrin}, {message.New("other"), s.Other},
	} {
		of.With = []any{k.kind}
		in = append(in, Input{Name: of, Value: scale * k.v, Unit: unit})
	}
	return in
}

func mashInputs(x *Explainer) []Input {
	w := x.working
	in := spectrum(w.MashWort, message.New("{sugar} of the mash"), "% of extract", 100)
	for i := range x.design.Mash.Rest {
		in = append(in, x.fromDesign(
			at(lever.Rest.Of(recipe.RestNumber(i, len(x.design.Mash.Rest))), fmt.Sprintf("mash.rest.%d.temperature_c", i), "°C"),
			at(lever.Minutes.Of(recipe.RestNumber(i, len(x.design.Mash.Rest))), fmt.Sprintf("mash.rest.%d.minutes", i), "min"))...)
	}
	in = append(in, taught(message.New("the mash is warmer than set, as this kit has taught, by"), x.engine.Doubts().RestShiftC, "K")...)
	in = append(in, x.fromDesign(at(message.New("mash liquor"), "mash.liquor_l_per_kg", "L/kg"))...)
	if _, ph, _, ok := recipe.MashPH(x.design); ok {
		in = append(in, Input{Name: message.New("pH of the mash, cooled"), Value: ph, Unit: "pH"})
	}
	return append(in, Input{Name: message.New("extract of the grain in the fermenter"), Value: w.GrainKg, Unit: "kg"},
		Input{Name: message.New("extract of the honey in the fermenter, all of it"), Value: w.AllExtractKg - w.GrainKg, Unit: "kg"})
}

func (x *Explainer) strainInputs() []Input {
	w := x.working
	y := fmt.Sprintf("yeast.%d.", x.yeast)
	return append(x.fromDesign(
		at(message.New("attenuation of the strain, low"), y+"attenuation_low_pct", "% on the reference wort"),
		at(message.New("attenuation of the strain, high"), y+"attenuation_high_pct", "% on the reference wort")),
		Input{Name: message.New("the strain takes of simple sugars"), Value: 100 * w.in.Take.Simple, Unit: "%"},
		Input{Name: message.New("of maltose"), Value: 100 * w.in.Take.Maltose, Unit: "%"},
		Input{Name: message.New("of maltotriose"), Value: 100 * w.in.Take.Maltotriose, Unit: "%"},
		Input{Name: message.New("of dextrin"), Value: 100 * w.in.Take.Dextrin, Unit: "%"})
}

func fermentedInputs(x *Explainer) []Input {
	w := x.working
	in := []Input{
		{Name: message.New("OE with all honey"), Value: w.EffectivePlato, Unit: "°P"},
		{Name: message.New("fermented share of the extract"), Value: 100 * w.FermentedShare(), Unit: "%"},
		{Name: message.New("RE"), Value: w.RePlato, Unit: "°P"},
		{Name: message.New("AE"), Value: w.ApparentPlato, Unit: "°P"},
		{Name: message.New("alcohol by mass"), Value: w.ABWPct, Unit: "%"},
		{Name: message.New("final gravity of the middle beer"), Value: w.FinalGravitySG, Unit: "SG"},
	}
	in = append(in, x.strainInputs()...)
	return append(in, mashInputs(x)...)
}

func residueInputs(x *Explainer) []Input {
	w := x.working
	in := spectrum(w.Residue, message.New("{sugar} left in the middle beer"), "g/L", 1)
	in = append(in, Input{Name: message.New("dextrin trimmed by live honey enzymes"), Value: 100 * w.Balance.Trimmed, Unit: "%"},
		Input{Name: message.New("RE"), Value: w.RePlato, Unit: "°P"})
	return append(in, x.strainInputs()...)
}

func tasteInputs(x *Explainer) []Input {
	w := x.working
	in := []Input{
		{Name: message.New("RDF"), Key: "real_attenuation_pct", Value: w.RDFPct, Unit: "%"},
		{Name: message.New("S, sweetness as sucrose"), Key: "sweetness_g_l", Value: w.SweetnessGL, Unit: "g/L"},
		{Name: message.New("alcohol"), Key: "strength_pct", Value: w.ABVPct, Unit: "% vol"},
	}
	doubts := x.engine.Doubts()
	in = append(in, taught(message.New("dryness as you taste it above the index, as your tastings have taught"), doubts.Dryness.Shift, "")...)
	in = append(in, taught(message.New("body as you taste it above the index, as your tastings have taught"), doubts.Body.Shift, "")...)
	return append(in, spectrum(w.Residue, message.New("{sugar} left in the middle beer"), "g/L", 1)...)
}

// bodyInputs are those of taste, with what alcohol fills and what honey leaves.
func bodyInputs(x *Explainer) []Input {
	w := x.working
	return append(tasteInputs(x), Input{Name: message.New("F, what alcohol fills"), Value: taste.Fullness(w.ABVPct, w.in.Tasting), Unit: "g/L"},
		Input{Name: message.New("of what is left, honey's"), Value: w.HoneyLeftGL, Unit: "g/L"})
}

// taught is what batches have told, if they have.
func taught(name message.Message, v float64, unit string) []Input {
	if v == 0 {
		return nil
	}
	return []Input{{Name: name, Value: v, Unit: unit}}
}

func characterInputs(x *Explainer) []Input {
	var in []Input
	gramsPerL := 0.0
	for i, c := range x.working.character {
		gramsPerL += c.GramsPerL
		name := recipe.HoneyName(&x.design, i)
		in = append(in, Input{Name: name, Key: fmt.Sprintf("honey.%d.mass_kg", i), Value: c.GramsPerL, Unit: "g per litre of beer"},
			Input{Name: message.New("CO2 still to come when it goes in"), Value: c.CO2VolumesAfter, Unit: "L/L"})
	}
	if gramsPerL > 0 {
		in = append(in, Input{Name: message.New("beside the index: the honey's acid makes the beer more acid by about"), Value: honey.BeerPHDrop(gramsPerL), Unit: "pH"})
	}
	return in
}

func clockInputs(x *Explainer) []Input {
	y := fmt.Sprintf("yeast.%d.", x.yeast)
	in := x.fromDesign(at(message.New("temperature of the fermentation"), y+"temperature_c", "°C"), at(message.New("cells pitched"), y+"cells_billion_per_l", "billion/L"))
	w := x.working
	in = append(in, spectrum(w.MashWort.Times(w.wortGL(w.GrainKg)), message.New("{sugar} of the malt at pitching"), "g/L", 1)...)
	for i := range x.design.Honey {
		kg := w.in.HoneyKg(&x.design.Honey[i])
		if gL := w.wortGL(kg.Total()); gL > 0 {
			in = append(in, Input{Name: recipe.HoneyNumber(i, len(x.design.Honey)), Value: gL, Unit: "g/L of extract"})
		}
	}
	return append(in, x.strainInputs()...)
}

func hopInputs(x *Explainer) []Input {
	in := []Input{{Name: message.New("wort after the boil"), Value: x.working.brew.Plan().PostBoilGravitySG, Unit: "SG"}, {Name: message.New("volume, cool"), Value: x.working.brew.Plan().CoolL, Unit: "L"}}
	for i := range x.design.Hop {
		name := recipe.HopName(&x.design, i)
		in = append(in, x.fromDesign(
			at(name, fmt.Sprintf("hop.%d.mass_g", i), "g"),
			at(message.New("alpha acid of {hop}", name), fmt.Sprintf("hop.%d.alpha_pct", i), "%"),
			at(message.New("boiling of {hop}", name), fmt.Sprintf("hop.%d.minutes", i), "min"))...)
	}
	return in
}

func colourInputs(x *Explainer) []Input {
	in := []Input{{Name: message.New("volume, cool"), Value: x.working.brew.Plan().CoolL, Unit: "L"}}
	for i := range x.design.Grain {
		name := recipe.GrainName(&x.design, i)
		in = append(in, x.fromDesign(at(name, fmt.Sprintf("grain.%d.mass_kg", i), "kg"), at(message.New("colour of {grain}", name), fmt.Sprintf("grain.%d.colour_ebc", i), "EBC"))...)
	}
	return in
}

func strikeInputs(x *Explainer) []Input {
	return append(x.fromDesign(
		at(message.New("first rest"), "mash.rest.0.temperature_c", "°C"), at(message.New("grain"), "mash.grain_c", "°C"),
		at(message.New("mash liquor"), "mash.liquor_l_per_kg", "L/kg"), at(message.New("heat the vessel takes"), "kit.vessel_heat_kj_per_k", "kJ/K")),
		x.fromPrediction("volumes.mash_liquor", "L"))
}

func bottleInputs(x *Explainer) []Input {
	in := x.fromDesign(
		at(message.New("CO2 wanted"), "package.volumes_co2", "volumes"), at(message.New("warmest since it finished"), "package.warmest_since_c", "°C"),
		at(message.New("warmest store"), "package.store_c", "°C"))
	f := x.values["final_gravity_sg"].band
	return append(in, Input{Name: message.New("final gravity, dry end"), Key: "final_gravity_sg", Value: f.Low, Unit: "SG"},
		Input{Name: message.New("final gravity, sweet end"), Key: "final_gravity_sg", Value: f.High, Unit: "SG"},
		x.fromPrediction("primer_g_per_l", "g/L"))
}

func volumeInputs(x *Explainer) []Input {
	return x.fromDesign(
		at(message.New("wort into the fermenter"), "batch.into_fermenter_l", "L"), at(message.New("mash liquor"), "mash.liquor_l_per_kg", "L/kg"),
		at(message.New("steam"), "kit.steam_l_per_h", "L/h"), at(message.New("length of the boil"), "boil.minutes", "min"),
		at(message.New("left with the break"), "kit.left_with_break_l", "L"), at(message.New("left in the chiller"), "kit.left_in_chiller_l", "L"),
		at(message.New("wort held by the grain"), "kit.held_by_grain_l_per_kg", "L/kg"), at(message.New("liquor under the bed"), "kit.under_the_bed_l", "L"))
}
