package follow

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"skep/calc"
	"skep/calc/doubt"
	"skep/calc/follow/mixture"
	"skep/calc/measured"
	"skep/calc/message"
)

// Input is an uncertain input in its own unit, before and after the readings.
type Input struct {
	Name   string
	Unit   string
	Before calc.Band
	After  calc.Band
}

// inputs are the uncertain inputs that readings may tell of.
func (b *Batch) inputs() {
	d := &b.Conditioned.Design
	crushed := b.model.brew.CrushCost()
	shift := 0.0
	if len(b.Conditioned.RestRead) == 0 || !b.Conditioned.RestRead[0] {
		shift = b.Engine.Doubts().RestShiftC
	}
	type row = [doubt.Inputs]float64
	quantities := [...]struct {
		name, unit string
		of         func(z *row, in *calc.Inputs) float64
	}{
		{"mash efficiency", "%", func(_ *row, in *calc.Inputs) float64 { return min(max(in.EfficiencyPct-crushed, 0), 100) }},
		{"attenuation of the strain on the reference wort", "%", func(z *row, _ *calc.Inputs) float64 { return calc.StrainPct(&d.Yeast[0], z[doubt.Strain]) }},
		{"attenuation by the malt", "points", func(_ *row, in *calc.Inputs) float64 { return in.Malt.AttenuationPoints }},
		{"mash thermometer and control", "K", func(_ *row, in *calc.Inputs) float64 { return shift + in.RestErrorC }},
		{"response to the mash temperature", "", func(_ *row, in *calc.Inputs) float64 { return in.Malt.Response }},
		{"fermentation rate", "times", func(_ *row, in *calc.Inputs) float64 { return in.RateFactor }},
		{"lag", "h", func(_ *row, in *calc.Inputs) float64 { return b.model.brew.LagHours(in) }},
		{"beer temperature", "°C", func(_ *row, in *calc.Inputs) float64 { return d.Yeast[0].TemperatureC + in.WarmerC }},
	}
	bands := func(rows doubt.Draws) (out [len(quantities)]calc.Band) {
		var v [len(quantities)][]float64
		for i := range rows {
			in := b.model.brew.Inputs(&rows[i])
			for k := range quantities {
				v[k] = append(v[k], quantities[k].of(&rows[i], &in))
			}
		}
		for k := range v {
			out[k] = calc.BandOf(v[k])
		}
		return out
	}
	before := bands(b.Engine.Own())
	after := before
	if b.Draws != nil {
		after = bands(b.Draws)
	}
	for k, q := range quantities {
		b.Inputs = append(b.Inputs, Input{q.name, q.unit, before[k], after[k]})
	}
	zero := Input{Name: "zero of the hydrometer", Unit: "SG", Before: calc.Band{Low: -doubt.Z90 * spindleSD, High: doubt.Z90 * spindleSD}}
	if zero.After = zero.Before; b.evened != nil {
		v := make([]float64, len(b.evened))
		for i := range b.evened {
			v[i] = spindleSD * b.evened[i][iSpindle]
		}
		zero.After = calc.BandOf(v)
	}
	b.Inputs = append(b.Inputs, zero)
}

// Doubt is a reading that does not fit.
type Doubt struct {
	Points   []int // in the timeline
	Z        float64
	Expected calc.Band // of what it should have shown, by all the others
	// Alone: there is nothing to hold it against but the plan; it may as well
	// be the plan that is off.
	Alone bool
	Text  message.Message
}

// doubtChance is how likely an honest brewer's readings, all together, are to have
// one called wrong: of one reading that is three sd.
const doubtChance = 0.0027

// doubtFrom is how far off one of so many readings must be, by sds, to be told of
// (Bonferroni's bound): with three sd for each, one beer in ten with a dozen readings
// would be cried at.
func doubtFrom(readings int) float64 {
	return distuv.UnitNormal.Quantile(1 - doubtChance/2/float64(max(readings, 1)))
}

// doubts finds readings that contradict the rest: each is left out in turn, by
// the linear approximation at the mode, and held against what the others and
// the plan make of it.
func (b *Known) doubts(g *target, r *mode) {
	if !r.ok {
		return
	}
	gravities := 0
	for _, o := range g.obs {
		if o.what != measured.Foam && o.what != measured.PreBoilGravity && o.what != measured.PostBoilGravity {
			gravities++
		}
	}
	// Against the plan alone the prior's own draws are the yardstick: the linear
	// approximation holds near the mode, which may be far from the plan.
	var plan sample
	if gravities < 2 {
		g.draw(&plan, mixture.Mix(len(g.free), nil, nil), drawCount)
	}
	from := doubtFrom(len(g.obs))
	for i := range g.obs {
		o := &g.obs[i]
		if o.what == measured.Foam {
			continue
		}
		expect, spread := g.without(r, i)
		if gravities < 2 {
			expect, spread = plan.expected(i)
		}
		z := (o.value - expect) / math.Hypot(spread, o.sd)
		if math.Abs(z) < from {
			continue
		}
		half := doubt.Z90 * math.Hypot(spread, o.sd)
		b.Doubts = append(b.Doubts, Doubt{
			Points: o.points, Z: z, Alone: gravities < 2,
			Expected: calc.Band{Low: expect - half, Mid: expect, High: expect + half},
		})
	}
	b.tellDoubts(g)
}

// expected is mean and sd of an observation over draws of equal weight.
func (s *sample) expected(i int) (mean, sd float64) {
	n := float64(len(s.x))
	for _, x := range s.x {
		mean += x[i] / n
	}
	for _, x := range s.x {
		sd += (x[i] - mean) * (x[i] - mean) / n
	}
	return mean, math.Sqrt(sd)
}

// without is what the others expect of an observation: mean and sd, the
// instrument's left out. With H the precision, j the slope, w the curvature and
// r the miss of the observation at the mode, leaving it out moves the mean by
// w r s, where s = jᵀ (H - w j jᵀ)⁻¹ j is the variance.
func (g *target) without(r *mode, i int) (mean, sd float64) {
	j := r.slope[i]
	s := quadratic(&r.upper, j) // jᵀ H⁻¹ j
	w := r.curv[i]
	left := 1 - w*s
	if left < 1e-6 {
		left = 1e-6
	}
	s /= left
	return r.x[i] + w*(r.x[i]-g.obs[i].value)*s, math.Sqrt(max(s, 0))
}
