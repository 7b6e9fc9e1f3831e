package calc

import (
	"fmt"

	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/honey"
	"skep/calc/mash"
	"skep/calc/sugar"
	"skep/calc/taste"
	"skep/calc/water"
	"skep/calc/yeast"
)

// The spread of the uncertain inputs, one standard deviation (design notes,
// section 7), where no package of the physics has it.
const (
	efficiencyPoints = 2.0 // mash efficiency, percentage points
	moisturePoints   = 1.0 // honey moisture, percentage points
)

// What a crush seen by eye costs in mash efficiency, points (common practice,
// no source: coarse 2 to 3, too coarse 5 to 10; too fine costs a stuck bed,
// not yield).
var crushCosts = map[string]float64{"too-coarse": 7.5, "coarse": 2.5, "sound": 0, "fine": 0, "too-fine": 0}

// prepare makes a design ready to be drawn with one yeast, over the
// temperature of one rest.
func (e *Engine) prepare(d design.Design, y design.Yeast, rest int) (*brew, error) {
	b := &brew{d: d, yeast: y, plan: water.For(d)}
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
	b.draws = e.drawn[:0]
	for i := range e.draws {
		b.draws = append(b.draws, b.draw(&e.draws[i], takes[i]))
	}
	e.drawn = b.draws
	b.mid = b.draw(&[doubt.Inputs]float64{}, yeast.FromAttenuation((y.AttenuationLowPct+y.AttenuationHighPct)/2, mash.Reference()))
	return b, nil
}

// takesOf is the strain's appetite in every draw, from the last call if the
// range is the same.
func (e *Engine) takesOf(y design.Yeast) []yeast.Take {
	if e.takes != nil && e.takeLow == y.AttenuationLowPct && e.takeHigh == y.AttenuationHighPct {
		return e.takes
	}
	e.takes = e.takes[:0]
	mid := (y.AttenuationLowPct + y.AttenuationHighPct) / 2
	sd := (y.AttenuationHighPct - y.AttenuationLowPct) / (2 * doubt.Z90)
	for i := range e.draws {
		e.takes = append(e.takes, yeast.FromAttenuation(mid+sd*e.draws[i][doubt.Strain], mash.Reference()))
	}
	e.takeLow, e.takeHigh = y.AttenuationLowPct, y.AttenuationHighPct
	return e.takes
}

// draw works one row of normal scores out, as far as the mash temperature is
// not needed.
func (b *brew) draw(z *[doubt.Inputs]float64, take yeast.Take) drawn {
	d := &b.d
	efficiency := d.Kit.MashEfficiencyPct + efficiencyPoints*z[doubt.Efficiency]
	if d.Crush != nil {
		efficiency -= crushCosts[d.Crush.ByEye]
	}
	w := drawn{
		restErrorC: d.Kit.RestErrorC * z[doubt.Rest],
		malt:       mash.Doubt{AttenuationPoints: mash.MaltSDPoints * z[doubt.Malt], Response: mash.ResponseQuantile(doubt.Uniform(z[doubt.Response]))},
		take:       take,
		tasting:    taste.Draw(z[doubt.MaltSweet], z[doubt.SimpleSweet]),
		kept:       b.plan.KeptShare,
		grainKg:    b.plan.LaboratoryKg * min(max(efficiency, 0), 100) / 100 * b.plan.KeptShare,
	}
	rawCool := 0.0 // g of raw honey that never was hot, per litre
	for _, h := range d.Honey {
		moisture := min(max(h.MoisturePct+moisturePoints*z[doubt.HoneyMoisture], honey.MinMoisturePct), honey.MaxMoisturePct)
		fit := honey.FermentableShareMid + honey.FermentableShareSD*z[doubt.HoneySugars]
		kg := honey.Extract(h.MassKg, moisture, honey.Blossom, fit)
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
		w.trimmed = honey.DiastaseTrim(rawCool, trimDays, b.yeast.TemperatureC).At(z[doubt.Diastase])
	}
	return w
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
