package follow

import (
	"skep/calc"
	"skep/calc/alcohol"
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
	left          []float64 // SG still to fall from now on
}

func newHoneyRows(n int) *honeyRows {
	series := func() [][]float64 { return make([][]float64, n) }
	flat := func() []float64 { return make([]float64, n) }
	return &honeyRows{series(), series(), series(), series(), flat(), flat(), flat(), flat(), flat()}
}

// note writes down one draw; each draw has places of its own.
func (r *honeyRows) note(i int, l *look, nowHours float64) {
	if r == nil {
		return
	}
	for k := range l.course.events {
		e := &l.course.events[k]
		if e.dose == nil || e.dose.fromHeight {
			continue
		}
		before, _ := l.course.gravity(e.hours - 1e-6)
		after, _ := l.course.gravity(e.hours + 1e-6)
		r.hours[i], r.massKg[i] = append(r.hours[i], e.hours), append(r.massKg[i], e.dose.massKg)
		r.before[i], r.after[i] = append(r.before[i], before), append(r.after[i], after)
	}
	s := l.summary()
	gravity, _ := l.course.gravity(nowHours)
	r.left[i] = max(0, gravity-s.fg)
	r.plain[i] = alcohol.Strength(s.og, s.fg).StrengthPct
	r.strength[i], r.missed[i], r.effective[i] = s.abv, s.abv-r.plain[i], s.effective
}

// logged works out the steps of honey that went in after pitching.
func (b *Batch) logged(r *honeyRows) {
	b.left = percentiles(r.left)
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
			BeforeSG: percentiles(before), AfterSG: percentiles(after), StepSG: percentiles(step),
		})
	}
	h.EffectiveOriginalGravitySG, h.StrengthPct = percentiles(r.effective), percentiles(r.strength)
	h.PlainStrengthPct, h.MissedPct = percentiles(r.plain), percentiles(r.missed)
}
