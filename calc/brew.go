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
	d     design.Design
	yeast design.Yeast
	plan  water.Plan
	mash  *mashTables // nil: no grain, the wort is honey and water
	draws []drawn
	mid   drawn // every uncertain input at its middle
	notes []string
}

// drawn is one draw of the inputs, worked out as far as it goes without the
// mash temperature.
type drawn struct {
	restErrorC float64
	malt       mash.Doubt
	take       yeast.Take
	tasting    taste.Weights
	trimmed    float64 // share of residual dextrin trimmed by live honey enzymes
	kept       float64 // share of the vessel's wort that reaches the fermenter

	grainKg float64        // extract of the grain in the fermenter at a conversion of 1
	hot     sugar.Spectrum // honey from the hot side in the fermenter, kg
	pitched honeyIn        // added at pitching
	late    honeyIn        // added while fermenting
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

// wortGL is what the wort holds at pitching, g/L.
func (r *beer) wortGL() sugar.Spectrum {
	return r.wort.Times(density.KgM3FromSG(density.QuickSG(r.ogPlato)) / r.pitchedKg)
}

// at evaluates one draw at a temperature of the rest. It allocates nothing.
func (b *brew) at(tempC float64, w *drawn) beer {
	var grain sugar.Spectrum
	if b.mash != nil {
		spectrum, conversion := b.mash.at(tempC, w)
		grain = spectrum.Times(w.grainKg * conversion)
	}
	wort := grain.Plus(w.hot)

	// The wort as it is run off, then with what goes in at pitching, then with
	// all the honey: by mass, since volumes of sugar solutions do not add.
	pitchedKg := wortKg(wort.Total(), b.d.Batch.IntoFermenterL) + w.pitched.massKg
	fullKg := pitchedKg + w.late.massKg
	pitched := wort.Plus(w.pitched.kg)
	honey := w.hot.Plus(w.pitched.kg).Plus(w.late.kg)
	full := pitched.Plus(w.late.kg)

	var r beer
	r.ogPlato = 100 * pitched.Total() / pitchedKg
	r.effectivePlato = 100 * full.Total() / fullKg
	r.wort = pitched
	r.pitchedKg = pitchedKg

	// The strain takes its shares of malt's sugars. Of honey every strain takes
	// all that ferments; what does not stands under dextrin and other.
	fermented := w.take.Fermented(grain)
	left := grain.Plus(fermented.Times(-1))
	left.Dextrin += honey.Dextrin
	left.Other += honey.Other
	left.Dextrin *= 1 - w.trimmed

	// 100 g of wort lose the gas and the yeast that what ferments turns into.
	fermentedPct := 100 * (full.Total() - left.Total()) / fullKg
	beerPct := 100 - fermentedPct*(alcohol.ExtractPerEthanol-1)/alcohol.ExtractPerEthanol
	r.rePlato = 100 * (r.effectivePlato - fermentedPct) / beerPct
	r.abwPct = alcohol.ABW(r.effectivePlato, r.rePlato)
	r.aePlato = alcohol.ApparentExtract(r.effectivePlato, r.rePlato)
	r.fgSG = density.QuickSG(r.aePlato)
	r.abvPct = alcohol.ABV(r.abwPct, r.fgSG)
	r.rdfPct = alcohol.RDF(r.effectivePlato, r.rePlato)

	r.reGL = r.rePlato / 100 * density.KgM3FromSG(r.fgSG)
	if total := left.Total(); total > 0 {
		r.residue = left.Times(r.reGL / total)
	}
	r.sweetnessGL = taste.SweetnessGL(r.residue, w.tasting)
	r.dryness = taste.Dryness(r.rdfPct, r.sweetnessGL)
	r.body = taste.Body(r.residue, r.abvPct)
	return r
}

// wortKg is the mass of so many litres of wort at 20 °C holding so much extract.
func wortKg(extractKg, litres float64) float64 {
	plato := density.QuickPlato(1000 * extractKg / litres)
	return litres * density.KgM3FromSG(density.QuickSG(plato)) / 1000
}
