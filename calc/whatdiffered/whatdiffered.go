// Package whatdiffered says why a finished batch came out otherwise than it was
// planned. What comes in are the plan, the batch with its readings and what was
// measured; what goes out is the miss of each quality, split among its causes so
// that the parts sum to the miss, with what can't be told apart. It knows no file
// and no window, and adds no physics: package calc works the beers out, package
// follow says what the readings moved.
//
// # How
//
// The plan's middle beer and the beer as it was made are two points of one model.
// On the way from one to the other first what was done otherwise is put in (litres,
// rests as measured, honey as it was logged), then the inputs go from their middle
// to where the readings have moved them, all by the same share at a time, and each
// takes what the quality changes while it moves (integrated along the straight way;
// Sundararajan and others 2017, after Aumann and Shapley 1974: the parts sum to the
// whole). What is left between that beer and the measured figure is no beer: of a
// gravity the instruments', of what was tasted the palate's.
package whatdiffered

import (
	"cmp"
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/stat"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/follow"
	"skep/calc/learn"
	"skep/calc/measured"
)

// Cause is why a batch may come out otherwise.
type Cause string

// The causes.
const (
	Done        Cause = "done-otherwise" // litres and rests as they were measured
	HoneyAdded  Cause = "honey-added"    // how much went in, and when
	Yield       Cause = "yield"
	Malt        Cause = "malt" // and how the mash temperature acts on it
	Thermometer Cause = "thermometer"
	Strain      Cause = "strain"
	Honey       Cause = "honey" // its water, its sugars, its enzymes
	Instruments Cause = "instruments"
	Palate      Cause = "palate"
)

// inputsOf are the columns of the draws behind each cause.
var inputsOf = []struct {
	cause  Cause
	inputs []doubt.Input
}{
	{Yield, []doubt.Input{doubt.Efficiency}},
	{Malt, []doubt.Input{doubt.Malt, doubt.Response}},
	{Thermometer, []doubt.Input{doubt.Rest}},
	{Strain, []doubt.Input{doubt.Strain}},
	{Honey, []doubt.Input{doubt.HoneyMoisture, doubt.HoneySugars, doubt.Diastase}},
}

// Part is one cause's share of a miss, in the quality's unit.
type Part struct {
	Cause Cause
	By    float64
	SD    float64 // of By, from the readings' own doubt; 0: none
}

// Sure tells whether the 10 to 90 % of a part leave nought out.
func (p Part) Sure() bool { return math.Abs(p.By) > doubt.Z90*p.SD }

// Miss is one quality: what was planned, what was measured, and why.
type Miss struct {
	Key               string // as published, with its unit
	Planned, Measured float64
	Parts             []Part // every cause that acts on it; they sum to Measured - Planned
	// Together are causes none of which is sure alone: the readings can't tell them
	// apart. ByTogether is their sum.
	Together   []Cause
	ByTogether float64
}

// By is the miss.
func (m *Miss) By() float64 { return m.Measured - m.Planned }

// worthTelling is the share of a miss from which a part is named.
const worthTelling = 0.1

// steps of the integration along the way: the midpoint rule, whose rest goes to the
// causes in proportion.
const steps = 8

// quality is one that can be measured and worked out.
type quality struct {
	key      string
	of       func(r *calc.Beer) float64
	measured func(m *learn.Measured) learn.Value
	rest     Cause // what is left over is its
	tasted   bool  // by a person
}

var qualities = []quality{
	{"original_gravity_sg", func(r *calc.Beer) float64 { return r.OriginalGravitySG() }, func(m *learn.Measured) learn.Value { return m.OriginalGravitySG }, Instruments, false},
	{"final_gravity_sg", func(r *calc.Beer) float64 { return r.FinalGravitySG }, func(m *learn.Measured) learn.Value { return m.FinalGravitySG }, Instruments, false},
	{"strength_pct", func(r *calc.Beer) float64 { return r.ABVPct }, func(m *learn.Measured) learn.Value { return m.StrengthPct }, Instruments, false},
	{"dryness", func(r *calc.Beer) float64 { return r.Dryness }, func(m *learn.Measured) learn.Value { return m.PerceivedDryness }, Palate, true},
	{"body", func(r *calc.Beer) float64 { return r.Body }, func(m *learn.Measured) learn.Value { return m.PerceivedBody }, Palate, true},
}

