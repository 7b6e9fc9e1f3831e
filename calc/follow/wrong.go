package follow

import (
	"math"

	"skep/calc"
	"skep/calc/doubt"
	"skep/calc/measured"
)

const (
	// riseSG: gravity that rises by more than this, and by three sd of the two
	// readings, without honey between does what no beer does: one of the two is
	// wrong (ours).
	riseSG, riseSDs = 0.004, 3.0
	// wrongFactor: so many times less likely by all the others must one of the two
	// be for it to be the wrong one. With less the later is: what earlier readings
	// said stands until another one speaks (a factor of ten is strong evidence:
	// Jeffreys, Theory of Probability, from memory).
	wrongFactor = 10.0
)

// leaveOutWrong looks for two gravities of which one must be wrong, and drops the
// one whose removal raises the evidence of the rest more: the evidence of all is that
// of the rest times the density which the rest gives to the one left out, so it is
// the one with the lesser density.
func (g *target) leaveOutWrong(t *measured.Timeline) bool {
	i, k, ok := g.rises(t)
	if !ok {
		return false
	}
	before, after := g.expected(i), g.expected(k)
	wrong, by := k, after
	if before.logDensity < after.logDensity-math.Log(wrongFactor) {
		wrong, by = i, before
	}
	half := doubt.Z90 * by.sd
	for _, p := range g.obs[wrong].points {
		t.LeaveOut(p, gravityBand(calc.Band{Low: by.mean - half, Mid: by.mean, High: by.mean + half}))
	}
	return true
}

// rises are the first two gravities of the beer, one after the other, between which
// it rises.
func (g *target) rises(t *measured.Timeline) (i, k int, ok bool) {
	i = -1
	for k := range g.obs {
		o := &g.obs[k]
		if o.what != measured.Gravity && o.what != measured.FinalGravity {
			continue
		}
		if i >= 0 {
			was := &g.obs[i]
			alone := func(o *obs) float64 { return t.Points[o.points[0]].SD } // the model's own error left out
			if o.value-was.value > max(riseSG, riseSDs*math.Hypot(alone(o), alone(was))) && !t.HoneyBetween(was.hour, o.hour) {
				return i, k, true
			}
		}
		i = k
	}
	return 0, 0, false
}

// expected leaves an observation out, and is what the rest expects of it, by the
// normal approximation at the rest's own mode.
func (g *target) expected(i int) expectation {
	r := g.leave(i).mode(theta{})
	e := expectation{mean: r.x[i], sd: g.obs[i].sd}
	if r.ok {
		e.sd = math.Sqrt(e.sd*e.sd + quadratic(&r.upper, r.slope[i]))
	}
	e.z = (g.obs[i].value - e.mean) / e.sd
	e.logDensity = -e.z*e.z/2 - math.Log(e.sd)
	return e
}
