package follow

import (
	"skep/calc"
	"skep/calc/alcohol"
	"skep/calc/density"
)

// HoneyStep is what logged honey did to the gravity.
type HoneyStep struct {
	Hours    float64 // after pitching
	MassKg   float64
	BeforeSG calc.Band // just before it went in
	AfterSG  calc.Band // when it is mixed in
	StepSG   calc.Band
}

// HoneyLog is what honey in the fermenter changes in the reckoning.
type HoneyLog struct {
	Steps                      []HoneyStep
	EffectiveOriginalGravitySG calc.Band
	StrengthPct                calc.Band
	PlainStrengthPct           calc.Band // of original and final gravity, as if no honey had gone in
	MissedPct                  calc.Band // by how much that is too low
}

// honeyRows is what each draw says of the logged honey.
type honeyRows struct {
	hours, massKg [][]float64 // by draw and step
	before, after [][]float64
	plain, missed []float64
	strength      []float64
	effective     []float64
}

func newHoneyRows(n int) *honeyRows {
	series := func() [][]float64 { return make([][]float64, n) }
	flat := func() []float64 { return make([]float64, n) }
	return &honeyRows{series(), series(), series(), series(), flat(), flat(), flat(), flat()}
}

// note writes down one draw; each draw has places of its own.
func (r *honeyRows) note(i int, brew *calc.Brew, x *calc.Draw) {
	brew.Doses(x, func(d calc.Dose) {
		if !d.Logged {
			return
		}
		r.hours[i], r.massKg[i] = append(r.hours[i], d.Hours), append(r.massKg[i], d.MassKg)
		r.before[i] = append(r.before[i], x.GravityAt(d.Hours-calc.JustAfter))
		r.after[i] = append(r.after[i], x.GravityAt(d.Hours+calc.JustAfter))
	})
	r.plain[i] = alcohol.Strength(density.QuickSG(x.OriginalPlato), x.FinalGravitySG).StrengthPct
	r.strength[i], r.missed[i], r.effective[i] = x.ABVPct, x.ABVPct-r.plain[i], density.QuickSG(x.EffectivePlato)
}

// logged works out the steps of honey that went in after pitching.
func (b *Batch) logged(r *honeyRows) {
	if len(r.hours) == 0 || len(r.hours[0]) == 0 {
		return
	}
	h := &b.Honey
	n := len(r.hours)
	for k := range r.hours[0] {
		before, after, step := make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range n {
			before[i], after[i] = r.before[i][k], r.after[i][k]
			step[i] = after[i] - before[i]
		}
		h.Steps = append(h.Steps, HoneyStep{
			Hours: r.hours[0][k], MassKg: r.massKg[0][k],
			BeforeSG: calc.BandOf(before), AfterSG: calc.BandOf(after), StepSG: calc.BandOf(step),
		})
	}
	h.EffectiveOriginalGravitySG, h.StrengthPct = calc.BandOf(r.effective), calc.BandOf(r.strength)
	h.PlainStrengthPct, h.MissedPct = calc.BandOf(r.plain), calc.BandOf(r.missed)
}
