package follow

import (
	"math"

	"skep/calc/measured"
	"skep/calc/packaging"
	"skep/calc/recipe"
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
	for _, p := range b.Timeline.Used(measured.BeerTemperature) {
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

// forced is the last forced fermentation, as packaging takes it.
func (b *Batch) forced() *packaging.Forced {
	if p := b.Timeline.Forced(); p != nil {
		return &packaging.Forced{EndSG: p.Value, Heated: p.Heated}
	}
	return nil
}

// guard is the packaging guard of the beer as it is known now.
func (b *Batch) guard() packaging.Guard {
	d := b.Conditioned.Design
	p := b.Prediction
	if f := b.forced(); f != nil {
		p.FinalGravitySG.Mid = f.EndSG
	}
	plan := recipe.Guard(d, b.model.brew.Yeast(), p.Brewed())
	plan.ReadingsContradict = len(b.Doubts) > 0
	return packaging.New(plan)
}

func (b *Batch) steady() Steady {
	t := &b.Timeline
	s := Steady{First: -1, Last: -1}
	gravities := t.Used(measured.Gravity, measured.FinalGravity)
	if len(gravities) == 0 {
		s.Judged = b.Bottle.Guard.Judge(nil, b.expectedEnd(), b.forced())
		return s
	}
	last := gravities[len(gravities)-1]
	s.Last, s.SG, s.Refractometer = t.Place(last), last.Value, last.Instrument == measured.Refractometer
	warm := packaging.WarmC(b.model.brew.Yeast().TemperatureC)
	var seen []packaging.Reading
	var places []int
	for _, p := range gravities {
		if p.Instrument != last.Instrument || t.HoneyBetween(p.Hours, math.Inf(1)) {
			continue
		}
		seen = append(seen, packaging.Reading{Days: p.Hours / measured.HoursPerDay, SG: p.Value, SD: p.SD, Warm: b.beerAt(p.Hours) >= warm})
		places = append(places, t.Place(p))
	}
	s.Judged = b.Bottle.Guard.Judge(seen, b.expectedEnd(), b.forced())
	if s.Judged.Stands {
		s.Yes, s.SG, s.Hours = true, s.Judged.SG, s.Judged.GapDays*measured.HoursPerDay
		s.First, s.Last = places[s.Judged.First], places[s.Judged.Last]
	}
	return s
}
