package doubt

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// A low-discrepancy sample of a normal has its moments far closer than a
// random one of the same size would (which errs by 1/sqrt(n) = 0.04 at 512).
func TestDrawsAreStandardNormal(t *testing.T) {
	t.Parallel()
	draws := New(512)
	for j := range Tail {
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

// Harrell and Davis (Biometrika 69, 1982, 635): the mean of the beta
// distribution of the wanted rank over the sorted values, with gonum's incomplete
// beta function. The kernel is near it (Sheather and Marron, J. Am. Stat. Assoc.
// 85, 1990, 410, whose width is the beta distribution's): within a tenth of the
// doubt that so many values leave.
func TestPercentilesAreHarrellAndDavis(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 2))
	for n := 64; n < 1200; n += 7 {
		x := make([]float64, n)
		for i := range x {
			x[i] = []float64{r.NormFloat64(), r.Float64(), r.ExpFloat64()}[n%3]
		}
		sorted := slices.Clone(x)
		slices.Sort(sorted)
		low, mid, high := Percentiles(x)
		for i, p := range []float64{0.1, 0.5, 0.9} {
			want, below := 0.0, 0.0
			for k, v := range sorted {
				upTo := mathext.RegIncBeta(p*float64(n+1), (1-p)*float64(n+1), float64(k+1)/float64(n))
				want, below = want+(upTo-below)*v, upTo
			}
			normal := distuv.UnitNormal
			density := []float64{normal.Prob(normal.Quantile(p)), 1, 1 - p}[n%3]
			doubt := math.Sqrt(p*(1-p)/float64(n)) / density
			if got := [3]float64{low, mid, high}[i]; math.Abs(got-want) > 0.1*doubt {
				t.Errorf("percentile %v of %d values is %v, want %v ± %v", 100*p, n, got, want, 0.1*doubt)
			}
		}
	}
}

// Of the normal distribution's own quantiles (-1.2816, 0, 1.2816: any table) as
// many as there are usual draws.
func TestPercentilesOfTheNormalDistribution(t *testing.T) {
	t.Parallel()
	x := make([]float64, 256)
	for i := range x {
		x[i] = distuv.UnitNormal.Quantile((float64(i) + 0.5) / 256)
	}
	rand.New(rand.NewPCG(3, 4)).Shuffle(len(x), func(i, j int) { x[i], x[j] = x[j], x[i] })
	low, mid, high := Percentiles(x)
	// A mean over some values is a little further out where the density falls.
	for i, want := range []float64{-1.2816, 0, 1.2816} {
		if got := [3]float64{low, mid, high}[i]; math.Abs(got-want) > 0.015 {
			t.Errorf("percentile %d is %v, want %v", i, got, want)
		}
	}
}

// Whatever the values, the percentiles are in order, within the values and as
// they would be of sorted ones, and move with all of them.
func TestPercentilesHoldTogether(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		one := rapid.OneOf(rapid.Float64Range(-1, 1), rapid.Float64Range(-1e6, 1e6), rapid.SampledFrom([]float64{0, 0, 1, 1e-12, -1e9}))
		x := rapid.SliceOfN(one, 1, 600).Draw(t, "x")
		sorted := slices.Clone(x)
		slices.Sort(sorted)
		low, mid, high := Percentiles(slices.Clone(x))
		slack := 1e-9 * (math.Abs(sorted[0]) + math.Abs(sorted[len(sorted)-1]))
		if low < sorted[0]-slack || high > sorted[len(sorted)-1]+slack || low > mid+slack || mid > high+slack {
			t.Fatalf("%v %v %v of values from %v to %v", low, mid, high, sorted[0], sorted[len(sorted)-1])
		}
		for i, got := range []float64{low, mid, high} {
			r := ranksOf(len(sorted), []float64{0.1, 0.5, 0.9}[i])
			if want := r.mean(sorted); math.Abs(got-want) > 1e-12*math.Abs(want) {
				t.Fatalf("percentile %d is %v, of the sorted values %v", i, got, want)
			}
		}
		for i := range x {
			x[i] = 3 - 2*x[i]
		}
		a, b, c := Percentiles(x)
		for i, got := range []float64{c, b, a} {
			if want := 3 - 2*[3]float64{low, mid, high}[i]; math.Abs(got-want) > 1e-9+2*slack {
				t.Fatalf("mirrored, percentile %d is %v, want %v", i, got, want)
			}
		}
	})
}

// A few values that are infinite leave the percentiles that they are far from.
func TestPercentilesBesideTheInfinite(t *testing.T) {
	t.Parallel()
	x := make([]float64, 200)
	for i := range x {
		x[i] = float64(i)
		if i >= 182 { // beyond the 90th percentile, within its reach
			x[i] = math.Inf(1)
		}
	}
	low, mid, high := Percentiles(x)
	if math.Abs(low-19.5) > 0.5 || math.Abs(mid-99.5) > 0.5 || math.Abs(high-179.1) > 1e-9 {
		t.Errorf("%v %v %v, want about 19.5, 99.5 and 179.1", low, mid, high)
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

// The usual draws are counted into bins; values that crowd are sorted.
func TestTheUsualDrawsAreBinned(t *testing.T) {
	normal := New(256)
	x, room := make([]float64, len(normal)), make([]float64, usualDraws)
	for i := range x {
		x[i] = normal[i][Strain]
	}
	sorted := slices.Sorted(slices.Values(x))
	if !intoBins(x, room) || !slices.Equal(room[:len(x)], sorted) {
		t.Error("an ordinary sample is not put in order by bins")
	}
	if n := testing.AllocsPerRun(10, func() { Percentiles(x) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
	crowd := make([]float64, 100)
	crowd[7] = 1
	if a, b, c := Percentiles(crowd); intoBins(crowd, room) || a != 0 || b != 0 || c != 0 {
		t.Errorf("percentiles of a crowd at 0 are %v %v %v", a, b, c)
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

// A second strain is as sure as the first and hangs on nothing else.
func TestAnotherStrainHangsOnNoColumn(t *testing.T) {
	t.Parallel()
	for _, n := range []int{256, 512} {
		other := AnotherStrain(n)
		mean, sd := stat.MeanStdDev(other, nil)
		if math.Abs(mean) > 0.02 || math.Abs(sd-1) > 0.03 {
			t.Errorf("of %d draws: mean %.4f, sd %.4f, want 0 and 1", n, mean, sd)
		}
		draws := New(n)
		for j := range Tail {
			x := make([]float64, n)
			for i := range draws {
				x[i] = draws[i][j]
			}
			if r := stat.Correlation(x, other, nil); math.Abs(r) > 0.12 {
				t.Errorf("of %d draws, input %d: correlation %.3f", n, j, r)
			}
		}
	}
}
