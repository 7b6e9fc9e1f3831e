package follow

import (
	"errors"
	"math"
	"slices"

	"skep/calc"
	"skep/calc/design"
)

// Evaluate is the posterior of another design of the same wort: what is not
// spent, the honey to come and the temperature from now on, may differ. It is
// what a re-tune searches with. A design that changes what is spent gives what
// the beer would have been, which is seldom what is wanted.
func (b *Batch) Evaluate(d design.Design) (Bands, error) {
	m, err := b.other(d)
	if err != nil {
		return Bands{}, err
	}
	s := b.again(m)
	return m.bands(&s), nil
}

// Land is the mid values of the four pictures for such a design, without any
// course: for a search among many.
func (b *Batch) Land(d design.Design) ([calc.Outcomes]calc.Band, error) {
	var out [calc.Outcomes]calc.Band
	m, err := b.other(d)
	if err != nil {
		return out, err
	}
	var x beer
	values := [calc.Outcomes][]float64{}
	for i := range b.evened {
		m.beerOf(&b.evened[i], &x)
		for o, v := range [calc.Outcomes]float64{calc.FinalGravity: x.fgSG, calc.Strength: x.abvPct, calc.Dryness: x.dryness, calc.Body: x.body} {
			values[o] = append(values[o], v)
		}
	}
	for o := range out {
		out[o] = percentiles(values[o])
	}
	out[calc.Dryness], out[calc.Body] = m.priors.Dryness.Band(out[calc.Dryness]), m.priors.Body.Band(out[calc.Body])
	return out, nil
}

// other is the model of a design of the same wort.
func (b *Batch) other(d design.Design) (*model, error) {
	if b.model == nil {
		return nil, errors.New("nothing has been followed yet")
	}
	c := b.Conditioned
	c.Design = d.Clone()
	c.Design.Reading = nil
	c.honeyHours = slices.Clone(b.Conditioned.honeyHours)
	keep := b.mash // a copy: the follower's may have gone on to another design
	m, err := newModel(&c, b.priors, &keep)
	if err != nil {
		return nil, err
	}
	m.preBoilL, m.nowHours = b.model.preBoilL, b.model.nowHours
	if len(d.Yeast) > 0 && b.Timeline.Pitched {
		if now := d.Yeast[0].TemperatureC; math.Abs(now-b.model.d.Yeast[0].TemperatureC) > 1e-9 {
			m.changes = []change{{b.Timeline.NowHours, now}}
		}
	}
	return m, nil
}

// again weighs another model's draws as this posterior's.
func (b *Batch) again(m *model) sample {
	s := sample{draws: b.sample.draws, weights: b.sample.weights, ess: b.sample.ess, beers: make([]summary, len(b.sample.draws))}
	m.desk.both(len(s.draws), func(i int, l *look) {
		m.run(&s.draws[i], &l.beer, &l.course)
		s.beers[i] = l.summary()
	})
	return s
}
