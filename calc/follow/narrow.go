package follow

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"skep/calc/follow/mixture"
	"skep/calc/measured"
	"skep/calc/parallel"
)

// sample is a set of weighted draws of the posterior.
type sample struct {
	draws   []theta
	weights []float64   // sum to 1
	ess     float64     // effective sample size: 1/Σw²
	x       [][]float64 // by draw: what each observation should have shown
	beers   []summary

	parts     mixture.Proposal    // that the draws were made of
	logs      []float64           // of the posterior at each draw, up to a constant
	densities []mixture.Densities // of the parts there
}

const (
	// Draws about the modes, and with each move: the sooner the next are made by what the
	// last have found, the better they fit. Where there are several modes a move is made by
	// many, as few miss the lesser ones.
	firstDraws, moveDraws     = drawCount / 2, 64
	firstDrawsOf, moveDrawsOf = drawCount, drawCount
	enoughESS                 = 205 // draws that count, where there is one mode
	enoughOf                  = 563 // and where there are several, as the tails are of the lesser ones
	mostMoves, mostMovesOf    = 12, 4
	mostModes                 = 4
	// Where fewer than collapsedESS count after those the bands would be rough: a beer
	// in a hundred, of which draws are moved so often in all, and more at a time.
	collapsedESS, collapsedMoves = 50, mixture.MostParts - 1 - mostModes
	// negligibleWeight of an equal share says nothing of a spread.
	negligibleWeight = 1e-6
	// otherStart: a reading this many sds off the others starts a search for
	// another mode, in which it is the others that are wrong.
	otherStart = 2.5
	sameMode   = 0.5 // sd in every input: nearer modes are one
)

// solve finds the modes, and weighs draws around them.
func (g *target) solve() (sample, mode) {
	start := planned
	if g.fixed || slices.Contains(g.free, iTail) {
		start = theta{}
	}
	best := g.mode(start)
	modes := []mode{best}
	for i := range g.obs {
		if len(modes) == mostModes || !best.ok {
			break
		}
		if g.obs[i].left || !g.conflict(&best, i) {
			continue
		}
		rest := g.leave(i).mode(best.theta)
		other := g.mode(rest.theta)
		if other.ok && !slices.ContainsFunc(modes, func(m mode) bool { return sameAs(&m.theta, &other.theta) }) {
			modes = append(modes, other)
		}
	}
	slices.SortStableFunc(modes, func(a, b mode) int { return cmp.Compare(a.cost, b.cost) })
	var parts []mixture.Component
	var weights []float64
	for i := range modes {
		r := &modes[i]
		c, ok := mixture.Around(g.freeOf(&r.theta), r.precision, false)
		if !ok {
			continue
		}
		parts = append(parts, c)
		weights = append(weights, math.Exp(r.evidence()-modes[0].evidence()))
	}
	return g.weigh(parts, weights, &modes[0]), modes[0]
}

func sameAs(a, b *theta) bool {
	for i := range a {
		if math.Abs(a[i]-b[i]) > sameMode {
			return false
		}
	}
	return true
}

func (g *target) freeOf(t *theta) []float64 {
	out := make([]float64, len(g.free))
	for i, k := range g.free {
		out[i] = t[k]
	}
	return out
}

// conflict tells whether an observation or one beside it is off the others.
func (g *target) conflict(r *mode, i int) bool {
	for k := max(i-1, 0); k <= min(i+1, len(g.obs)-1); k++ {
		if math.Abs(g.miss(r, k)) >= otherStart {
			return true
		}
	}
	return false
}

// miss is how many sds an observation is off what the others expect.
func (g *target) miss(r *mode, i int) float64 {
	if g.obs[i].what == measured.Foam || g.obs[i].left {
		return 0
	}
	mean, sd := g.nearly(r, i)
	return (g.obs[i].value - mean) / math.Hypot(sd, g.obs[i].sd)
}

// weigh draws from the components and weighs by posterior over proposal. As
// long as too few draws count, more are made about the weighted mean and
// covariance of those so far.
func (g *target) weigh(parts []mixture.Component, weights []float64, best *mode) sample {
	count, more, most, enough := firstDraws, moveDraws, mostMoves, float64(enoughESS)
	if len(parts) > 1 {
		count, more, most, enough = firstDrawsOf, moveDrawsOf, mostMovesOf, enoughOf
	}
	var s sample
	g.draw(&s, mixture.Mix(len(g.free), parts, weights), count)
	for move := range collapsedMoves {
		if s.ess >= enough || move >= most && s.ess >= collapsedESS || len(g.obs) == 0 {
			break
		}
		if move >= most {
			more = firstDrawsOf
		}
		c, ok := g.moved(&s, best)
		if !ok {
			break
		}
		g.draw(&s, mixture.Proposal{c}, more)
	}
	return s
}