// Of splits the misses of a finished batch. Qualities that nobody measured are left
// out. The design must be valid; what it was brewed from is what it says beside its
// readings.
func Of(d design.Design) ([]Miss, error) {
	m, err := learn.Measure(d)
	if err != nil {
		return nil, err
	}
	var f follow.Follower
	k, err := f.Know(d, time.Time{}, measured.Instruments{}, calc.Doubts{})
	if err != nil {
		return nil, err
	}
	plan, err := calc.NewEngine().Brew(k.Plan, 0)
	if err != nil {
		return nil, err
	}
	honeyed := k.Plan.Clone()
	honeyed.Honey = k.Conditioned.Design.Honey
	withHoney, err := calc.NewEngine().Brew(honeyed, 0)
	if err != nil {
		return nil, err
	}
	made, err := k.Engine.Brew(k.Conditioned.Design, 0)
	if err != nil {
		return nil, err
	}
	var out []Miss
	for i := range qualities {
		q := &qualities[i]
		v := q.measured(&m)
		if !v.Known {
			continue
		}
		out = append(out, q.split([3]*calc.Brew{plan, withHoney, made}, k.Draws, v.Mean))
	}
	return out, nil
}

// moved is where the readings have moved the inputs, and how sure that is.
func moved(rows doubt.Draws) (mean, sd [doubt.Inputs]float64) {
	column := make([]float64, len(rows))
	for j := range mean {
		for i := range rows {
			column[i] = rows[i][j]
		}
		mean[j], sd[j] = stat.PopMeanStdDev(column, nil)
	}
	return mean, sd
}

// split is one quality.
func (q *quality) split(brews [3]*calc.Brew, rows doubt.Draws, measured float64) Miss {
	to, sd := moved(rows)
	var x calc.Draw
	at := func(b *calc.Brew, z *[doubt.Inputs]float64) float64 {
		in := b.Inputs(z)
		b.Draw(&in, &x)
		return q.of(&x.Beer)
	}
	var middle [doubt.Inputs]float64
	made := brews[2]
	planned, honeyed, done := at(brews[0], &middle), at(brews[1], &middle), at(made, &middle)
	m := Miss{Key: q.key, Planned: planned, Measured: measured}
	for _, p := range [...]Part{{Cause: HoneyAdded, By: honeyed - planned}, {Cause: Done, By: done - honeyed}} {
		if p.By != 0 {
			m.Parts = append(m.Parts, p)
		}
	}

	// All inputs by the same share at a time, each from the middle of a step to both
	// of its ends.
	var beer [doubt.Inputs]float64
	for _, c := range inputsOf {
		for _, j := range c.inputs {
			beer[j] = to[j]
		}
	}
	end := at(made, &beer)
	var by [doubt.Inputs]float64
	var slope [doubt.Inputs]float64
	sum := 0.0
	for s := range steps {
		share := (float64(s) + 0.5) / steps
		z := beer
		for j := range z {
			z[j] *= share
		}
		for _, c := range inputsOf {
			for _, j := range c.inputs {
				up, down := z, z
				const h = 0.05
				up[j] += h
				down[j] -= h
				rate := (at(made, &up) - at(made, &down)) / (2 * h)
				by[j] += rate * beer[j] / steps
				sum += rate * beer[j] / steps
				slope[j] += rate / steps
			}
		}
	}
	off, size := end-done-sum, 0.0
	for _, v := range by {
		size += math.Abs(v)
	}
	for _, c := range inputsOf {
		p := Part{Cause: c.cause}
		for _, j := range c.inputs {
			p.By += by[j]
			if size > 0 { // what the steps are off by
				p.By += off * math.Abs(by[j]) / size
			}
			p.SD = math.Hypot(p.SD, slope[j]*sd[j])
		}
		if p.By != 0 {
			m.Parts = append(m.Parts, p)
		}
	}
	rest := measured - end
	if size == 0 {
		rest = measured - done // the way is no way: nothing was moved
	}
	// As sure as the beer that was made, and a tasting besides.
	var ends []float64
	for i := range rows {
		var z [doubt.Inputs]float64
		for _, c := range inputsOf {
			for _, j := range c.inputs {
				z[j] = rows[i][j]
			}
		}
		ends = append(ends, at(made, &z))
	}
	last := Part{Cause: q.rest, By: rest}
	if len(ends) > 1 {
		last.SD = stat.StdDev(ends, nil)
	}
	if q.tasted {
		last.SD = math.Hypot(last.SD, learn.TastingSD)
	}
	m.Parts = append(m.Parts, last)
	slices.SortStableFunc(m.Parts, func(a, b Part) int { return cmp.Compare(math.Abs(b.By), math.Abs(a.By)) })
	for _, p := range m.Parts {
		if !p.Sure() && math.Abs(p.By) >= worthTelling*math.Abs(m.By()) {
			m.Together = append(m.Together, p.Cause)
			m.ByTogether += p.By
		}
	}
	if len(m.Together) == 1 {
		m.Together, m.ByTogether = nil, 0
	}
	return m
}
