package calc

import (
	"fmt"

	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/honey"
	"skep/calc/mash"
	"skep/calc/sugar"
	"skep/calc/taste"
	"skep/calc/yeast"
)

// The spread of the uncertain inputs, one standard deviation (design notes,
// section 7), where no package of the physics has it.
const (
	efficiencyPoints = 2.0 // mash efficiency, percentage points
	moisturePoints   = 1.0 // honey moisture, percentage points
)

// prepare makes a design ready to be drawn with one yeast, over the
// temperature of one rest.
func (e *Engine) prepare(d design.Design, y design.Yeast, rest int) (*brew, error) {
	b := &brew{d: d, yeast: y, plan: Liquor(d), crushCost: Crush(d.Crush).EfficiencyPoints()}
	b.notes = append(b.notes, b.plan.Warnings...)
	if b.plan.LaboratoryKg > 0 {
		tables, notes, err := e.tables(d, rest)
		if err != nil {
			return nil, err
		}
		b.mash = tables
		b.notes = append(b.notes, notes...)
	} else {
		b.notes = append(b.notes, "there is no extract from grain: this is honey and water, which the model knows only by mass")
	}
	takes := e.takesOf(y)
	b.draws, b.honeys = e.drawn[:0], e.honeys[:0]
	for i := range e.draws {
		b.draws = append(b.draws, b.drawFrom(&e.fixed[i], takes[i]))
		b.honeys = append(b.honeys, b.draws[i].honey())
	}
	e.drawn, e.honeys = b.draws, b.honeys
	b.mid = e.middle(b, reference.Take((y.AttenuationLowPct+y.AttenuationHighPct)/2))
	return b, nil
}

// reference turns a strain's attenuation into what it takes.
var reference = yeast.NewScale(mash.Reference())

// strainTakes is a strain's appetite in every draw.
type strainTakes struct {
	low, high float64 // its range
	takes     []yeast.Take
}

// mostStrains is how many strains are kept: those of a comparison.
const mostStrains = 12

// takesOf is the strain's appetite in every draw, from an earlier call if the
// range is the same.
func (e *Engine) takesOf(y design.Yeast) []yeast.Take {
	for _, s := range e.strains {
		if s.low == y.AttenuationLowPct && s.high == y.AttenuationHighPct {
			return s.takes
		}
	}
	var s strainTakes
	if len(e.strains) < mostStrains {
		s.takes = make([]yeast.Take, len(e.draws))
	} else { // the oldest makes room
		s = e.strains[0]
		e.strains = append(e.strains[:0], e.strains[1:]...)
	}
	s.low, s.high = y.AttenuationLowPct, y.AttenuationHighPct
	mid := (s.low + s.high) / 2
	sd := (s.high - s.low) / (2 * doubt.Z90)
	for i := range e.draws {
		s.takes[i] = reference.Take(mid + sd*e.draws[i][doubt.Strain])
	}
	e.strains = append(e.strains, s)
	return s.takes
}

// scores is one row of normal scores, worked out as far as no design is needed.
type scores struct {
	rest, moisture float64 // standard normal
	efficiency     float64 // points from the middle
	malt           mash.Doubt
	tasting        taste.Weights
	palate         palate
	honey          sugar.Spectrum // of a honey's solids
	trim           float64        // by live honey enzymes, of what they do at their 90th percentile
}

func (s spreads) of(z *[doubt.Inputs]float64) scores {
	// How the trim spreads is the same whatever its size.
	unit := honey.DiastaseTrim(1, 1, 20)
	unit.Mid, unit.High = unit.Mid/unit.High, 1
	return scores{
		rest: z[doubt.Rest], efficiency: s.efficiency * z[doubt.Efficiency], moisture: z[doubt.HoneyMoisture],
		malt:    mash.Doubt{AttenuationPoints: s.malt * z[doubt.Malt], Response: mash.ResponseQuantile(doubt.Uniform(z[doubt.Response]))},
		tasting: taste.Draw(s.sweet*z[doubt.MaltSweet], s.sweet*z[doubt.SimpleSweet]),
		honey:   honey.Solids(honey.Blossom, honey.FermentableShareMid+honey.FermentableShareSD*z[doubt.HoneySugars]),
		trim:    unit.At(z[doubt.Diastase]),
		palate:  palate{s.dryness.above(z[doubt.PalateDryness]), s.body.above(z[doubt.PalateBody])},
	}
}

