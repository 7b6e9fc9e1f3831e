package calc

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"skep/assets/demotest"
	"skep/calc/lever"
	"skep/calc/mash"
	"skep/calc/recipe"
	"skep/calc/sugar"
)

// Bands converge with the draws, and the number in use is enough for what is
// shown: half a point of gravity, a twentieth of a percent of alcohol, one
// point of an index. The truth is taken from 65,536 draws of another size
// (New(n) scrambles each size anew). Low-discrepancy draws gain faster than the
// square root of their number, which is what random ones gain.
func TestBandsConverge(t *testing.T) {
	t.Parallel()
	enough := [Outcomes]float64{FinalGravity: 0.0003, Strength: 0.05, Dryness: 1, Body: 0.8}
	d := demotest.Design(t, "middle")
	bands := func(n int) [Outcomes]Band {
		e := NewEngineDraws(n)
		b, err := e.prepare(d, liquor(d), d.Yeast[0], 0)
		if err != nil {
			t.Fatal(err)
		}
		return b.outcomesOf(e.rows.at(b, e.fixed, 66.5)[0], newScratch(n))
	}
	truth := bands(65536)
	var sizes []int
	var worst []float64 // in units of what is enough
	var report strings.Builder
	for n := 64; n <= 16384; n *= 4 {
		got := bands(n)
		w := 0.0
		for o := range Outcomes {
			for _, d := range []float64{got[o].Low - truth[o].Low, got[o].Mid - truth[o].Mid, got[o].High - truth[o].High} {
				w = math.Max(w, math.Abs(d)/enough[o])
			}
		}
		sizes, worst = append(sizes, n), append(worst, w)
		fmt.Fprintf(&report, "%6d draws: worst percentile off by %.3f of what is enough\n", n, w)
	}
	t.Log("\n" + report.String())
	last := len(worst) - 1
	if !(worst[last] < worst[0]/8) {
		t.Errorf("from %d to %d draws the error falls only from %.3f to %.3f", sizes[0], sizes[last], worst[0], worst[last])
	}
	for i, n := range sizes {
		if n == Draws && worst[i] > 1 {
			t.Errorf("%d draws are not enough: %.2f", n, worst[i])
		}
	}
}

// A curve bends as the model does and not as the draws happen to lie: what its
// step changes by from one to the next, as drawn half a degree apart, is that of
// many draws to a pixel of a picture 340 high (20 points of gravity, 100 of an
// index), two of strength (3 %), over the whole lever.
func TestCurvesBendAsTheModelDoes(t *testing.T) {
	t.Parallel()
	most := [Outcomes]float64{FinalGravity: 0.020 / 340, Strength: 2 * 3.0 / 340, Dryness: 100.0 / 340, Body: 100.0 / 340}
	const stepC = 0.5
	var temps []float64
	for c := lever.RestLowC; c <= lever.RestHighC; c += stepC {
		temps = append(temps, c)
	}
	for _, name := range []string{"dry", "middle", "soft"} {
		few, err := NewEngine().Curves(demotest.Design(t, name), 0, temps)
		if err != nil {
			t.Fatal(err)
		}
		many, err := NewEngineDraws(16384).Curves(demotest.Design(t, name), 0, temps)
		if err != nil {
			t.Fatal(err)
		}
		for o := range Outcomes {
			bend := func(b []Band, i int) float64 { return b[i+1].Mid - 2*b[i].Mid + b[i-1].Mid }
			worst, at := 0.0, 0.0
			for i := 1; i+1 < len(temps); i++ {
				if d := math.Abs(bend(few.Bands[o], i) - bend(many.Bands[o], i)); d > worst {
					worst, at = d, temps[i]
				}
			}
			t.Logf("%s, outcome %d: at worst %.5f at %.1f °C", name, o, worst, at)
			if worst > most[o] {
				t.Errorf("%s, outcome %d: bends by %.5f more at %.1f °C than with many draws, want %.5f at most", name, o, worst, at, most[o])
			}
		}
	}
}

// The table of the mash at the engine's step is the mash, to less than the
// third digit of an index: over the lever's range, for one rest and three.
func TestMashTableIsFineEnough(t *testing.T) {
	t.Parallel()
	for _, d := range []int{0, 1} {
		design := demotest.Design(t, "middle")
		if d == 1 {
			design = steps(t)
		}
		n := mainRest(design)
		e := NewEngineDraws(16)
		b, err := e.prepare(design, liquor(design), design.Yeast[0], n)
		if err != nil {
			t.Fatal(err)
		}
		in := recipe.MashInput(design, 0)
		w := b.mid
		w.Malt, w.RestErrorC = mash.Laboratory(), 0
		var at drawn
		b.drawFrom(&w, &at)
		worst := 0.0
		for tC := lever.RestLowC; tC <= lever.RestHighC; tC += 0.05 {
			in.Rests[n].TemperatureC = tC
			r, err := mash.Run(in)
			if err != nil {
				t.Fatal(err)
			}
			var s sugar.Spectrum
			conversion := b.mash.Into(&s, tC, at.restErrorC, at.malt)
			worst = math.Max(worst, math.Abs(conversion-r.Conversion))
			worst = math.Max(worst, math.Abs(s.Maltose-r.Wort.Maltose))
			worst = math.Max(worst, math.Abs(s.Maltotriose-r.Wort.Maltotriose))
			worst = math.Max(worst, math.Abs(s.Dextrin-r.Wort.Dextrin))
		}
		t.Logf("%d rests: the table errs by at most %.1e of the extract", len(design.Mash.Rest), worst)
		// 0.0005 of the extract is 0.06 g/L, a twentieth of a point of body.
		if worst > 5e-4 {
			t.Errorf("%d rests: the table errs by %.1e of the extract", len(design.Mash.Rest), worst)
		}
	}
}
