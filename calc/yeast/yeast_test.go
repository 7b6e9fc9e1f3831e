package yeast

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/sugar"
)

// The textbook wort of the design notes, section 3: simple sugars 13.5 % of
// extract, maltose 43, maltotriose 12, dextrin 22.5 (derived from a textbook
// table, from memory).
var textbook = sugar.Spectrum{Glucose: 0.08, Fructose: 0.015, Sucrose: 0.04, Maltose: 0.43, Maltotriose: 0.12, Dextrin: 0.225, Other: 0.09}

// Design notes, section 3: the share fermented is 13.5 + 43 + 12 f3 + 22.5 fd (%
// of extract), derived. The notes turn it into apparent attenuation by 1/0.8192
// alone and so get 69, 76, 84, 92 and 100 %; that leaves out what the beer loses
// in mass. With it (RE = 100 (OE - f)/(100 - 1.0665 f/2.0665), OE 12 °P, worked
// by hand) they are the 67.0, 74.5, 81.9, 90.4 and 98.9 % here.
func TestSharesAgainstTheDerivedRows(t *testing.T) {
	t.Parallel()
	for _, row := range []struct{ apparent, f3, fd float64 }{
		{67.04, 0, 0}, {74.45, 0.5, 0}, {81.91, 1, 0}, {90.38, 1, 0.3}, {98.92, 1, 0.6},
	} {
		k := FromAttenuation(row.apparent, textbook)
		// The hand-over lets a sugar begin before the one before it is gone,
		// and the rows start where the one before ends: 0.1 of a share.
		if math.Abs(k.Maltotriose-row.f3) > 0.1 || math.Abs(k.Dextrin-row.fd) > 0.1 {
			t.Errorf("%v %%: maltotriose %.2f, dextrin %.2f; want %v, %v", row.apparent, k.Maltotriose, k.Dextrin, row.f3, row.fd)
		}
		if k.Simple != 1 {
			t.Errorf("%v %%: simple sugars %.2f, want all", row.apparent, k.Simple)
		}
	}
}

func TestInversionIsExactMonotoneAndInOrder(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 110).Draw(t, "apparent")
		k := FromAttenuation(a, textbook)
		if got := k.ApparentAttenuationPct(textbook); math.Abs(got-a) > 1e-10 {
			t.Fatalf("asked %v, takes %v", a, got)
		}
		more := FromAttenuation(a+0.5, textbook)
		for i, pair := range [][2]float64{{k.Simple, more.Simple}, {k.Maltose, more.Maltose}, {k.Maltotriose, more.Maltotriose}, {k.Dextrin, more.Dextrin}} {
			if pair[1] < pair[0] {
				t.Fatalf("kind %d: share falls from %v to %v as attenuation rises", i, pair[0], pair[1])
			}
			if pair[0] < 0 || pair[0] > 1 {
				t.Fatalf("kind %d: share %v outside 0 to 1", i, pair[0])
			}
		}
		if k.Maltose < k.Maltotriose || k.Simple < k.Maltose || k.Maltotriose < k.Dextrin {
			t.Fatalf("a later sugar is taken before an earlier one: %+v", k)
		}
	})
}

// What counts is the shares: wort in g/L ferments as far. And as the yeast goes
// on, each kind begins before the one before it is gone (order of uptake, with
// a little maltose left as maltotriose begins: Gee & Ramirez 1994).
func TestAnyUnitAndHandOver(t *testing.T) {
	t.Parallel()
	var both [3]bool
	for a := 0.5; a < 110; a += 0.1 {
		k := FromAttenuation(a, textbook)
		if got := k.ApparentAttenuationPct(textbook.Times(130)); math.Abs(got-a) > 1e-9 {
			t.Fatalf("in g/L %v, want %v", got, a)
		}
		for i, p := range [3][2]float64{{k.Simple, k.Maltose}, {k.Maltose, k.Maltotriose}, {k.Maltotriose, k.Dextrin}} {
			both[i] = both[i] || p[0] > 0.9 && p[0] < 1 && p[1] > 0 && p[1] < 0.1
		}
	}
	if both != [3]bool{true, true, true} {
		t.Errorf("hand-overs %v", both)
	}
}

func TestOddAttenuationsStayFinite(t *testing.T) {
	t.Parallel()
	for _, a := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -5, 0, 100, 1e9} {
		k := FromAttenuation(a, textbook)
		for _, share := range []float64{k.Simple, k.Maltose, k.Maltotriose, k.Dextrin} {
			if !(share >= 0 && share <= 1) {
				t.Errorf("attenuation %v gives share %v", a, share)
			}
		}
	}
	if k := FromAttenuation(75, sugar.Spectrum{}); k.Fermented(sugar.Spectrum{}) != (sugar.Spectrum{}) {
		t.Error("nothing fermented from nothing")
	}
}

// Common practice, no source: an ordinary strain stops at the dextrin; one
// given as 90 % must be eating it.
func TestDiastatic(t *testing.T) {
	t.Parallel()
	if _, yes := Diastatic(78, textbook); yes {
		t.Error("78 % needs no dextrin on the textbook wort")
	}
	if points, yes := Diastatic(90, textbook); !yes || math.Abs(points-8.09) > 0.01 {
		t.Errorf("90 %% is 8.09 points past the limit of 81.91, got %v %v", points, yes)
	}
}

// The scale prepared once is the inversion, and does not allocate.
func TestScale(t *testing.T) {
	s := NewScale(textbook)
	for a := 0.0; a < 125; a += 0.05 {
		if s.Take(a) != FromAttenuation(a, textbook) {
			t.Fatalf("at %v %% the scale differs", a)
		}
	}
	if n := testing.AllocsPerRun(100, func() { s.Take(77) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkTake(b *testing.B) {
	s := NewScale(textbook)
	for b.Loop() {
		s.Take(77.3)
	}
}
