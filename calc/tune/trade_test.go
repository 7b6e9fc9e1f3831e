package tune

import (
	"math"
	"testing"

	"skep/assets/demotest"

	"pgregory.net/rapid"

	"skep/calc"
	"skep/calc/design"
)

// The trade's facts of sweet and dry (common practice, no source), on the
// engine as it stands and over ordinary designs, not one that suits.
func TestTradeFacts(t *testing.T) {
	t.Parallel()
	base := demotest.Design(t, "middle")
	e := calc.NewEngine()
	rapid.Check(t, func(rt *rapid.T) {
		d := ordinary(rt, base)
		d.Mash.Rest[0].Minutes = 60 // the facts are of an hour's rest
		at := func(change func(d *design.Design)) calc.Prediction {
			c := d.Clone()
			change(&c)
			return predict(t, e, c)
		}
		cool, warm := []float64{60, 61, 62}, []float64{68, 69, 70}
		curves, err := e.Curves(d, 0, append(append([]float64{65}, cool...), warm...))
		if err != nil {
			rt.Fatal(err)
		}
		dry := func(i int) float64 { return curves.Bands[calc.Dryness][i].Mid }
		body := func(i int) float64 { return curves.Bands[calc.Body][i].Mid }
		for i := range cool {
			for j := range warm {
				c, w := 1+i, 1+len(cool)+j
				if !(dry(c) > dry(w) && body(c) < body(w)) {
					rt.Errorf("%v °C is not lighter and drier than %v °C: dryness %.2f and %.2f, body %.2f and %.2f", cool[i], warm[j], dry(c), dry(w), body(c), body(w))
				}
				// The cool end is flat in dryness: 65 °C may be as dry, never as sweet
				// as the warm end.
				if !(dry(0) > dry(w) && body(0) < body(w) && body(0) > body(c)) {
					rt.Errorf("65 °C is not between %v and %v °C", cool[i], warm[j])
				}
			}
		}
		now := at(func(*design.Design) {})
		less := at(func(d *design.Design) { d.Yeast[0].AttenuationLowPct -= 4; d.Yeast[0].AttenuationHighPct -= 4 })
		if !(less.Dryness.Mid < now.Dryness.Mid && less.Body.Mid > now.Body.Mid) {
			rt.Errorf("a less attenuating strain: dryness %.2f from %.2f", less.Dryness.Mid, now.Dryness.Mid)
		}
		// Honey dries, in place of malt of the same extract (roughly: 550 g of
		// honey for 0.77 kg of malt at 74 %) as well as on top of it.
		more := at(func(d *design.Design) { d.Honey[0].MassKg += 0.3 })
		if more.Dryness.Mid <= now.Dryness.Mid {
			rt.Errorf("more honey: dryness %.2f from %.2f", more.Dryness.Mid, now.Dryness.Mid)
		}
		swap := at(func(d *design.Design) {
			extract := d.Grain[0].ExtractPct / 100 * (1 - d.Grain[0].MoisturePct/100) * d.Kit.MashEfficiencyPct / 100
			d.Honey[0].MassKg += 0.3
			d.Grain[0].MassKg -= 0.3 * (1 - d.Honey[0].MoisturePct/100) / extract
		})
		if !(swap.Dryness.Mid > now.Dryness.Mid && swap.Body.Mid < now.Body.Mid) {
			rt.Errorf("honey in place of malt: dryness %.2f from %.2f, body %.2f from %.2f", swap.Dryness.Mid, now.Dryness.Mid, swap.Body.Mid, now.Body.Mid)
		}
	})
}

// Mash and yeast are two levers, not one: a hotter rest fills more than it
// sweetens by a less attenuating strain's measure, so that their arrows point in
// different directions on the plane.
func TestMashAndYeastPointApart(t *testing.T) {
	t.Parallel()
	base := demotest.Design(t, "middle")
	least := math.Inf(1)
	rapid.Check(t, func(rt *rapid.T) {
		d := ordinary(rt, base)
		// The warm side, where the rest acts; below its turn the mash is flat and
		// its direction is noise.
		d.Mash.Rest[0].TemperatureC = float64(rapid.IntRange(132, 140).Draw(rt, "rest")) / 2
		e := calc.NewEngine()
		now := predict(t, e, d)
		way := func(change func(d *design.Design)) float64 {
			c := d.Clone()
			change(&c)
			p := predict(t, e, c)
			return math.Atan2(p.Body.Mid-now.Body.Mid, now.Dryness.Mid-p.Dryness.Mid) * 180 / math.Pi // from sweeter to fuller
		}
		mash := way(func(d *design.Design) { d.Mash.Rest[0].TemperatureC += 2 })
		yeast := way(func(d *design.Design) { d.Yeast[0].AttenuationLowPct -= 3; d.Yeast[0].AttenuationHighPct -= 3 })
		least = min(least, mash-yeast)
		if mash-yeast < 5 {
			rt.Errorf("hotter by 2 °C points %.0f° from sweeter towards fuller, a strain 3 points less attenuating %.0f°: hardly apart", mash, yeast)
		}
	})
	t.Logf("least angle between them: %.1f°", least)
}
