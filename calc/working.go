package calc

import (
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/honey"
	"skep/calc/message"
	"skep/calc/recipe"
	"skep/calc/sugar"
	"skep/calc/taste"
	"skep/calc/water"
	"skep/calc/yeast"
)

// Working is how the middle beer of a design came about, every uncertain input
// at its middle: what package explain shows beside a formula. The middle beer
// is near the middle of the bands, not on it, since not every doubt is the
// same to both sides.
type Working struct {
	Plan water.Plan

	MashWort   sugar.Spectrum // of the grain, shares of extract
	Conversion float64        // of the mash, over that of a well-made one

	GrainExtractKg, HoneyExtractKg float64 // in the fermenter
	Take                           yeast.Take
	Trimmed                        float64 // share of dextrin that honey's enzymes trim
	Weights                        taste.Weights

	OriginalPlato, EffectiveOriginalPlato float64
	FermentedShare                        float64 // of all extract, 0 to 1
	RealExtractPlato, ApparentPlato       float64
	ABWPct, ABVPct, RDFPct                float64
	FinalGravitySG                        float64
	Residue                               sugar.Spectrum // g/L
	HoneyLeftGL                           float64        // of Residue, what honey left
	SweetnessGL                           float64

	GrainGL   sugar.Spectrum // of the grain at pitching, g per litre of wort
	HoneyGL   []float64      // extract of each honey, g per litre of wort
	Times     Times
	Character []honey.CharacterInput

	values map[string]float64
}

// Value is a drawn quantity of the middle beer by its published key.
func (w *Working) Value(key string) (float64, bool) {
	v, ok := w.values[key]
	return v, ok
}

// Working works a design with one of its yeasts out, with the normal scores
// given in place of the draws (all 0: the middle).
func (e *Engine) Working(d design.Design, i int, z [doubt.Inputs]float64) (Working, error) {
	b, err := e.Brew(d, i)
	if err != nil {
		return Working{}, err
	}
	in := b.Inputs(&z)
	if z == ([doubt.Inputs]float64{}) {
		in = b.mid
	}
	var x Draw
	b.Ferment(&in, &x)
	h := x.w.honey()
	w := Working{
		Plan: b.plan, MashWort: x.MashWort, Conversion: x.Conversion,
		GrainExtractKg: x.GrainKg, HoneyExtractKg: h.hot + h.cool,
		Take: in.Take, Trimmed: x.w.trimmed, Weights: in.Tasting,
		OriginalPlato: x.OriginalPlato, EffectiveOriginalPlato: x.EffectivePlato,
		RealExtractPlato: x.RePlato, ApparentPlato: x.ApparentPlato,
		ABWPct: x.ABWPct, ABVPct: x.ABVPct, RDFPct: x.RDFPct, FinalGravitySG: x.FinalGravitySG,
		Residue: x.Residue, SweetnessGL: x.SweetnessGL,
		Times: x.Times(), values: map[string]float64{},
	}
	perL := 1000 / d.Batch.IntoFermenterL
	w.GrainGL = x.MashWort.Times(x.GrainKg * perL)
	for i := range d.Honey {
		w.HoneyGL = append(w.HoneyGL, honeyKg(&d.Honey[i], &in).Total()*perL)
	}
	w.FermentedShare = x.fermentedShare()
	for _, q := range quantities {
		w.values[q.key] = q.of(&x.Beer)
	}
	for _, q := range moments {
		w.values[q.key] = q.of(&w.Times)
	}
	w.Character = b.characterInput(&x.Fermentation)
	return w, nil
}

// paced gives a brew the clock of the i-th yeast.
func (e *Engine) paced(b *Brew, i int) *Brew {
	b.clock = e.doubts.pace(i)
	b.pace(&b.mid, &e.middle)
	return b
}

// soundWith is the liquor of a design that is not refused and has an i-th yeast.
func soundWith(d design.Design, i int) (water.Plan, error) {
	if i < 0 || i >= len(d.Yeast) {
		return water.Plan{}, message.Fault("yeast.%d is not there: the design has %d", i, len(d.Yeast))
	}
	return recipe.Sound(d)
}

// Brew makes a design ready with one of its yeasts, to be drawn from input by
// input. It keeps nothing that the engine may change.
func (e *Engine) Brew(d design.Design, i int) (*Brew, error) {
	plan, err := soundWith(d, i)
	if err != nil {
		return nil, err
	}
	b, err := e.brewOf(d, &plan, d.Yeast[i], 0)
	if err != nil {
		return nil, err
	}
	logged := e.logged
	b.logged = &logged
	return e.paced(b, i), nil
}

// ready prepares a design with one of its yeasts.
func (e *Engine) ready(d design.Design, i int) (*Brew, error) {
	plan, err := soundWith(d, i)
	if err != nil {
		return nil, err
	}
	b, err := e.prepare(d, &plan, d.Yeast[i], 0)
	if err != nil {
		return nil, err
	}
	return e.paced(b, i), nil
}
