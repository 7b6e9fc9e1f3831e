package crush_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/crush"
)

// TestPublished: the three published grists (a brewers' supplier's table) at
// the ends of the scale, called what the trade calls them, and worth what the
// trade says (coarse 2 to 3 points; common practice, no source).
func TestPublished(t *testing.T) {
	t.Parallel()
	for i, want := range []struct {
		name, word      string
		scale           float64
		fewest, most    float64
		husk, fine, sum float64
	}{
		{"mash tun", crush.Coarse, -1, 2, 3, 53, 11, 100},
		{"lauter tun", crush.Sound, 0, 0, 0, 26.7, 18.8, 101},
		{"mash filter", crush.TooFine, 1, 0, 0, 9, 50, 100},
	} {
		g := crush.Published()[i]
		s, ok := crush.Sift(g.Pct[:])
		if !ok || g.Name != want.name || s.Word() != want.word {
			t.Fatalf("%s: %v, %q, want %s %q", g.Name, ok, s.Word(), want.name, want.word)
		}
		if math.Abs(s.Scale-want.scale) > 1e-9 || s.SumPct != want.sum {
			t.Errorf("%s: scale %v, sum %v", g.Name, s.Scale, s.SumPct)
		}
		if math.Abs(s.HuskPct-want.husk) > 0.1 || math.Abs(s.FinePct-want.fine) > 0.1 || math.Abs(s.HuskPct+s.GritPct+s.FinePct-100) > 1e-9 {
			t.Errorf("%s: husk %v, grits %v, fine %v", g.Name, s.HuskPct, s.GritPct, s.FinePct)
		}
		if p := s.Points(); p < want.fewest || p > want.most {
			t.Errorf("%s: costs %v points, want %v to %v", g.Name, p, want.fewest, want.most)
		}
	}
}

// TestOtherSieves: what other writers call sound is not called otherwise by us.
// A brewery's two-sieve check has 21 % husk, 74 % grits, 5 % flour (a brewery's
// page; its grits put here on the middle three sieves as the lauter grist has
// them): the trade's own, on the coarse side of sound.
func TestOtherSieves(t *testing.T) {
	t.Parallel()
	s, ok := crush.Sift([]float64{21, 74 * 12.0 / 55, 74 * 28.0 / 55, 74 * 15.0 / 55, 2.5, 2.5})
	if w := s.Word(); !ok || (w != crush.Sound && w != crush.Coarse) {
		t.Errorf("the brewery's grist is called %q at %v", w, s.Scale)
	}
	// The example of the design file is the lauter tun's with a percent less through.
	if w := (crush.Crush{OnSievePct: []float64{27, 12, 28, 15, 4, 14}, ByEye: "too-fine"}).Word(); w != crush.Sound {
		t.Errorf("the file's example is called %q", w)
	}
	// All whole, and all flour.
	whole, _ := crush.Sift([]float64{95, 5, 0, 0, 0, 0})
	flour, _ := crush.Sift([]float64{0, 0, 0, 0, 20, 80})
	if whole.Word() != crush.TooCoarse || whole.Points() < 5 || whole.Points() > 10 {
		t.Errorf("whole grain is %q and costs %v", whole.Word(), whole.Points())
	}
	if flour.Word() != crush.TooFine || flour.Points() != 0 {
		t.Errorf("flour is %q and costs %v", flour.Word(), flour.Points())
	}
}

// TestUneven: flour and husk count by themselves, whatever the mean size: a
// grist of both is not ordinary.
func TestUneven(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		pct  []float64
		word string
	}{
		{[]float64{62, 0, 0, 1, 0, 37}, crush.TooFine},
		{[]float64{50, 8, 10, 2, 0, 30}, crush.Fine},
		{[]float64{75, 0, 0, 1, 0, 24}, crush.TooCoarse},
	} {
		s, ok := crush.Sift(c.pct)
		if !ok || s.Word() != c.word {
			t.Errorf("%v is called %q, want %q (scale %v)", c.pct, s.Word(), c.word, s.Scale)
		}
		if s.Scale > 0.3 || s.Scale < -1.5 {
			t.Errorf("%v: scale %v alone would say so", c.pct, s.Scale)
		}
	}
}

