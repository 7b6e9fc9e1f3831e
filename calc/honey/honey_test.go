package honey_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/density"
	"skep/calc/honey"
	"skep/calc/sugar"
)

func TestMoisture(t *testing.T) {
	t.Parallel()
	// 0.00023 for each degree above 20 (Bogdanov): the same honey at 25 °C.
	if w, err := honey.MoisturePct(1.4940-5*0.00023, 25); err != nil || math.Abs(w-17) > 0.03 {
		t.Errorf("moisture at 25 °C is %v (%v), want 17.0", w, err)
	}
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(honey.MinMoisturePct, honey.MaxMoisturePct).Draw(t, "moisture")
		c := rapid.Float64Range(15, 35).Draw(t, "temperature")
		if got, err := honey.MoisturePct(honey.RefractiveIndex(w, c), c); err != nil || math.Abs(got-w) > 1e-9 {
			t.Fatalf("moisture %v at %v °C comes back as %v (%v)", w, c, got, err)
		}
	})
}

// TestLaw: over all moistures the law allows, our honeys meet directive
// 2001/110/EC, and the spectrum sums to 1 with the stated fermentable share.
func TestLaw(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		kind := honey.Kind(rapid.IntRange(int(honey.Blossom), int(honey.Honeydew)).Draw(t, "kind"))
		most := honey.LegalMoisturePct
		if kind == honey.Heather {
			most = honey.LegalHeatherMoisturePct
		}
		w := rapid.Float64Range(13, most).Draw(t, "moisture")
		s, err := honey.Composition(w, kind)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(s.Total()-1) > 1e-12 {
			t.Fatalf("shares of %v sum to %v", kind, s.Total())
		}
		_, mid, _ := honey.FermentableShare(kind)
		if math.Abs(s.Sugars()-mid) > 1e-12 {
			t.Fatalf("%v ferments %v of its solids, want %v", kind, s.Sugars(), mid)
		}
		monos := (s.Fructose + s.Glucose) * (100 - w)
		least := honey.LegalBlossomMonosPct
		if kind == honey.Honeydew {
			least = honey.LegalHoneydewMonosPct
		}
		if monos < least || s.Sucrose*(100-w) > honey.LegalSucrosePct {
			t.Fatalf("%v at %v %% water: fructose and glucose %v %% (law %v), sucrose %v %%", kind, w, monos, least, s.Sucrose*(100-w))
		}
		if s.Fructose <= s.Glucose {
			t.Fatalf("%v has no more fructose than glucose: %+v", kind, s)
		}
	})
}

// TestFermentableShareDraws: any drawn share gives it back, finite and without
// a negative kind.
func TestFermentableShareDraws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		share := rapid.Float64Range(0, 1).Draw(t, "share")
		kind := honey.Kind(rapid.IntRange(0, 2).Draw(t, "kind"))
		s := honey.Solids(kind, share)
		for _, v := range []float64{s.Glucose, s.Fructose, s.Sucrose, s.Maltose, s.Maltotriose, s.Dextrin, s.Other} {
			if !(v >= 0) {
				t.Fatalf("a kind is %v: %+v", v, s)
			}
		}
		if math.Abs(s.Total()-1) > 1e-12 || math.Abs(s.Sugars()-share) > 1e-12 {
			t.Fatalf("share %v gives %v of %v", share, s.Sugars(), s.Total())
		}
	})
}

// TestMixture: malt of 75 % apparent attenuation with 0 to 40 % of the extract
// as honey that ferments by 93 %: 75.0, 78.8, 82.7, 86.5, 90.4 % apparent
// (derived from mass balance with RE = 0.1808 OE + 0.8192 AE).
func TestMixture(t *testing.T) {
	t.Parallel()
	const slope = 0.8192
	malt := sugar.Spectrum{Maltose: 0.75 * slope, Dextrin: 1 - 0.75*slope}
	bees, err := honey.Composition(17.2, honey.Blossom)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{75.0, 78.8, 82.7, 86.5, 90.4} {
		share := float64(i) / 10
		wort := malt.Times(1 - share).Plus(bees.Times(share))
		if got := 100 * wort.Sugars() / slope; math.Abs(got-want) > 0.06 {
			t.Errorf("with %.0f %% honey %.2f %% apparent, want %v", 100*share, got, want)
		}
	}
}