// middle is every uncertain input at its middle.
func (e *Engine) middle(b *brew, take yeast.Take) drawn {
	f := e.doubts.sd().of(&[doubt.Inputs]float64{})
	return b.drawFrom(&f, take)
}

// drawFrom works one row of normal scores out, as far as the mash temperature
// is not needed.
func (b *brew) drawFrom(f *scores, take yeast.Take) drawn {
	d := &b.d
	efficiency := d.Kit.MashEfficiencyPct + f.efficiency
	efficiency -= b.crushCost
	w := drawn{
		restErrorC: d.Kit.RestErrorC * f.rest,
		malt:       f.malt,
		take:       take,
		tasting:    f.tasting,
		palate:     f.palate,
		kept:       b.plan.KeptShare,
		grainKg:    b.plan.LaboratoryKg * min(max(efficiency, 0), 100) / 100 * b.plan.KeptShare,
	}
	rawCool := 0.0 // g of raw honey that never was hot, per litre
	for i := range d.Honey {
		h := &d.Honey[i]
		moisture := min(max(h.MoisturePct+moisturePoints*f.moisture, honey.MinMoisturePct), honey.MaxMoisturePct)
		kg := f.honey.Times(honey.SolidsKg(h.MassKg, moisture))
		switch h.Moment {
		case design.MomentBoil, design.MomentWhirlpool:
			w.hot = w.hot.Plus(kg.Times(w.kept))
		case design.MomentPitching:
			w.pitched.add(h.MassKg, kg)
		default:
			w.late.add(h.MassKg, kg)
		}
		if h.Raw && (h.Moment == design.MomentPitching || h.Moment == design.MomentFermenting) {
			rawCool += 1000 * h.MassKg / b.plan.FermenterL
		}
	}
	if rawCool > 0 {
		w.trimmed = f.trim * b.trimHigh(rawCool)
	}
	return w
}

// trimHigh is what live honey enzymes trim of the dextrin at their 90th
// percentile; one brew asks for one amount of honey, so it is kept.
func (b *brew) trimHigh(rawGPerL float64) float64 {
	if rawGPerL != b.trimFor {
		b.trimFor, b.trimIs = rawGPerL, honey.DiastaseTrim(rawGPerL, trimDays, b.yeast.TemperatureC).High
	}
	return b.trimIs
}

// trimDays is how long live honey enzymes are taken to work in the beer, from
// the honey to the glass: about three weeks in the fermenter and the bottle
// (common practice, no source).
const trimDays = 21

func (h *honeyIn) add(massKg float64, kg sugar.Spectrum) {
	h.massKg += massKg
	h.kg = h.kg.Plus(kg)
}

// yeastNotes says where the strain's numbers ask for more than its kind can do.
func yeastNotes(y design.Yeast) []string {
	points, past := yeast.Diastatic(y.AttenuationHighPct, mash.Reference())
	switch {
	case past && !y.EatsDextrin && points > 0.5:
		return []string{fmt.Sprintf("%s is given up to %.0f %% attenuation, more than a yeast reaches that leaves dextrin alone (about %.0f %% on the reference wort): check the number, or mark the strain as eating dextrin",
			y.Name, y.AttenuationHighPct, y.AttenuationHighPct-points)}
	case y.EatsDextrin && !past:
		return []string{fmt.Sprintf("%s eats dextrin, but its range ends at %.0f %%: such a strain goes on for weeks, so expect the drier end", y.Name, y.AttenuationHighPct)}
	}
	return nil
}
