package calc

import (
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/mash"
	"skep/calc/sugar"
	"skep/calc/taste"
	"skep/calc/water"
	"skep/calc/yeast"
)

// brew is a design made ready to be drawn: everything that does not depend on
// the rest's temperature, once for each draw. It is not changed afterwards, so
// several goroutines may evaluate it, each with a scratch of its own.
type brew struct {
	d         design.Design
	yeast     design.Yeast
	clock     Clock // of the yeast
	plan      water.Plan
	crushCost float64     // mash efficiency that the crush loses, points
	mash      *mashTables // nil: no grain, the wort is honey and water
	draws     []drawn
	mid       drawn // every uncertain input at its middle
	notes     []string

	honeys          []honeySums // of draws
	trimFor, trimIs float64     // see trimHigh
}

// drawn is one draw of the inputs, worked out as far as it goes without the
// mash temperature.
type drawn struct {
	restErrorC float64
	malt       mash.Doubt
	take       yeast.Take
	tasting    taste.Weights
	palate     palate
	trimmed    float64 // share of residual dextrin trimmed by live honey enzymes
	kept       float64 // share of the vessel's wort that reaches the fermenter

	grainKg float64        // extract of the grain in the fermenter at a conversion of 1
	hot     sugar.Spectrum // honey from the hot side in the fermenter, kg
	pitched honeyIn        // added at pitching
	late    honeyIn        // added while fermenting
}

// palate is what one draw's taster perceives above the indices.
type palate struct{ dryness, body float64 }

// index holds an index on its scale.
func index(x float64) float64 { return min(max(x, 0), 100) }

// honeySums is what the honey of a draw comes to, whatever the mash, kg.
type honeySums struct {
	hot, cool      float64 // extract; cool is at pitching and later
	coolMass       float64 // water and all
	dextrin, other float64 // of all honey: what does not ferment
}

func (w *drawn) honey() honeySums {
	return honeySums{
		hot: w.hot.Total(), cool: w.pitched.kg.Total() + w.late.kg.Total(),
		coolMass: w.pitched.massKg + w.late.massKg,
		dextrin:  w.hot.Dextrin + w.pitched.kg.Dextrin + w.late.kg.Dextrin,
		other:    w.hot.Other + w.pitched.kg.Other + w.late.kg.Other,
	}
}

// honeyIn is honey as it goes in: all of it, and what of it is extract.
type honeyIn struct {
	massKg float64
	kg     sugar.Spectrum
}

// beer is what one draw comes to.
type beer struct {
	ogPlato, effectivePlato, aePlato, rePlato float64

	fgSG, abwPct, abvPct, rdfPct float64
	reGL, sweetnessGL            float64
	dryness, body                float64

	wort      sugar.Spectrum // at pitching, before late honey, kg in pitchedKg
	pitchedKg float64
	residue   sugar.Spectrum // g/L in the beer
}

// wortGLPerKg turns kg of the wort's extract into g/L at pitching.
func (r *beer) wortGLPerKg() float64 {
	return density.KgM3FromSG(density.QuickSG(r.ogPlato)) / r.pitchedKg
}

// at evaluates one draw at a temperature of the rest. It allocates nothing.
func (b *brew) at(tempC float64, w *drawn) beer {
	var r beer
	c := b.mashed(tempC, w)
	h := w.honey()
	b.ferment(&c, w, &h, &r)

	// Besides: the wort as it is pitched.
	r.wort = c.wort.Times(w.grainKg * c.conversion).Plus(w.hot).Plus(w.pitched.kg)
	r.pitchedKg = wortKg(w.grainKg*c.conversion+h.hot, b.d.Batch.IntoFermenterL) + w.pitched.massKg
	r.ogPlato = 100 * r.wort.Total() / r.pitchedKg
	return r
}

// ferment fills in the beer of one draw, all but the wort as it is pitched.
//
// This is the innermost loop of every picture: scalars, no temporary spectra.
func (b *brew) ferment(c *mashCell, w *drawn, h *honeySums, r *beer) {
	// The wort as it is run off, then with what goes in cold: by mass, since
	// volumes of sugar solutions do not add.
	grainKg := w.grainKg * c.conversion
	fullKg := grainKg + h.hot
	massKg := wortKg(fullKg, b.d.Batch.IntoFermenterL) + h.coolMass
	fullKg += h.cool
	r.effectivePlato = 100 * fullKg / massKg

	// The strain takes its shares of malt's sugars. Of honey every strain takes
	// all that ferments; what does not stands under dextrin and other.
	simple := grainKg * (1 - w.take.Simple)
	left := sugar.Spectrum{
		Glucose: simple * c.wort.Glucose, Fructose: simple * c.wort.Fructose, Sucrose: simple * c.wort.Sucrose,
		Maltose:     grainKg * (1 - w.take.Maltose) * c.wort.Maltose,
		Maltotriose: grainKg * (1 - w.take.Maltotriose) * c.wort.Maltotriose,
		Dextrin:     (grainKg*(1-w.take.Dextrin)*c.wort.Dextrin + h.dextrin) * (1 - w.trimmed),
		Other:       grainKg*c.wort.Other + h.other,
	}
	leftKg := left.Total()

	share := 0.0
	if fullKg > 0 {
		share = (fullKg - leftKg) / fullKg
	}
	r.rePlato = alcohol.RealExtractAfter(r.effectivePlato, share)
	r.abwPct = alcohol.ABW(r.effectivePlato, r.rePlato)
	r.aePlato = alcohol.ApparentExtract(r.effectivePlato, r.rePlato)
	r.fgSG = density.QuickSG(r.aePlato)
	r.abvPct = alcohol.ABV(r.abwPct, r.fgSG)
	r.rdfPct = alcohol.RDF(r.effectivePlato, r.rePlato)

	r.reGL = r.rePlato / 100 * density.KgM3FromSG(r.fgSG)
	r.residue = sugar.Spectrum{}
	if leftKg > 0 {
		r.residue = left.Times(r.reGL / leftKg)
	}
	r.sweetnessGL = taste.SweetnessGL(r.residue, w.tasting)
	r.dryness = index(taste.Dryness(r.rdfPct, r.sweetnessGL) + w.palate.dryness)
	r.body = index(taste.Body(r.residue, r.abvPct) + w.palate.body)
}

// wortKg is the mass of so many litres of wort at 20 °C holding so much extract.
func wortKg(extractKg, litres float64) float64 {
	plato := density.QuickPlato(1000 * extractKg / litres)
	return litres * density.KgM3FromSG(density.QuickSG(plato)) / 1000
}

// fermentedShare is the share of all extract that has fermented.
func fermentedShare(r *beer) float64 {
	return alcohol.FermentedFromApparent(r.effectivePlato, alcohol.ApparentAttenuation(r.effectivePlato, r.aePlato))
}
