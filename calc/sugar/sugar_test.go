package sugar_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/sugar"
)

// Sums go kind by kind, and the totals are linear in them: each kind counts
// once in all, the simple ones and what yeast calls sugar where they belong.
func TestSums(t *testing.T) {
	t.Parallel()
	var kinds [7]sugar.Spectrum
	kinds[0].Glucose, kinds[1].Fructose, kinds[2].Sucrose, kinds[3].Maltose = 1, 1, 1, 1
	kinds[4].Maltotriose, kinds[5].Dextrin, kinds[6].Other = 1, 1, 1
	for i, k := range kinds {
		simple, sugars := 0.0, 0.0
		if i < 3 {
			simple = 1
		}
		if i < 5 {
			sugars = 1
		}
		if k.Simple() != simple || k.Sugars() != sugars || k.Total() != 1 {
			t.Errorf("%+v: simple %v, sugars %v, all %v", k, k.Simple(), k.Sugars(), k.Total())
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		var a, b, both sugar.Spectrum
		ka, kb := rapid.Float64Range(-2, 2).Draw(t, "k"), rapid.Float64Range(-2, 2).Draw(t, "k")
		for _, k := range kinds {
			x, y := rapid.Float64Range(0, 99).Draw(t, "a"), rapid.Float64Range(0, 99).Draw(t, "b")
			a, b, both = a.Plus(k.Times(x)), b.Plus(k.Times(y)), both.Plus(k.Times(ka*x+kb*y))
		}
		got := a.Times(ka).Plus(b.Times(kb))
		for what, d := range map[string]float64{
			"glucose": got.Glucose - both.Glucose, "fructose": got.Fructose - both.Fructose, "sucrose": got.Sucrose - both.Sucrose,
			"maltose": got.Maltose - both.Maltose, "maltotriose": got.Maltotriose - both.Maltotriose,
			"dextrin": got.Dextrin - both.Dextrin, "other": got.Other - both.Other,
			"all":    got.Total() - ka*a.Total() - kb*b.Total(),
			"sugars": got.Sugars() - ka*a.Sugars() - kb*b.Sugars(),
		} {
			if math.Abs(d) > 1e-9 {
				t.Fatalf("%s is off by %v", what, d)
			}
		}
	})
}
