package follow

import (
	"cmp"
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
	// one called wrong: one look in 140. Of simulated brewers, whose beers are not the
	// model's and who look eight times, it leaves 95 in 100 without any cry (TestStudy).
	doubtChance = 0.007
	// A reading is worth draws of its own where the posterior's own say it is less likely
	// than so many times that, or where fewer than leftESS of them count without it and it
	// is less likely than leftChance (a mean of 50 was a third of its sd off at times); so
	// many of them at most.
	roughly, leftESS, leftChance = 4.0, 80.0, 0.05
	mostSuspects                 = 3
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
// Chang 1992; Vehtari, Gelman & Gabry 2017, both from memory). ess is how many of them
// count then.
func (g *target) others(s *sample, i int) (e expectation, ess float64) {
	rest := sample{x: s.x}
	logs := make([]float64, len(s.weights))
	for k, w := range s.weights {
		v, _, _ := g.obs[i].nll(s.x[k][i])
		logs[k] = math.Log(w) + v
	}
	rest.normaliseWeights(logs)
	return rest.expected(i, &g.obs[i]), rest.ess
}

// without is the posterior of all the others, and what it makes of the observation.
func (g *target) without(i int) (rest *target, s sample, e expectation) {
	rest = g.leave(i)
	s, _ = rest.solve()
	return rest, s, s.expected(i, &g.obs[i])
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

// suspects are the readings that may be less likely by the others than a chance, the
// least likely first. Foam has its own tails.
func (g *target) suspects(s *sample, chance float64) []int {
	chances := make([]float64, len(g.obs)) // 1: no suspect
	g.m.work.parallel(len(g.obs), func(i int, _ *evaluation) {
		chances[i] = 1
		if o := &g.obs[i]; o.what == measured.Foam || o.left {
			return
		}
		e, ess := g.others(s, i)
		if e.chance < roughly*chance || ess < leftESS && e.chance < leftChance {
			chances[i] = e.chance
		}
	})
	var out []int
	for i, c := range chances {
		if c < 1 {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(chances[a], chances[b]) })
	return out[:min(len(out), mostSuspects)]
}

// doubts finds readings that contradict the rest: which draws made without it find less
// likely than doubtChance, of so many (Bonferroni's bound), and without which the others
// agree.
func (b *Known) doubts(g *target, s *sample) {
	gravities := 0
	for _, o := range g.obs {
		if o.what != measured.Foam && o.what != measured.PreBoilGravity && o.what != measured.PostBoilGravity {
			gravities++
		}
	}
	least := doubtChance / float64(max(len(g.obs), 1))
	var found []Doubt
	for wrong := true; wrong; {
		wrong = false
		for _, i := range g.suspects(s, least) {
			rest, of, e := g.without(i)
			if e.chance >= least {
				continue
			}
			if len(found) == mostWrong {
				return
			}
			half := doubt.Z90 * e.sd
			found = append(found, Doubt{
				Points: g.obs[i].points, Z: e.z, Alone: gravities < 2,
				Expected: calc.Band{Low: e.mean - half, Mid: e.mean, High: e.mean + half},
			})
			g, s, wrong = rest, &of, true
			break
		}
	}
	b.Doubts = found
	b.tellDoubts(g)
}
