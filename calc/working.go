package calc

import (
	"fmt"

	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/honey"
	"skep/calc/mash"
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
	SweetnessGL                           float64

	Ferment   ferment.Input
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
	b, err := e.ready(d, i)
	if err != nil {
		return Working{}, err
	}
	y := b.yeast
	mid := (y.AttenuationLowPct + y.AttenuationHighPct) / 2
	sd := (y.AttenuationHighPct - y.AttenuationLowPct) / (2 * doubt.Z90)
	f := e.doubts.sd().of(&z)
	b.mid = b.drawFrom(&f, reference.Take(mid+sd*z[doubt.Strain]))
	t := d.Mash.Rest[0].TemperatureC
	c := b.mashed(t, &b.mid)
	r := b.at(t, &b.mid)
	h := b.mid.honey()
	w := Working{
		Plan: b.plan, MashWort: c.wort, Conversion: c.conversion,
		GrainExtractKg: b.mid.grainKg * c.conversion, HoneyExtractKg: h.hot + h.cool,
		Take: b.mid.take, Trimmed: b.mid.trimmed, Weights: b.mid.tasting,
		OriginalPlato: r.ogPlato, EffectiveOriginalPlato: r.effectivePlato,
		RealExtractPlato: r.rePlato, ApparentPlato: r.aePlato,
		ABWPct: r.abwPct, ABVPct: r.abvPct, RDFPct: r.rdfPct, FinalGravitySG: r.fgSG,
		Residue: r.residue, SweetnessGL: r.sweetnessGL,
		Ferment: b.fermentInput(t), values: map[string]float64{},
	}
	w.FermentedShare = fermentedShare(&r)
	for _, q := range quantities {
		w.values[q.key] = q.of(&r)
	}
	course, err := ferment.Run(w.Ferment)
	if err != nil {
		return Working{}, err
	}
	w.Character = b.characterInput(&course)
	return w, nil
}

// MashCourse is the mash of a design every so many minutes.
func MashCourse(d design.Design, everyMin float64) ([]mash.Point, error) {
	if err := refuse(d); err != nil {
		return nil, err
	}
	return mash.Course(MashInput(d, 0), everyMin)
}

// ready prepares a design with one of its yeasts.
func (e *Engine) ready(d design.Design, i int) (*brew, error) {
	if i < 0 || i >= len(d.Yeast) {
		return nil, fmt.Errorf("yeast.%d is not there: the design has %d", i, len(d.Yeast))
	}
	if err := refuse(d); err != nil {
		return nil, err
	}
	b, err := e.prepare(d, d.Yeast[i], 0)
	if err != nil {
		return nil, err
	}
	b.clock = e.doubts.clock(i)
	return b, nil
}
