package follow

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"skep/calc"
	"skep/calc/doubt"
	"skep/calc/measured"
	"skep/calc/message"
)

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

const (
	// doubtChance is how likely an honest brewer's readings, all together, are to have
	// one called wrong. Counted of simulated brewers, whose beers are not the model's,
	// it is 0.2 % of looks (TestStudy): the bound over so many readings is a wide one.
	doubtChance = 0.01
	// leftESS: fewer draws than this that count without a reading, and it is asked of
	// draws made without it.
	leftESS = 50.0
	// leftChance: only a reading that is less likely than this to be so far off is worth
	// draws of its own.
	leftChance = 0.05
	// mostWrong readings are named; where more seem wrong it is the model that is.
	mostWrong = 2
)

// expectation is what all others make of an observation.
type expectation struct {
	mean, sd   float64 // an honest instrument's error in it
	logDensity float64 // of the observation
	chance     float64 // that an honest reading is so far off, either way
	z          float64
}

// leave is the target without an observation, which is predicted all the same.
func (g *target) leave(i int) *target {
	rest := *g
	rest.obs = slices.Clone(g.obs)
	rest.obs[i].left = true
	return &rest
}

// others is what all the others make of an observation, by the posterior's own draws,
// each weighing what it does without it: its weight over the likelihood (Gelfand, Dey &
// Chang 1992; Vehtari, Gelman & Gabry 2017, both from memory). Where few of them count
// then, and the reading may be off, draws are made without it.
func (g *target) others(s *sample, i int) expectation {
	rest := sample{x: s.x}
	logs := make([]float64, len(s.weights))
	for k, w := range s.weights {
		v, _, _ := g.obs[i].nll(s.x[k][i])
		logs[k] = math.Log(w) + v
	}
	rest.normaliseWeights(logs)
	e := rest.expected(i, &g.obs[i])
	if rest.ess >= leftESS || e.chance > leftChance {
		return e
	}
	rest, _ = g.leave(i).solve()
	return rest.expected(i, &g.obs[i])
}

// expected is what weighted draws make of an observation that had no part in them. It
// errs as an honest reading does, normally: the likelihood's tails are for those that
// don't. The chance is the draws' own, or that of a normal curve of their mean and sd
// where so few lie beyond that they don't tell it.
func (s *sample) expected(i int, o *obs) expectation {
	var e expectation
	above, below := 0.0, 0.0
	for k, w := range s.weights {
		x := s.x[k][i]
		e.mean += w * x
		p := distuv.UnitNormal.CDF((x - o.value) / o.sd)
		above += w * p
		below += w * (1 - p)
	}
	for k, w := range s.weights {
		off := s.x[k][i] - e.mean
		e.sd += w * off * off
	}
	e.sd = math.Sqrt(e.sd + o.sd*o.sd)
	e.z = (o.value - e.mean) / e.sd
	e.logDensity = -e.z*e.z/2 - math.Log(e.sd)
	e.chance = min(1, 2*max(min(above, below), distuv.UnitNormal.CDF(-math.Abs(e.z))))
	return e
}

// doubts finds readings that contradict the rest. The one that the others make least
// likely is named where they make it less likely than one in doubtChance, of so many
// (Bonferroni's bound: with three sd for each, one beer in ten with a dozen readings
// would be cried at), and where they agree once it is left out.
func (b *Known) doubts(g *target, s *sample) {
	gravities := 0
	for _, o := range g.obs {
		if o.what != measured.Foam && o.what != measured.PreBoilGravity && o.what != measured.PostBoilGravity {
			gravities++
		}
	}
	least := doubtChance / float64(max(len(g.obs), 1))
	var found []Doubt
	for {
		worst, by := -1, expectation{chance: least}
		for i := range g.obs {
			if o := &g.obs[i]; o.what == measured.Foam || o.left {
				continue
			}
			if e := g.others(s, i); e.chance < by.chance || worst >= 0 && e.chance == by.chance && math.Abs(e.z) > math.Abs(by.z) {
				worst, by = i, e
			}
		}
		if worst < 0 {
			break
		}
		if len(found) == mostWrong {
			return
		}
		half := doubt.Z90 * by.sd
		found = append(found, Doubt{
			Points: g.obs[worst].points, Z: by.z, Alone: gravities < 2,
			Expected: calc.Band{Low: by.mean - half, Mid: by.mean, High: by.mean + half},
		})
		g = g.leave(worst)
		rest, _ := g.solve()
		s = &rest
	}
	b.Doubts = found
	b.tellDoubts(g)
}