// TestByEye: every word of the file has its cost, and the trade's order.
func TestByEye(t *testing.T) {
	t.Parallel()
	for i, want := range [...][2]float64{{5, 10}, {2, 3}, {0, 0}, {0, 0}, {0, 0}} {
		w := crush.Words()[i]
		if p := (crush.Crush{ByEye: w}).EfficiencyPoints(); p < want[0] || p > want[1] {
			t.Errorf("%s costs %v, want %v to %v", w, p, want[0], want[1])
		}
		a := crush.AdviceFor(w)
		if a.Word != w || a.Shows.Empty() || a.Means.Empty() || (a.Do.Empty()) != (w == crush.Sound) {
			t.Errorf("%s: %+v", w, a)
		}
		if got := (crush.Crush{ByEye: w}).Word(); got != w {
			t.Errorf("%s is read as %s", w, got)
		}
	}
	if p := (crush.Crush{}).EfficiencyPoints(); p != 0 || (crush.Crush{}).Word() != crush.Sound {
		t.Errorf("no word costs %v", p)
	}
}

func TestLook(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		look crush.Look
		word string
	}{
		{crush.Look{}, crush.Sound},
		{crush.Look{Kernels: crush.KernelsFew}, crush.Coarse},
		{crush.Look{Flour: crush.FlourLittle}, crush.Coarse},
		{crush.Look{Kernels: crush.KernelsMany, Flour: crush.FlourLittle}, crush.TooCoarse},
		{crush.Look{Flour: crush.FlourMuch}, crush.Fine},
		{crush.Look{Husks: crush.HusksShreds}, crush.Fine},
		{crush.Look{Husks: crush.HusksTorn}, crush.Sound},
		{crush.Look{Husks: crush.HusksShreds, Flour: crush.FlourMuch, Kernels: crush.KernelsMany}, crush.TooFine},
	} {
		if w := c.look.Word(); w != c.word {
			t.Errorf("%+v is called %q, want %q", c.look, w, c.word)
		}
	}
	if len(crush.Inspect()) == 0 {
		t.Error("nothing to inspect")
	}
}

func TestUnreadable(t *testing.T) {
	t.Parallel()
	for _, p := range [][]float64{nil, {1, 2}, {0, 0, 0, 0, 0, 0}, {1, 1, 1, 1, 1, -1}, {1, 1, 1, 1, 1, math.NaN()}, {1, 1, 1, 1, 1, math.Inf(1)}} {
		if _, ok := crush.Sift(p); ok {
			t.Errorf("%v was read", p)
		}
		if got := (crush.Crush{OnSievePct: p, ByEye: "coarse"}).EfficiencyPoints(); got != 2.5 {
			t.Errorf("%v: %v points, want those by eye", p, got)
		}
	}
}

// TestSmooth: a thousandth of a percent from one sieve to another never moves
// the cost by more than a thousandth of a point, a coarser grist never costs
// less, and the sum put in does not matter.
func TestSmooth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := make([]float64, crush.Sieves)
		for i := range p {
			p[i] = rapid.Float64Range(0.01, 60).Draw(t, "on sieve")
		}
		s, ok := crush.Sift(p)
		if !ok {
			t.Fatal("not read")
		}
		points := s.Points()
		if !(points >= 0 && points <= 10) {
			t.Fatalf("%v points", points)
		}
		i := rapid.IntRange(0, crush.Sieves-2).Draw(t, "from")
		j := rapid.IntRange(i+1, crush.Sieves-1).Draw(t, "to")
		bit := 1e-5 * s.SumPct
		if p[j] > bit {
			p[i], p[j] = p[i]+bit, p[j]-bit
		}
		moved, _ := crush.Sift(p)
		if d := moved.Points() - points; d < -1e-9 || d > 1e-3 {
			t.Fatalf("from %v to %v", points, moved.Points())
		}
		k := rapid.Float64Range(0.1, 10).Draw(t, "scale")
		for i := range p {
			p[i] *= k
		}
		if again, _ := crush.Sift(p); math.Abs(again.Points()-moved.Points()) > 1e-9 {
			t.Fatalf("scaled by %v: %v, was %v", k, again.Points(), moved.Points())
		}
	})
}
