package doubt

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// A low-discrepancy sample of a normal has its moments far closer than a
// random one of the same size would (which errs by 1/sqrt(n) = 0.04 at 512).
func TestDrawsAreStandardNormal(t *testing.T) {
	t.Parallel()
	draws := New(512)
	for j := range Inputs {
		x := make([]float64, len(draws))
		for i := range draws {
			x[i] = draws[i][j]
		}
		mean, sd := stat.MeanStdDev(x, nil)
		if math.Abs(mean) > 0.02 || math.Abs(sd-1) > 0.03 {
			t.Errorf("input %d: mean %.4f, sd %.4f, want 0 and 1", j, mean, sd)
		}
		for k := range j {
			y := make([]float64, len(draws))
			for i := range draws {
				y[i] = draws[i][k]
			}
			if r := stat.Correlation(x, y, nil); math.Abs(r) > 0.12 {
				t.Errorf("inputs %d and %d are correlated: %.3f", k, j, r)
			}
		}
	}
}

func TestDrawsAreTheSameEachTime(t *testing.T) {
	t.Parallel()
	if a, b := New(64), New(64); !slices.Equal(a, b) {
		t.Error("two calls gave different draws")
	}
}

// The oracle is a full sort.
func TestPercentilesAgreeWithSorting(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(-1e6, 1e6), 1, 300).Draw(t, "x")
		sorted := slices.Clone(x)
		slices.Sort(sorted)
		want := func(p float64) float64 {
			place := p * float64(len(sorted)-1)
			k := int(place)
			if k+1 >= len(sorted) {
				return sorted[k]
			}
			return sorted[k] + (place-float64(k))*(sorted[k+1]-sorted[k])
		}
		low, mid, high := Percentiles(x)
		for _, c := range []struct{ got, want float64 }{{low, want(0.1)}, {mid, want(0.5)}, {high, want(0.9)}} {
			if math.Abs(c.got-c.want) > 1e-9*(1+math.Abs(c.want)) {
				t.Fatalf("got %g, want %g", c.got, c.want)
			}
		}
	})
}

// Samples that spread are counted into bins: the oracle is a full sort. Drawn
// here, as the shrinking floats of rapid crowd at nothing and would hardly ever
// be binned.
func TestBinnedAgreesWithSorting(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 2))
	for n := fewValues; n < 1200; n += 7 {
		x := make([]float64, n)
		for i := range x {
			x[i] = []float64{r.NormFloat64(), r.Float64(), r.ExpFloat64()}[n%3]
		}
		sorted := slices.Clone(x)
		slices.Sort(sorted)
		low, mid, high, ok := binned(slices.Clone(x))
		if !ok && n < 300 {
			t.Fatalf("%d values are not binned", n)
		}
		a, b, c := selected(slices.Clone(x))
		for i, p := range []float64{0.1, 0.5, 0.9} {
			place := p * float64(n-1)
			k := int(place)
			want := sorted[k] + (place-float64(k))*(sorted[k+1]-sorted[k])
			if got := [3]float64{low, mid, high}[i]; ok && math.Abs(got-want) > 1e-12 {
				t.Fatalf("of %d values binned %v, want %v", n, got, want)
			}
			if got := [3]float64{a, b, c}[i]; math.Abs(got-want) > 1e-12 {
				t.Fatalf("of %d values selected %v, want %v", n, got, want)
			}
		}
	}
}

// However few draws, none goes further out than half a step from the ends.
func TestDrawsKeepOffTheEnds(t *testing.T) {
	t.Parallel()
	for _, n := range []int{1, 2, 3, 8, 64} {
		most := distuv.UnitNormal.Quantile(1 - 0.5/float64(n))
		for _, d := range New(n) {
			for j, z := range d {
				if !(math.Abs(z) <= most+1e-12) {
					t.Errorf("of %d draws input %d has %v, want %v at most", n, j, z, most)
				}
			}
		}
	}
}

// Values that crowd, repeat, or lie far apart take the other way, to the same
// answer bit for bit.
func TestBothWaysToPercentilesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		one := rapid.OneOf(rapid.Float64Range(-1, 1), rapid.SampledFrom([]float64{0, 0, 1, 1e-12, -1e9, 1e300}))
		x := rapid.SliceOfN(one, fewValues, 600).Draw(t, "x")
		low, mid, high, ok := binned(slices.Clone(x))
		if !ok {
			return
		}
		a, b, c := selected(slices.Clone(x))
		if low != a || mid != b || high != c {
			t.Fatalf("binned %v %v %v, selected %v %v %v", low, mid, high, a, b, c)
		}
	})
	normal := New(512)
	x := make([]float64, len(normal))
	for i := range x {
		x[i] = normal[i][Strain]
	}
	if _, _, _, ok := binned(x); !ok {
		t.Error("an ordinary sample is not binned")
	}
	same := make([]float64, 100)
	if a, b, c := Percentiles(same); a != 0 || b != 0 || c != 0 {
		t.Errorf("percentiles of nothing but 0 are %v %v %v", a, b, c)
	}
	if n := testing.AllocsPerRun(10, func() { Percentiles(x) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkPercentiles(b *testing.B) {
	normal := New(256)
	x, y := make([]float64, 256), make([]float64, 256)
	for i := range x {
		x[i] = normal[i][Malt]
	}
	for b.Loop() {
		copy(y, x)
		Percentiles(y)
	}
}

func TestUniformInvertsTheScore(t *testing.T) {
	t.Parallel()
	if got := Uniform(Z90); math.Abs(got-0.9) > 1e-12 {
		t.Errorf("Uniform(Z90) = %v, want 0.9", got)
	}
}
