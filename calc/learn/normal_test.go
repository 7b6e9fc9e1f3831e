package learn

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.9g, want %.9g within %g", what, got, want, within)
	}
}

// With the variances known the posterior is the textbook's: precisions add,
// the mean is weighted by them (Gelman and others, Bayesian Data Analysis,
// section 2.5; from memory). Ten batches of one kit, by hand.
func TestKnownVariancesAreTheTextbooks(t *testing.T) {
	t.Parallel()
	h := hierarchy{m0: 74, tm: 1.6, tu: []float64{0}, sigma: 1.2, scales: known}
	for _, n := range []int{0, 1, 2, 10} {
		var data []datum
		sum := 0.0
		for i := range n {
			y := 70 + 0.3*float64(i%4)
			sum += y
			data = append(data, datum{y: y, s2: 1.5 * 1.5, k: 1})
		}
		precision := 1/(1.6*1.6) + float64(n)/(1.2*1.2+1.5*1.5)
		mean := (74/(1.6*1.6) + sum/(1.2*1.2+1.5*1.5)) / precision
		p := h.learn(data)
		near(t, "mean", p.kit.mean, mean, 1e-12)
		near(t, "sd", p.kit.sd(), 1/math.Sqrt(precision), 1e-12)
		near(t, "the group is the kit", p.group[0].mean, mean, 1e-12)
		near(t, "batch", p.batch, 1.2, 1e-12)
	}
}

// Two levels: the closed form against conditioning the joint normal of
// everything by linear algebra.
func TestStrainsAreTheJointNormal(t *testing.T) {
	t.Parallel()
	h := hierarchy{m0: 0.4, tm: 2.8, tu: []float64{2.3, 3.5, 1}, sigma: 2.8, scales: known}
	data := []datum{
		{0, 3.1, 1.2, 1}, {0, 1.9, 0.8, 0.9}, {1, -2, 1.5, 1.1}, {0, 4.4, 1, 1}, {1, -0.5, 2, 1},
	}
	p := h.learn(data)
	// Unknowns: m+u0, m+u1, m+u2, m; then the data.
	cov := func(g, k int) float64 { // of group effects; 3 stands for m
		v := h.tm * h.tm
		if g == k && g < 3 {
			v += h.tu[g] * h.tu[g]
		}
		return v
	}
	n := len(data)
	s := mat.NewSymDense(n, nil)
	d := mat.NewVecDense(n, nil)
	for i, x := range data {
		for j := i; j < n; j++ {
			v := cov(x.group, data[j].group)
			if i == j {
				v += x.variance(h.sigma)
			}
			s.SetSym(i, j, v)
		}
		d.SetVec(i, x.y-h.m0)
	}
	var chol mat.Cholesky
	if !chol.Factorize(s) {
		t.Fatal("not positive definite")
	}
	for g := range 4 {
		c := mat.NewVecDense(n, nil)
		for i, x := range data {
			c.SetVec(i, cov(g, x.group))
		}
		var solved mat.VecDense
		if err := chol.SolveVecTo(&solved, c); err != nil {
			t.Fatal(err)
		}
		got := p.kit
		if g < 3 {
			got = p.group[g]
		}
		near(t, "mean", got.mean, h.m0+mat.Dot(&solved, d), 1e-9)
		near(t, "variance", got.variance, cov(g, g)-mat.Dot(&solved, c), 1e-9)
	}
	u := p.unseen(1)
	near(t, "a strain not brewed", u.mean, p.group[2].mean, 1e-12)
	near(t, "a strain not brewed", u.variance, p.group[2].variance, 1e-12)
	// And the marginal likelihood, which weighs the grid.
	_, log := h.given(data, 1, 1)
	var solved mat.VecDense
	if err := chol.SolveVecTo(&solved, d); err != nil {
		t.Fatal(err)
	}
	near(t, "marginal likelihood", log, -0.5*(mat.Dot(&solved, d)+chol.LogDet()+float64(n)*math.Log(2*math.Pi)), 1e-9)
}

