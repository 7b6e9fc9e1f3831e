package calc

import (
	"slices"

	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/honey"
	"skep/calc/lever"
	"skep/calc/recipe"
	"skep/calc/sugar"
)

// quickMid is the middle draw taken apart, so that a setting costs no new plan
// of the day.
type quickMid struct {
	brew    Brew
	mid     Inputs
	middle  drawn          // without the chosen honey
	solids  sugar.Spectrum // of the chosen honey, kg for each kg of it
	litreKg float64        // its volume, L for each kg
	raw     bool
	rawCool float64 // g of other raw honey that never was hot
	coolL   float64 // volume in the fermenter without the chosen honey
}

func (l *Lander) newQuick() quickMid {
	q := quickMid{brew: Brew{d: l.base, yeast: l.base.Yeast[0], plan: l.plan}}
	d := l.base
	if l.honey >= 0 {
		d.Honey = slices.Clone(d.Honey)
		d.Honey[l.honey].MassKg = 0
	}
	b := Brew{d: d, yeast: l.base.Yeast[0], plan: l.plan, crushCost: recipe.Crush(d.Crush).EfficiencyPoints(), logged: &l.engine.logged, clock: l.engine.doubts.pace(0), spread: l.engine.doubts.sd()}
	b.readyStress()
	q.mid = b.Inputs(&l.engine.middle)
	b.drawFrom(&q.mid, &q.middle)
	for i := range l.base.Honey {
		h := &l.base.Honey[i]
		cool := h.Moment == design.MomentPitching || h.Moment == design.MomentFermenting
		if i == l.honey {
			q.solids = q.mid.HoneyKg(&design.Honey{MassKg: 1, MoisturePct: h.MoisturePct})
			q.litreKg, q.raw = honey.VolumeL(1, h.MoisturePct, 20), h.Raw
		} else if cool && h.Raw {
			q.rawCool += 1000 * h.MassKg
		}
	}
	q.coolL = l.plan.FermenterL
	if l.honey >= 0 {
		if h := l.base.Honey[l.honey]; h.Moment == design.MomentPitching || h.Moment == design.MomentFermenting {
			q.coolL -= h.MassKg * q.litreKg
		}
	}
	return q
}

// Quick is the landing point of the middle draw, every uncertain input at its
// middle: near the mid values of the bands, in a hundredth of the time. What
// the setting does to the day's volumes it takes as proportional.
func (l *Lander) Quick(s lever.Setting) (Landed, error) {
	table, err := l.table(s.Minutes)
	if err != nil {
		return Landed{}, err
	}
	q := &l.quick
	w := q.middle
	w.take = takeAt(&design.Yeast{AttenuationLowPct: s.AttenuationLowPct, AttenuationHighPct: s.AttenuationHighPct}, l.engine.middle[doubt.Strain])
	w.grainKg *= s.GrainShare
	rawG, litres := q.rawCool, q.coolL
	if l.honey >= 0 {
		switch s.Moment {
		case design.MomentBoil, design.MomentWhirlpool:
			w.hot.Add(&q.solids, s.HoneyKg*w.kept)
		default:
			if s.Moment == design.MomentPitching {
				w.pitched.add(s.HoneyKg, &q.solids, s.HoneyKg)
			} else {
				w.late.add(s.HoneyKg, &q.solids, s.HoneyKg)
			}
			litres += s.HoneyKg * q.litreKg
			if q.raw {
				rawG += 1000 * s.HoneyKg
			}
		}
	}
	w.trimmed = 0
	if rawG > 0 {
		w.trimmed = q.mid.Trim * honey.DiastaseTrim(rawG/litres, honey.TrimDays, s.YeastC).High
	}
	q.brew.mash = table
	var c mashCell
	var r Beer
	q.brew.mashed(&c, s.RestC, w.restErrorC, w.malt)
	h := w.honey()
	q.brew.balance(&c, &w, &h, &r)
	return Landed{Dryness: r.Dryness, Body: r.Body, StrengthPct: r.ABVPct, FinalGravitySG: r.FinalGravitySG}, nil
}

// quickCharacter is what the honey's character hangs on beside the levers, at the
// setting of the design as it is.
type quickCharacter struct {
	known     bool
	others    []honey.CharacterInput // of the honeys that the levers leave alone
	afterCool float64                // CO2 still to come after the pitching, L/L
	afterLate float64                // and after the chosen honey's hour
}

// QuickCharacter is [Lander.HoneyCharacter] with the gas that is still to come
// after each addition as it is at the start: a few hundredths of the character at
// most, for no fermentation.
func (l *Lander) QuickCharacter(s lever.Setting) (float64, error) {
	c := &l.character
	if !c.known {
		if _, err := l.HoneyCharacter(l.start); err != nil {
			return 0, err
		}
		course := &l.course.Fermentation
		c.others = append(c.others[:0], l.work.CharacterInput(course)...)
		if l.honey >= 0 {
			c.others[l.honey].GramsPerL = 0
		}
		c.afterCool = course.CO2AfterLPerL(0)
		c.afterLate = course.CO2AfterLPerL(max(0, course.HeightHours+l.start.HoursAfterHeight))
		c.known = true
	}
	if l.honey < 0 {
		return honey.Character(c.others...).Mid, nil
	}
	in := &c.others[l.honey]
	litres := l.quick.coolL
	in.CO2VolumesAfter = c.afterCool
	switch s.Moment {
	case design.MomentBoil:
		in.Moment = honey.Boil
	case design.MomentWhirlpool:
		in.Moment = honey.Whirlpool
	case design.MomentPitching:
		in.Moment = honey.Pitching
		litres += s.HoneyKg * l.quick.litreKg
	default:
		in.Moment, in.CO2VolumesAfter = honey.Fermenting, c.afterLate
		litres += s.HoneyKg * l.quick.litreKg
	}
	in.GramsPerL = 1000 * s.HoneyKg / litres
	index := honey.Character(c.others...).Mid
	in.GramsPerL = 0
	return index, nil
}