func TestExtract(t *testing.T) {
	t.Parallel()
	e := honey.Solids(honey.Blossom, 0.93).Times(honey.SolidsKg(2, 20))
	if math.Abs(e.Total()-1.6) > 1e-12 || math.Abs(e.Sugars()-1.6*0.93) > 1e-12 {
		t.Errorf("2 kg at 20 %% water bring %v kg, %v of it fermentable; want 1.6 and 1.488", e.Total(), e.Sugars())
	}
	if v := honey.VolumeL(1.4, 18, 20); math.Abs(v-1.4/1.417) > 0.005 {
		t.Errorf("1.4 kg at 18 %% water are %v L, want about 0.988 (1.417 kg/L, trade page)", v)
	}
}

// TestAnalyses: at the survey's moisture the composition is the survey's, % of
// honey (White 1962; honeydew from memory): of a honey whose disaccharides
// ferment but for a part the simple sugars are as they were found.
func TestAnalyses(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		kind                              honey.Kind
		water, fructose, glucose, sucrose float64
	}{{honey.Blossom, 17.2, 38.2, 31.3, 1.3}, {honey.Honeydew, 16.3, 31.8, 26.1, 0.8}} {
		s, err := honey.Composition(c.water, c.kind)
		if err != nil {
			t.Fatal(err)
		}
		for what, x := range map[string][2]float64{"fructose": {s.Fructose, c.fructose}, "glucose": {s.Glucose, c.glucose}, "sucrose": {s.Sucrose, c.sucrose}} {
			if got := x[0] * (100 - c.water); math.Abs(got-x[1]) > 1e-9 {
				t.Errorf("%v: %s %v %%, want %v", c.kind, what, got, x[1])
			}
		}
	}
	// The shares' bands: blossom's as declared, honeydew's wider by half about
	// its own middle.
	low, mid, high := honey.FermentableShare(honey.Blossom)
	if math.Abs(low-honey.FermentableShareLow)+math.Abs(mid-honey.FermentableShareMid)+math.Abs(high-honey.FermentableShareHigh) > 1e-12 {
		t.Errorf("blossom ferments %v, %v, %v", low, mid, high)
	}
	l, m, h := honey.FermentableShare(honey.Honeydew)
	if math.Abs((m-l)-1.5*(mid-low))+math.Abs((h-m)-1.5*(high-mid)) > 1e-12 || m >= mid {
		t.Errorf("honeydew ferments %v, %v, %v", l, m, h)
	}
}

// TestDensityTable: White's table between the rows that are kept, specific
// gravity 20/20 (from memory, as the rows are): 14, 16 and 19 % of water.
func TestDensityTable(t *testing.T) {
	t.Parallel()
	for w, sg := range map[float64]float64{14: 1.4404, 16: 1.4295, 19: 1.4101} {
		if got := density.SGFromKgM3(1000 * honey.DensityKgL(w, 20)); math.Abs(got-sg) > 5e-4 {
			t.Errorf("honey of %v %% has gravity %.4f, want %.4f", w, got, sg)
		}
	}
	// No kink: the slope over a hundredth of a percent changes by little.
	const step = 0.01
	slope := func(w float64) float64 { return (honey.DensityKgL(w+step, 20) - honey.DensityKgL(w, 20)) / step }
	for w := honey.MinMoisturePct; w < honey.MaxMoisturePct-2*step; w += step {
		if a, b := slope(w), slope(w+step); math.Abs(b-a) > 1e-4 {
			t.Fatalf("slope jumps from %v to %v at %.2f %%", a, b, w)
		}
	}
}

