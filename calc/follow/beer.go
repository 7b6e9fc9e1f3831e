package follow

import (
	"skep/calc"
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/doubt"
	"skep/calc/honey"
	"skep/calc/mash"
	"skep/calc/sugar"
	"skep/calc/taste"
	"skep/calc/yeast"
)

// beer is what one draw comes to, when everything is over.
type beer struct {
	ogPlato, effectivePlato float64
	fgSG, abvPct, aaPct     float64
	rdfPct, sweetnessGL     float64
	reGL                    float64
	dryness, body           float64
	residue                 sugar.Spectrum // g/L

	// What the course needs, kg in the fermenter.
	grain    sugar.Spectrum
	take     yeast.Take
	honey    honeys
	pitched  float64 // extract at pitching
	pitchKg  float64 // everything at pitching
	dextrin  float64 // left of it, that honey's enzymes may trim
	trimmed  float64 // share of that in three weeks
	kettleKg float64 // grain's extract in the vessel, before the losses
}

// gasPerExtract is what a gram of extract loses in fermenting.
const gasPerExtract = (alcohol.CO2PerEthanol + alcohol.YeastPerEthanol) / alcohol.ExtractPerEthanol

// gravity is the apparent extract, °P, of so much extract and of that
// fermented, in so much mass.
func apparent(extractKg, fermentedKg, massKg float64) (originalPlato, rePlato, aePlato float64) {
	oe := 100 * extractKg / massKg
	f := 100 * fermentedKg / massKg
	re := 100 * (oe - f) / (100 - gasPerExtract*f)
	return oe, re, alcohol.ApparentExtract(oe, re)
}

// wortKg is the mass of so many litres of wort at 20 °C holding so much extract.
func wortKg(extractKg, litres float64) float64 {
	plato := density.QuickPlato(1000 * extractKg / litres)
	return litres * density.KgM3FromSG(density.QuickSG(plato)) / 1000
}

// beerOf works a draw out.
func (m *model) beerOf(t *theta, b *beer) {
	z := t.engine()
	*b = beer{}
	efficiency := m.d.Kit.MashEfficiencyPct + m.priors.EfficiencySD*z[doubt.Efficiency] - calc.Crush(m.d.Crush).EfficiencyPoints()
	m.honeyOf(&z, &b.honey)
	if m.table != nil {
		wort, conversion := m.mashAt(m.d.Kit.RestErrorC*z[doubt.Rest],
			mash.Doubt{AttenuationPoints: m.priors.MaltSD * z[doubt.Malt], Response: mash.ResponseQuantile(doubt.Uniform(z[doubt.Response]))})
		b.kettleKg = m.plan.LaboratoryKg * min(max(efficiency, 0), 100) / 100 * conversion
		b.grain = wort.Times(b.kettleKg * m.plan.KeptShare)
	}
	mid := (m.yeast.AttenuationLowPct + m.yeast.AttenuationHighPct) / 2
	sd := (m.yeast.AttenuationHighPct - m.yeast.AttenuationLowPct) / (2 * doubt.Z90)
	b.take = yeast.FromAttenuation(mid+sd*z[doubt.Strain], m.reference)
	if b.honey.rawCoolGPerL > 0 {
		b.trimmed = honey.DiastaseTrim(b.honey.rawCoolGPerL, trimDays, m.yeast.TemperatureC).At(z[doubt.Diastase])
	}

	run := b.grain.Plus(b.honey.hot)
	b.pitchKg = wortKg(run.Total(), m.d.Batch.IntoFermenterL) + b.honey.pitchedKg
	b.pitched = run.Total() + b.honey.pitched.Total()
	full, fullKg := b.pitched, b.pitchKg
	sweet := b.honey.hot.Plus(b.honey.pitched)
	for i := range b.honey.lates {
		x := &b.honey.late[i]
		full += x.kg.Total()
		fullKg += x.massKg
		sweet = sweet.Plus(x.kg)
	}
	left := b.grain.Plus(b.take.Fermented(b.grain).Times(-1))
	left.Dextrin += sweet.Dextrin
	left.Other += sweet.Other
	b.dextrin = left.Dextrin
	left.Dextrin *= 1 - b.trimmed

	var re, ae float64
	b.effectivePlato, re, ae = apparent(full, full-left.Total(), fullKg)
	b.ogPlato = 100 * b.pitched / b.pitchKg
	b.fgSG = density.QuickSG(ae)
	abw := alcohol.ABW(b.effectivePlato, re)
	b.abvPct = alcohol.ABV(abw, b.fgSG)
	b.rdfPct = alcohol.RDF(b.effectivePlato, re)
	b.aaPct = alcohol.ApparentAttenuation(b.effectivePlato, ae)
	b.reGL = re / 100 * density.KgM3FromSG(b.fgSG)
	honeyGL := 0.0
	if total := left.Total(); total > 0 {
		b.residue = left.Times(b.reGL / total)
		honeyGL = (sweet.Dextrin*(1-b.trimmed) + sweet.Other) * b.reGL / total
	}
	tasting := taste.Draw(m.priors.SweetShare*z[doubt.MaltSweet], m.priors.SweetShare*z[doubt.SimpleSweet])
	b.sweetnessGL = taste.SweetnessGL(b.residue, tasting)
	b.dryness = taste.Dryness(b.rdfPct, b.sweetnessGL)
	b.body = taste.Body(b.residue, honeyGL, b.abvPct, tasting)
}
