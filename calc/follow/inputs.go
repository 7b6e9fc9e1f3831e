package follow

import (
	"math"

	"skep/calc"
	"skep/calc/doubt"
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
	sets := []doubt.Draws{b.Engine.Own()}
	if b.Draws != nil {
		sets = append(sets, b.Draws)
	}
	told := make([][len(quantities)]calc.Band, len(sets))
	b.model.work.parallel(len(sets), func(i int, _ *evaluation) { told[i] = bands(sets[i]) })
	before, after := told[0], told[len(told)-1]
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

// nearly is what the others expect of an observation, by the linear approximation at a
// mode: mean and sd, the instrument's left out. With H the precision, j the slope, w the
// curvature and r the miss of the observation at the mode, leaving it out moves the mean
// by w r s, where s = jᵀ (H - w j jᵀ)⁻¹ j is the variance.
func (g *target) nearly(r *mode, i int) (mean, sd float64) {
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
