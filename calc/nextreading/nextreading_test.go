package nextreading

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"skep/calc/doubt"
)

// draws are 256 rows of independent standard normals, as the engine's.
func draws() doubt.Draws { return doubt.New(256) }

func column(of func(z []float64) float64) []float64 {
	rows := draws()
	out := make([]float64, len(rows))
	for i := range rows {
		out[i] = of(rows[i][:])
	}
	return out
}

// Of normals the width that is left is known: 1 - ρ² of the variance, ρ² being
// Var(y)/(Var(y) + s²) of the part that y tells of (any textbook).
func TestNormalsNarrowAsTheTextbookSays(t *testing.T) {
	t.Parallel()
	quality := Quality{"q", column(func(z []float64) float64 { return 3*z[0] + 4*z[1] })}
	for _, sd := range []float64{0.2, 0.5, 1, 3} {
		got := Rank([]Candidate{{What: "y", Shows: column(func(z []float64) float64 { return z[0] }), SD: sd}}, []Quality{quality})[0].Most()
		const z90 = 1.2815515655446004
		now := 2 * z90 * 5
		then := 2 * z90 * math.Sqrt(16+9*(1-1/(1+sd*sd)))
		if math.Abs(got.Now-now) > 0.03*now || math.Abs(got.Then-then) > 0.04*now {
			t.Errorf("sd %v: %.2f to %.2f, want %.2f to %.2f", sd, got.Now, got.Then, now, then)
		}
	}
}

// Nested sampling: outer truths at random, and for each an inner posterior of its
// own draws, weighed; nothing shared with the package but the question.
func TestNestedSampling(t *testing.T) {
	t.Parallel()
	problems := []struct {
		name    string
		quality func(z []float64) float64
		shows   func(z []float64) float64
		sd      float64
	}{
		{"curved", func(z []float64) float64 { return math.Exp(0.5*z[0]) + 0.3*z[1] }, func(z []float64) float64 { return z[0] + 0.5*z[2] }, 0.4},
		{"flat at one end", func(z []float64) float64 { return max(z[0], 0) + 0.5*z[1] }, func(z []float64) float64 { return z[0] }, 0.5},
		{"of two unknowns", func(z []float64) float64 { return z[0] * (1 + 0.3*z[1]) }, func(z []float64) float64 { return z[0] - z[1] }, 0.6},
		{"of nothing", func(z []float64) float64 { return z[0] }, func(z []float64) float64 { return z[3] }, 0.5},
	}
	const outer, inner = 300, 6000
	r := rand.New(rand.NewPCG(1, 9))
	row := func() []float64 { return []float64{r.NormFloat64(), r.NormFloat64(), r.NormFloat64(), r.NormFloat64()} }
	for _, p := range problems {
		type one struct{ q, w float64 }
		width := func(all []one) float64 {
			slices.SortFunc(all, func(a, b one) int {
				if a.q < b.q {
					return -1
				}
				return 1
			})
			total := 0.0
			for _, x := range all {
				total += x.w
			}
			at := func(share float64) float64 {
				sum := 0.0
				for _, x := range all {
					if sum += x.w; sum >= share*total {
						return x.q
					}
				}
				return all[len(all)-1].q
			}
			return at(0.9) - at(0.1)
		}
		then := 0.0
		for range outer {
			shown := p.shows(row()) + p.sd*r.NormFloat64()
			all := make([]one, inner)
			for i := range all {
				z := row()
				d := (p.shows(z) - shown) / p.sd
				all[i] = one{q: p.quality(z), w: math.Exp(-d * d / 2)}
			}
			then += width(all) / outer
		}
		all := make([]one, 40000)
		for i := range all {
			all[i] = one{q: p.quality(row()), w: 1}
		}
		now := width(all)
		got := Rank([]Candidate{{What: "y", Shows: column(p.shows), SD: p.sd}}, []Quality{{"q", column(p.quality)}})[0].Most()
		if math.Abs(got.Now-now) > 0.05*now || math.Abs(got.Then-then) > 0.06*now {
			t.Errorf("%s: %.3f to %.3f, nested sampling %.3f to %.3f", p.name, got.Now, got.Then, now, then)
		}
	}
}

// The most telling comes first, and what tells nothing is below what is worth a
// measurement.
func TestTheMostTellingComesFirst(t *testing.T) {
	t.Parallel()
	quality := []Quality{{"q", column(func(z []float64) float64 { return 3*z[0] + z[1] })}}
	ranked := Rank([]Candidate{
		{What: "nothing", Shows: column(func(z []float64) float64 { return z[4] }), SD: 0.5},
		{What: "little", Shows: column(func(z []float64) float64 { return z[1] }), SD: 0.5},
		{What: "much", Shows: column(func(z []float64) float64 { return z[0] }), SD: 0.5},
		{What: "other draws", Shows: []float64{1, 2}, SD: 0.5},
	}, quality)
	if len(ranked) != 3 || ranked[0].What != "much" || ranked[1].What != "little" {
		t.Fatalf("%+v", ranked)
	}
	if s := ranked[2].Most().Share(); s > Least {
		t.Errorf("what tells nothing is said to narrow by %.3f", s)
	}
}

// A measurement of what is known already, and a quality that is certain, are no
// trouble.
func TestNothingToLearn(t *testing.T) {
	t.Parallel()
	same := make([]float64, 256)
	for _, w := range Rank([]Candidate{{What: "known", Shows: same}}, []Quality{{"q", column(func(z []float64) float64 { return z[0] })}, {"certain", same}}) {
		for _, n := range w.Narrowings {
			if s := n.Share(); !(s >= 0 && s < 1e-9) || math.IsNaN(n.Then) {
				t.Errorf("%+v", n)
			}
		}
	}
	if got := Rank(nil, nil); len(got) != 0 {
		t.Errorf("%+v", got)
	}
}