// draw adds the draws of a proposal to a sample. Each weighs as its posterior over
// the mixture of all that draws were made of, whichever of them it is from: none is
// lost, and none counts too much that another proposal finds likely (the balance
// heuristic: Veach & Guibas 1995, from memory).
func (g *target) draw(s *sample, p mixture.Proposal, count int) {
	u := g.scores
	if u == nil {
		u = scores()
	}
	from, known := len(s.draws), len(s.parts)
	all := from + count
	s.parts = s.parts.And(p, float64(count)/float64(all))
	s.draws, s.x, s.beers = append(s.draws, make([]theta, count)...), append(s.x, make([][]float64, count)...), append(s.beers, make([]summary, count)...)
	s.logs = append(s.logs, make([]float64, count)...)
	s.densities = append(s.densities, make([]mixture.Densities, count)...)
	n, gravities := len(g.free), slices.Contains(g.free, iTail)
	logs := make([]float64, all)
	g.m.work.parallel(all, func(i int, l *evaluation) {
		var x [dims]float64
		first := known
		if t := &s.draws[i]; i >= from {
			first = 0
			score := &u[i%len(u)]
			if !g.fixed {
				*t = *score
				if !gravities {
					t[iTail], t[iAir] = planned[iTail], planned[iAir]
				}
			}
			var z [dims]float64
			for j, k := range g.free {
				z[j] = score[k]
			}
			p[p.From(i-from)].Draw(z[:n], x[:n])
			prior := 0.0
			for j, k := range g.free {
				t[k] = x[j]
				prior -= x[j] * x[j] / 2
			}
			g.at(t, l)
			s.x[i], s.beers[i] = slices.Clone(l.x), g.summary(l)
			s.logs[i] = prior - g.nll(l)
		} else {
			for j, k := range g.free {
				x[j] = t[k]
			}
		}
		s.parts.LogDensities(x[:n], first, &s.densities[i])
		logs[i] = s.logs[i] - s.parts.Mixed(&s.densities[i])
	})
	s.normaliseWeights(logs)
}

// normaliseWeights turns log weights into weights.
func (s *sample) normaliseWeights(logs []float64) {
	s.weights = make([]float64, len(logs))
	most := math.Inf(-1)
	for _, v := range logs {
		if v > most { // a NaN never is
			most = v
		}
	}
	total := 0.0
	for i, v := range logs {
		w := math.Exp(v - most)
		if !(w >= 0) || math.IsInf(most, -1) {
			w = 0
		}
		s.weights[i] = w
		total += w
	}
	if !(total > 0) {
		for i := range s.weights {
			s.weights[i] = 1
		}
		total = float64(len(s.weights))
	}
	squares := 0.0
	for i := range s.weights {
		s.weights[i] /= total
		squares += s.weights[i] * s.weights[i]
	}
	s.ess = 1 / squares
}

// workspaces are two, one for each goroutine.
type workspaces [2]evaluation

// parallel works through n draws. Each place is written by one goroutine only, so the
// result does not hang on which is quicker.
func (d *workspaces) parallel(n int, work func(i int, l *evaluation)) {
	parallel.Each(len(d), n, func(worker, i int) { work(i, &d[worker]) })
}

// moved is a component at the weighted mean and covariance of a sample.
func (g *target) moved(s *sample, best *mode) (mixture.Component, bool) {
	n := len(g.free)
	spread := mat.NewSymDense(n, nil)
	if !best.ok || best.upper.InverseTo(spread) != nil {
		return mixture.Component{}, false
	}
	mean := make([]float64, n)
	for i, w := range s.weights {
		for a, k := range g.free {
			mean[a] += w * s.draws[i][k]
		}
	}
	var cov [dims][dims]float64 // upper half
	var off [dims]float64
	for i, w := range s.weights {
		if w < negligibleWeight/float64(len(s.weights)) {
			continue
		}
		for a, k := range g.free {
			off[a] = s.draws[i][k] - mean[a]
		}
		for a := range n {
			row, weighted := &cov[a], w*off[a]
			for b := a; b < n; b++ {
				row[b] += weighted * off[b]
			}
		}
	}
	// Few draws that count say little of the spread: what is missing is the mode's.
	keep := s.ess / (s.ess + float64(3*n))
	for a := range n {
		for b := a; b < n; b++ {
			spread.SetSym(a, b, keep*cov[a][b]+(1-keep)*spread.At(a, b))
		}
	}
	return mixture.Around(mean, spread, true)
}
