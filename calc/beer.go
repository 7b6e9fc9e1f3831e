package calc

import (
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/ferment"
	"skep/calc/mash"
	"skep/calc/sugar"
	"skep/calc/taste"
	"skep/calc/yeast"
)

// Inputs are the uncertain inputs of one beer, as physical values: what a row of
// package doubt's scores means in a design, brewed with one strain.
type Inputs struct {
	EfficiencyPct float64        // of the mash, before what the crush costs
	GrainKg       float64        // extract of the grain in the fermenter where it is known; else 0
	RestErrorC    float64        // every rest is so much warmer than set
	Malt          mash.Doubt     // of the malt, and how the mash temperature acts
	Take          yeast.Take     // of the strain
	MoisturePct   float64        // points above each honey's moisture
	HoneySolids   sugar.Spectrum // shares of a honey's solids
	Trim          float64        // by live honey enzymes, over what they do at their 90th percentile
	Tasting       taste.Weights
	DrynessShift  float64 // index points that are perceived above the index
	BodyShift     float64

	RateFactor float64 // of all uptake
	LagHours   float64 // as at 20 °C
	Shape      float64 // of the course: ferment.Pitched
	Slow, Air  float64 // sugar that goes slowly, and the wort's air over the usual: ferment.Pitched
	Height     float64 // its place on the flat top: ferment.Pitched
	WarmerC    float64 // the beer is so much warmer than the design has it
}

// Beer is what one set of inputs comes to.
type Beer struct {
	OriginalPlato, EffectivePlato float64 // at pitching; with everything in
	ApparentPlato, RePlato        float64 // apparent and real extract in the end

	FinalGravitySG      float64
	ABWPct, ABVPct      float64
	RDFPct              float64
	ReGL, SweetnessGL   float64
	Dryness, Body       float64
	Wort                sugar.Spectrum // at pitching, before late honey, kg in PitchedKg
	PitchedKg           float64        // everything at pitching
	Residue             sugar.Spectrum // g/L in the beer
	HoneyLeftGL         float64        // of Residue, what honey left
	GrainKg             float64        // extract of the grain in the fermenter
	MashWort            sugar.Spectrum // of the grain, shares of its extract
	Conversion          float64        // of the mash
	dextrinKg           float64        // left, that honey's enzymes may trim
	AllExtractKg, AllKg float64        // everything that goes in, with its water
	reached             float64        // share of what could ferment that does
}

// Times are a beer's milestones, hours after pitching.
type Times = ferment.Times

// drawn is one draw of the inputs, worked out as far as it goes without the
// mash temperature.
type drawn struct {
	restErrorC float64
	malt       mash.Doubt
	take       yeast.Take
	tasting    taste.Weights
	dryness    float64 // perceived above the index
	body       float64
	trimmed    float64 // share of residual dextrin trimmed by live honey enzymes
	kept       float64 // share of the vessel's wort that reaches the fermenter
	reach      float64 // of the attenuation, where the yeast stops early; 0: all
	bears      float64 // alcohol that stops it, % vol; 0: none

	grainKg float64        // extract of the grain in the fermenter at a conversion of 1
	known   bool           // grainKg is that at any conversion
	hot     sugar.Spectrum // honey from the hot side in the fermenter, kg
	pitched honeyIn        // added at pitching
	late    honeyIn        // added while fermenting
}

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

func (h *honeyIn) add(massKg float64, of *sugar.Spectrum, kg float64) {
	h.massKg += massKg
	h.kg.Add(of, kg)
}

// wortGLPerKg turns kg of the wort's extract into g/L at pitching.
func (r *Beer) wortGLPerKg() float64 {
	return density.KgM3FromSG(density.QuickSG(r.OriginalPlato)) / r.PitchedKg
}

// at evaluates one draw at a temperature of the rest. It allocates nothing.
func (b *Brew) at(tempC float64, w *drawn, r *Beer) {
	var c mashCell
	b.mashed(&c, tempC, w.restErrorC, w.malt)
	h := w.honey()
	b.beer(&c, w, &h, r)
}

// beer is at where the mash and the honey of the draw are known.
func (b *Brew) beer(c *mashCell, w *drawn, h *honeySums, r *Beer) {
	b.balance(c, w, h, r)

	// Besides: the wort as it is pitched.
	r.Wort = c.wort.Times(r.GrainKg).Plus(w.hot).Plus(w.pitched.kg)
	r.PitchedKg = density.WortKg(r.GrainKg+h.hot, b.d.Batch.IntoFermenterL) + w.pitched.massKg
	r.OriginalPlato = 100 * r.Wort.Total() / r.PitchedKg
	r.MashWort, r.Conversion = c.wort, c.conversion
}