// The whole posterior, scales and all, by brute force: unknowns on a fine grid,
// nothing integrated out by a formula.
func TestPosteriorIsTheBruteForceOne(t *testing.T) {
	t.Parallel()
	h := hierarchy{m0: 74, tm: 1.6, tu: []float64{0}, sigma: 1.2, scales: usualScales}
	for _, ys := range [][]float64{{70}, {67, 66.2, 68}, {70, 78, 73, 75.5, 69}} {
		var data []datum
		for _, y := range ys {
			data = append(data, datum{y: y, s2: 1.69, k: 1})
		}
		var sum, first, second, batch float64
		normal := func(x, mean, sd float64) float64 { return math.Exp(-0.5*(x-mean)*(x-mean)/(sd*sd)) / sd }
		for _, a := range h.scales.a {
			for _, b := range h.scales.b {
				for m := 50.0; m <= 100; m += 0.01 {
					p := a.weight * b.weight * normal(m, 74, a.times*1.6)
					for _, x := range data {
						p *= normal(x.y, m, math.Hypot(b.times*1.2, 1.3))
					}
					sum += p
					first += p * m
					second += p * m * m
					batch += p * b.times * b.times * 1.44
				}
			}
		}
		mean := first / sum
		got := h.learn(data)
		near(t, "mean", got.kit.mean, mean, 1e-5)
		near(t, "sd", got.kit.sd(), math.Sqrt(second/sum-mean*mean), 1e-5)
		near(t, "batch from batch", got.batch, math.Sqrt(batch/sum), 1e-5)
	}
}

// With the variances given more evidence never widens, whatever it says, for a
// kit or any strain; and a group's own batches narrow it at least as much as
// another's.
func TestMoreEvidenceNeverWidens(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		h := hierarchy{tm: rapid.Float64Range(0.01, 5).Draw(t, "tm"), sigma: rapid.Float64Range(0.01, 5).Draw(t, "sigma"),
			tu: []float64{rapid.Float64Range(0, 4).Draw(t, "tu0"), rapid.Float64Range(0, 4).Draw(t, "tu1")}, scales: known}
		var data []datum
		before := h.learn(data)
		for range rapid.IntRange(1, 12).Draw(t, "batches") {
			data = append(data, datum{rapid.IntRange(0, 1).Draw(t, "group"), rapid.Float64Range(-20, 20).Draw(t, "y"),
				rapid.Float64Range(0.01, 9).Draw(t, "s2"), rapid.Float64Range(0.2, 3).Draw(t, "k")})
			after := h.learn(data)
			if after.kit.variance > before.kit.variance*(1+1e-9) {
				t.Fatalf("the kit went from %v to %v", before.kit, after.kit)
			}
			for g := range h.tu {
				if after.group[g].variance > before.group[g].variance*(1+1e-9) {
					t.Fatalf("group %d went from %v to %v", g, before.group[g], after.group[g])
				}
			}
			before = after
		}
	})
}

// Over the grid: evidence that agrees with what is known never widens, and the
// next batch's variance does not grow on average over what the prior expects
// (the law of total variance).
func TestTheGridNarrowsToo(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		h := hierarchy{tm: rapid.Float64Range(0.1, 5).Draw(t, "tm"), sigma: rapid.Float64Range(0.1, 5).Draw(t, "sigma"), tu: []float64{0}, scales: usualScales}
		s2 := rapid.Float64Range(0.01, 9).Draw(t, "s2")
		var data []datum
		before := h.learn(data)
		for range 12 {
			data = append(data, datum{y: before.kit.mean, s2: s2, k: 1})
			after := h.learn(data)
			if after.kit.variance > before.kit.variance*(1+1e-9) || after.batch > before.batch*(1+1e-9) {
				t.Fatalf("agreeing evidence widened: %v, batch %v; before %v, %v", after.kit, after.batch, before.kit, before.batch)
			}
			before = after
		}
	})
	h := hierarchy{tm: 1.6, sigma: 1.2, tu: []float64{0}, scales: usualScales}
	rng := rand.New(rand.NewPCG(1, 7))
	pick := func(s []scale) float64 {
		u := rng.Float64()
		for _, x := range s {
			if u -= x.weight; u < 0 {
				return x.times
			}
		}
		return s[len(s)-1].times
	}
	start := h.learn(nil)
	const worlds = 4000
	sum := 0.0
	for range worlds {
		a, b := pick(h.scales.a), pick(h.scales.b)
		m := a * h.tm * rng.NormFloat64()
		var data []datum
		for range 3 {
			data = append(data, datum{y: m + math.Hypot(b*h.sigma, 1)*rng.NormFloat64(), s2: 1, k: 1})
		}
		p := h.learn(data)
		sum += p.kit.variance
	}
	if mean := sum / worlds; mean > start.kit.variance/2 {
		t.Errorf("three batches leave a variance of %.3f of %.3f", mean, start.kit.variance)
	}
}

func TestScalesAreDistributions(t *testing.T) {
	t.Parallel()
	for _, list := range [][]scale{usualScales.a, usualScales.b, known.a, known.b} {
		sum := 0.0
		for _, s := range list {
			sum += s.weight
		}
		near(t, "weights", sum, 1, 1e-12)
	}
}
