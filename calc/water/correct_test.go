package water_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/density"
	"skep/calc/water"
)

// TestCorrect: by points times litres (common practice, no source): 20 L of
// 1.060 to 1.050 take 4 L of water; 20 L of 1.045 to 1.050 lose 2 L, an hour at
// 2 L/h. Masses move that by 2 %.
func TestCorrect(t *testing.T) {
	t.Parallel()
	c, ok := water.Wort(20, 1.060).Correct(1.050, 2)
	near(t, "water", c.AddL, 4, 0.08)
	near(t, "no longer", c.LongerMinutes, 0, 0)
	if !ok {
		t.Error("refused")
	}
	c, ok = water.Wort(20, 1.045).Correct(1.050, 2)
	near(t, "longer", c.LongerMinutes, 60, 2)
	near(t, "no water", c.AddL, 0, 0)
	if !ok {
		t.Error("refused")
	}
	if c, ok := water.Wort(20, 1.05).Correct(1.05, 0); !ok || c != (water.Correction{}) {
		t.Errorf("as strong as wanted: %+v %v", c, ok)
	}
	for _, x := range [][4]float64{{0, 1.05, 1.04, 2}, {20, 1, 1.04, 2}, {20, 1.05, 1, 2}, {20, 1.04, 1.05, 0}, {20, 1.04, 1.05, -1}} {
		if c, ok := water.Wort(x[0], x[1]).Correct(x[2], x[3]); ok || c != (water.Correction{}) {
			t.Errorf("%v gives %+v", x, c)
		}
	}
}

// TestCorrectBalances: the extract is the same before and after, to the
// microgram: only water comes or goes.
func TestCorrectBalances(t *testing.T) {
	t.Parallel()
	const waterKgPerL = 0.9982031
	rapid.Check(t, func(t *rapid.T) {
		litres, steam := rapid.Float64Range(5, 60).Draw(t, "L"), rapid.Float64Range(1, 5).Draw(t, "steam")
		now, wanted := rapid.Float64Range(1.02, 1.1).Draw(t, "now"), rapid.Float64Range(1.02, 1.1).Draw(t, "wanted")
		c, ok := water.Wort(litres, now).Correct(wanted, steam)
		if !ok {
			return // more than a day of boiling
		}
		kg := litres * density.KgM3FromSG(now) / 1000
		after := kg + (c.AddL-c.LongerMinutes/60*steam)*waterKgPerL
		if a, b := kg*density.PlatoFromSG(now), after*density.PlatoFromSG(wanted); a-b > 1e-6*a || b-a > 1e-6*a {
			t.Fatalf("extract %v before, %v after: %+v", a, b, c)
		}
	})
}

// TestHandbookRows: points times litres stay, V1 (SG1 - 1) = V2 (SG2 - 1), the
// arithmetic of every handbook; and honey by its points, 35 for a pound in a US
// gallon, which is 292 for a kilogram in a litre (common practice, no source). The
// masses of ours move the litres by 2 %.
func TestHandbookRows(t *testing.T) {
	t.Parallel()
	for _, r := range []struct{ litres, now, wanted, water float64 }{
		{18.7, 1.040, 1.036, 18.7*40.0/36 - 18.7},
		{18.7, 1.033, 1.036, 18.7*33.0/36 - 18.7},
		{25, 1.060, 1.045, 25*60.0/45 - 25},
		{40, 1.050, 1.055, 40*50.0/55 - 40},
	} {
		got, ok := water.Wort(r.litres, r.now).WaterL(r.wanted)
		if !ok {
			t.Errorf("%v refused", r)
		}
		near(t, "water", got, r.water, 0.02*math.Abs(r.water)+0.02)
	}
	// 15 L short of 5 points lack 75 points: a quarter of a kilogram.
	kg, ok := water.Wort(15, 1.040).HoneyKg(1.045, 18)
	near(t, "honey", kg, 15*5.0/292, 0.03)
	if !ok {
		t.Error("honey refused")
	}
	if kg, ok := water.Wort(15, 1.045).HoneyKg(1.040, 18); ok {
		t.Errorf("%v kg of honey make it weaker", kg)
	}
	if _, ok := water.Wort(15, 1).WaterL(1.04); ok {
		t.Error("water alone can be made to a wort")
	}
}

// TestMixing: the infusion equation of the handbooks, W = (T2 - T1)(0.41 G + V) /
// (Tw - T2), with malt at 0.41 of water by mass and no vessel; and litres by
// temperature for liquor alone.
func TestMixing(t *testing.T) {
	t.Parallel()
	for _, r := range []struct{ grain, liquor, from, to, with float64 }{
		{3, 10.2, 64.5, 66.5, 100}, {5, 15, 50, 65, 98}, {3, 10.2, 68, 66.5, 14},
	} {
		got, ok := (water.Mash{GrainKg: r.grain, LiquorL: r.liquor}).MixL(r.from, r.to, r.with)
		want := (r.to - r.from) * (0.41*r.grain + r.liquor) / (r.with - r.to)
		if !ok {
			t.Errorf("%v refused", r)
		}
		near(t, "water", got, want, 0.015*want)
	}
	if _, ok := (water.Mash{LiquorL: 10}).MixL(64, 66, 20); ok {
		t.Error("cold water warms a mash")
	}
	// Ten litres at 80 °C with 1.5 L replaced at 20 °C: (8.5*80 + 1.5*20)/10 = 71.
	x, ok := water.ExchangeL(10, 80, 71, 20)
	near(t, "exchanged", x, 1.5, 1e-9)
	if !ok {
		t.Error("exchange refused")
	}
	if _, ok := water.ExchangeL(10, 70, 71, 20); ok {
		t.Error("cold liquor warms")
	}
}

// TestFromPreBoil: a day begun at the wort that a plan has there ends as the plan.
func TestFromPreBoil(t *testing.T) {
	t.Parallel()
	plan := water.For(gateField())
	p, err := water.FromPreBoil(gateField(), plan.PreBoilLiquid)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "into the fermenter", p.IntoFermenter, plan.IntoFermenter, 1e-6)
	near(t, "gravity", p.IntoFermenterWort.GravitySG(), plan.IntoFermenterWort.GravitySG(), 1e-9)
	near(t, "post boil", p.PostBoil, plan.PostBoil, 1e-6)
}