// balance fills in the beer of one draw, all but the wort as it is pitched.
//
// This is the innermost loop of every picture: what waits for what came before it is
// kept in a few scalars, and what is left is weighed before it is known in how much beer.
func (b *Brew) balance(c *mashCell, w *drawn, h *honeySums, r *Beer) {
	// The wort as it is run off, then with what goes in cold: by mass, since
	// volumes of sugar solutions do not add.
	grainKg := w.grainKg * c.conversion
	if w.known {
		grainKg = w.grainKg
	}
	fullKg := grainKg + h.hot
	massKg := density.WortKg(fullKg, b.d.Batch.IntoFermenterL) + h.coolMass
	fullKg += h.cool
	oe := 100 * fullKg / massKg

	// The strain takes its shares of malt's sugars. Of honey every strain takes
	// all that ferments; what does not stands under dextrin and other.
	simple := grainKg * (1 - w.take.Simple)
	r.dextrinKg = grainKg*(1-w.take.Dextrin)*c.wort.Dextrin + h.dextrin
	left := &r.Residue // kg, at first
	left.Glucose, left.Fructose, left.Sucrose = simple*c.wort.Glucose, simple*c.wort.Fructose, simple*c.wort.Sucrose
	left.Maltose = grainKg * (1 - w.take.Maltose) * c.wort.Maltose
	left.Maltotriose = grainKg * (1 - w.take.Maltotriose) * c.wort.Maltotriose
	left.Dextrin = r.dextrinKg * (1 - w.trimmed)
	left.Other = grainKg*c.wort.Other + h.other
	leftKg := left.Total()

	share := 0.0
	if fullKg > 0 {
		share = (fullKg - leftKg) / fullKg
	}
	r.reached = 1
	if w.reach > 0 { // it stops early, and what it leaves is maltose
		left.Maltose += share * (1 - w.reach) * fullKg
		leftKg += share * (1 - w.reach) * fullKg
		share *= w.reach
		r.reached = w.reach
	}
	r.ferment(oe, share)
	if w.bears > 0 && r.ABVPct > w.bears {
		held := share * w.bears / r.ABVPct
		left.Maltose += (share - held) * fullKg
		leftKg += (share - held) * fullKg
		r.reached *= held / share
		r.ferment(oe, held)
	}
	r.GrainKg, r.AllExtractKg, r.AllKg, r.EffectivePlato = grainKg, fullKg, massKg, oe
	r.RDFPct = alcohol.RDF(oe, r.RePlato)

	r.ReGL = r.RePlato / 100 * density.KgM3FromSG(r.FinalGravitySG)
	perKg := 0.0 // g/L
	if leftKg > 0 {
		perKg = r.ReGL / leftKg
	}
	honeyKg := h.dextrin*(1-w.trimmed) + h.other
	r.SweetnessGL = perKg * w.tasting.Sweet(left)
	r.Dryness = index(taste.Dryness(r.RDFPct, r.SweetnessGL) + w.dryness)
	r.Body = index(w.tasting.Body(perKg*taste.Weight(left, honeyKg), r.ABVPct) + w.body)
	left.Scale(perKg)
	r.HoneyLeftGL = honeyKg * perKg
}

// ferment is the beer's balance when a share of all extract has fermented.
func (r *Beer) ferment(oePlato, share float64) {
	re := alcohol.RealExtractAfter(oePlato, share)
	abw := alcohol.ABW(oePlato, re)
	apparent := alcohol.ApparentExtract(oePlato, re)
	sg := density.QuickSG(apparent)
	r.RePlato, r.ABWPct, r.ApparentPlato, r.FinalGravitySG, r.ABVPct = re, abw, apparent, sg, alcohol.ABV(abw, sg)
}

// index holds an index on its scale.
func index(x float64) float64 {
	switch { // sooner than min and max, which mind what is no number
	case x < 0:
		return 0
	case x > 100:
		return 100
	}
	return x
}

// ApparentAttenuationPct is the fall of apparent extract on the effective
// original extract.
func (r *Beer) ApparentAttenuationPct() float64 {
	return alcohol.ApparentAttenuation(r.EffectivePlato, r.ApparentPlato)
}

// FermentedShare is the share of all extract that has fermented.
func (r *Beer) FermentedShare() float64 {
	return alcohol.FermentedFromApparent(r.EffectivePlato, r.ApparentAttenuationPct())
}

// Glass is what a beer tastes by.
func (r *Beer) Glass() taste.Glass {
	return taste.Glass{Residue: r.Residue, HoneyLeftGL: r.HoneyLeftGL, ABVPct: r.ABVPct, RDFPct: r.RDFPct}
}

// OriginalGravitySG is what a hydrometer shows at pitching.
func (r *Beer) OriginalGravitySG() float64 { return density.QuickSG(r.OriginalPlato) }
