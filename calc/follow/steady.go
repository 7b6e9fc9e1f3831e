package follow

import (
	"math"

	"skep/calc"
	"skep/calc/packaging"
)

// Steady is whether gravity has stood still: readings of the warm beer by the
// same instrument, two days apart or more, that fall by a mark of the hydrometer
// at most, with no honey since the first.
type Steady struct {
	Yes           bool
	SG            float64 // mean of them
	Hours         float64 // between the first and the last
	First, Last   int     // in the timeline; -1 if there is none
	Refractometer bool
	// Judged is what they say of packaging.
	Judged packaging.Judgement
}

// beerAt is the beer's temperature at an hour, by the last reading before it; the
// plan's where there is none.
func (b *Batch) beerAt(hours float64) float64 {
	c := b.model.brew.Yeast().TemperatureC
	for _, p := range b.Timeline.used(BeerTemperature) {
		if p.Hours > hours {
			break
		}
		c = p.Value
	}
	return c
}

// expectedEnd is where the gravity should end, SG: the plan's attenuation on the
// original gravity as it is known now. No gravity of the beer is in it, so that
// a beer that stopped early does not become the plan.
func (b *Batch) expectedEnd() packaging.Band {
	over := b.After.EffectiveOriginalGravitySG.Mid - 1
	aa := b.Before.ApparentAttenuationPct
	return packaging.Band{Low: 1 + over*(1-aa.High/100), High: 1 + over*(1-aa.Low/100)}
}

// forced is the last forced fermentation that no honey has overtaken.
func (t *Timeline) forced() *packaging.Forced {
	all := t.used(ForcedFerment)
	if len(all) == 0 {
		return nil
	}
	last := all[len(all)-1]
	if t.honeyBetween(last.Hours+calc.JustAfter, math.Inf(1)) {
		return nil
	}
	return &packaging.Forced{EndSG: last.Value, Heated: last.heated}
}

// guard is the packaging guard of the beer as it is known now.
func (b *Batch) guard() packaging.Guard {
	d := b.Conditioned.Design
	p := b.Prediction
	if f := b.Timeline.forced(); f != nil {
		p.FinalGravitySG.Mid = f.EndSG
	}
	plan := calc.GuardInput(d, b.model.brew.Yeast(), &p)
	plan.ReadingsContradict = len(b.Doubts) > 0
	return packaging.New(plan)
}

func (b *Batch) steady() Steady {
	t := &b.Timeline
	s := Steady{First: -1, Last: -1}
	gravities := t.used(Gravity, FinalGravity)
	if len(gravities) == 0 {
		s.Judged = b.Bottle.Guard.Judge(nil, b.expectedEnd(), t.forced())
		return s
	}
	last := gravities[len(gravities)-1]
	s.Last, s.SG, s.Refractometer = t.place(last), last.Value, last.Instrument == Refractometer
	warm := packaging.WarmC(b.model.brew.Yeast().TemperatureC)
	var seen []packaging.Reading
	var places []int
	for _, p := range gravities {
		if p.Instrument != last.Instrument || t.honeyBetween(p.Hours, math.Inf(1)) {
			continue
		}
		seen = append(seen, packaging.Reading{Days: p.Hours / hoursPerDay, SG: p.Value, SD: p.SD, Warm: b.beerAt(p.Hours) >= warm})
		places = append(places, t.place(p))
	}
	s.Judged = b.Bottle.Guard.Judge(seen, b.expectedEnd(), t.forced())
	if s.Judged.Stands {
		s.Yes, s.SG, s.Hours = true, s.Judged.SG, s.Judged.GapDays*hoursPerDay
		s.First, s.Last = places[s.Judged.First], places[s.Judged.Last]
	}
	return s
}
