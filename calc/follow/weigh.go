package follow

import (
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/mat"
)

// sample is a set of weighted draws of the posterior.
type sample struct {
	draws   []theta
	weights []float64   // sum to 1
	ess     float64     // effective sample size: 1/Σw²
	x       [][]float64 // by draw: what each observation should have shown
	beers   []summary
}

const (
	widen      = 1.1 // the proposal, in each direction that the readings tell of
	enoughESS  = 1.0 / 3
	mostMoves  = 3
	keepNormal = 0.2 // of the normal approximation's covariance, when it moves
)

// proposal is a normal over the free inputs; the others keep their prior.
type proposal struct {
	mean  theta
	lower *mat.TriDense // of the covariance, widened
}

func (g *target) proposal(r *mode) proposal {
	var cov mat.SymDense
	if err := r.upper.InverseTo(&cov); err != nil {
		return proposal{mean: r.theta, lower: identity(len(g.free))}
	}
	return proposal{r.theta, root(&cov, widen)}
}

func identity(n int) *mat.TriDense {
	t := mat.NewTriDense(n, mat.Lower, nil)
	for i := range n {
		t.SetTri(i, i, 1)
	}
	return t
}

// root is the lower Cholesky factor of a covariance, wider by a factor.
func root(cov *mat.SymDense, by float64) *mat.TriDense {
	n := cov.SymmetricDim()
	work := mat.NewSymDense(n, nil)
	work.CopySym(cov)
	for i := range n {
		work.SetSym(i, i, work.At(i, i)+1e-9)
	}
	var chol mat.Cholesky
	if !chol.Factorize(work) {
		return identity(n)
	}
	var l mat.TriDense
	chol.LTo(&l)
	l.ScaleTri(by, &l)
	return &l
}

// weigh draws from the proposal and weighs by posterior over proposal, moving
// the proposal where the weights say that it stands badly.
func (g *target) weigh(p proposal) sample {
	s := g.draw(p)
	for range mostMoves {
		if s.ess >= enoughESS*drawCount || len(g.obs) == 0 {
			break
		}
		q := g.moved(&s, p)
		if next := g.draw(q); next.ess > s.ess {
			s, p = next, q
			continue
		}
		break
	}
	return s
}

func (g *target) draw(p proposal) sample {
	u := scores()
	s := sample{draws: make([]theta, len(u)), weights: make([]float64, len(u)), x: make([][]float64, len(u)), beers: make([]summary, len(u))}
	logs := make([]float64, len(u))
	both(len(u), func(i int, l *look) {
		t := u[i]
		inside, free := 0.0, 0.0
		for a, k := range g.free {
			t[k] = p.mean[k]
			for b := 0; b <= a; b++ {
				t[k] += p.lower.At(a, b) * u[i][g.free[b]]
			}
			inside += u[i][k] * u[i][k] / 2
			free += t[k] * t[k] / 2
		}
		g.at(&t, l)
		s.draws[i] = t
		s.x[i] = slices.Clone(l.x)
		s.beers[i] = l.summary()
		logs[i] = inside - free - g.nll(l)
	})
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
	return s
}

// both works through n draws on two goroutines, each with a workspace of its
// own. Each place is written by one of them only, so the result does not hang
// on which is quicker.
func both(n int, work func(i int, l *look)) {
	const workers = 2
	var wait sync.WaitGroup
	for w := range workers {
		wait.Go(func() {
			var l look
			for i := w; i < n; i += workers {
				work(i, &l)
			}
		})
	}
	wait.Wait()
}

// moved is a proposal at the weighted mean and covariance of a sample, with
// some of the last one's left in.
func (g *target) moved(s *sample, p proposal) proposal {
	n := len(g.free)
	q := proposal{mean: p.mean}
	for _, k := range g.free {
		q.mean[k] = 0
		for i, w := range s.weights {
			q.mean[k] += w * s.draws[i][k]
		}
	}
	var old mat.SymDense
	old.SymOuterK(1, p.lower)
	cov := mat.NewSymDense(n, nil)
	for a := range n {
		for b := a; b < n; b++ {
			v := 0.0
			for i, w := range s.weights {
				v += w * (s.draws[i][g.free[a]] - q.mean[g.free[a]]) * (s.draws[i][g.free[b]] - q.mean[g.free[b]])
			}
			cov.SetSym(a, b, (1-keepNormal)*widen*widen*v+keepNormal*old.At(a, b))
		}
	}
	q.lower = root(cov, 1)
	return q
}