// TestRangeEnds: the ends of each range belong to it.
func TestRangeEnds(t *testing.T) {
	t.Parallel()
	for _, w := range []float64{honey.MinMoisturePct, honey.MaxMoisturePct} {
		if err := honey.CheckMoisture(w); err != nil {
			t.Error(err)
		}
	}
	for _, c := range []float64{honey.MinRefractometerC, honey.MaxRefractometerC} {
		if _, err := honey.MoisturePct(1.494, c); err != nil {
			t.Error(err)
		}
	}
	for _, n := range []float64{honey.MinRefractiveIndex, honey.MaxRefractiveIndex} {
		if _, err := honey.MoisturePct(n, 20); err != nil {
			t.Error(err)
		}
	}
	if left, err := honey.DiastaseLeft(0, 20); err != nil || left != 1 {
		t.Errorf("at once %v is left (%v)", left, err)
	}
}

// TestDensity: wetter and warmer are lighter, without a jump, over all that a
// design may hold.
func TestDensity(t *testing.T) {
	t.Parallel()
	last := math.Inf(1)
	for w := honey.MinMoisturePct; w <= honey.MaxMoisturePct; w += 0.01 {
		d := honey.DensityKgL(w, 20)
		if !(d < last) || last-d > 1e-4 && !math.IsInf(last, 1) {
			t.Fatalf("density at %.2f %% is %v after %v", w, d, last)
		}
		last = d
	}
	if got := honey.DensityKgL(18, 30) - honey.DensityKgL(18, 20); math.Abs(got+0.006) > 1e-9 {
		t.Errorf("ten degrees change the density by %v, want -0.006 (from memory)", got)
	}
}

func TestFindings(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		pct  float64
		kind honey.Kind
		n    int
	}{{17, honey.Blossom, 0}, {21, honey.Blossom, 1}, {21, honey.Heather, 0}, {24, honey.Heather, 2}, {12, honey.Blossom, 1},
		// At the limits themselves nothing is to be said.
		{20, honey.Blossom, 0}, {22.9, honey.Heather, 0}, {13.4, honey.Blossom, 0}} {
		if got := honey.Findings(c.pct, c.kind); len(got) != c.n {
			t.Errorf("%v honey of %v %%: %v, want %d findings", c.kind, c.pct, got, c.n)
		}
	}
}

func TestBadInput(t *testing.T) {
	t.Parallel()
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 500} {
		_, err1 := honey.MoisturePct(x, 20)
		_, err2 := honey.MoisturePct(1.494, x)
		_, err3 := honey.Composition(x, honey.Blossom)
		for i, err := range []error{err1, err2, err3} {
			if err == nil || !strings.Contains(err.Error(), "outside") {
				t.Errorf("case %d of %v: %v, want a refusal with the range", i, x, err)
			}
		}
		if _, err := honey.DiastaseHalfLifeHours(x); err == nil {
			t.Errorf("half-life at %v °C is given", x)
		}
		if math.IsNaN(x) || x < 0 || math.IsInf(x, 0) {
			if _, err := honey.DiastaseLeft(x, 20); err == nil {
				t.Errorf("diastase after %v h is given", x)
			}
		}
	}
	if err := honey.CheckMoisture(40); err == nil || !strings.Contains(err.Error(), "10 to 30") {
		t.Errorf("honey of 40 %% water: %v", err)
	}
}

// FuzzMoisture: finite and in range, or refused.
func FuzzMoisture(f *testing.F) {
	f.Add(1.494, 20.0)
	f.Add(1.0, 20.0)
	f.Add(-1e300, 1e300)
	f.Fuzz(func(t *testing.T, n, c float64) {
		w, err := honey.MoisturePct(n, c)
		if err != nil {
			return
		}
		if !(w > 9 && w < 31) {
			t.Fatalf("index %v at %v °C gives %v %%", n, c, w)
		}
		if back := honey.RefractiveIndex(w, c); math.Abs(back-n) > 1e-9 {
			t.Fatalf("index %v at %v °C comes back as %v", n, c, back)
		}
	})
}
