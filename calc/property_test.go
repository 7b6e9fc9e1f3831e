package calc

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/design"
	"skep/calc/recipe"
	"skep/calc/water"
)

// ordinary draws a design as a careful home brewer might have it: a base malt
// with at most a fifth of others, an ordinary strain, up to a fifth of honey.
// stepped adds a rest before and one after.
func ordinary(t *rapid.T, stepped bool) design.Design {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	d := design.New()
	d.Batch.IntoFermenterL = f("litres", 8, 30)
	d.Kit.VesselL, d.Kit.FermenterL = 80, 60
	d.Kit.MashEfficiencyPct = f("efficiency", 62, 85)
	d.Kit.RestErrorC = f("rest error", 0.1, 1.5)
	d.Mash.LiquorLPerKg = f("liquor", 2.5, 4)
	rest := design.NewRest()
	rest.TemperatureC, rest.Minutes = f("rest", 62, 71), f("minutes", 40, 90)
	d.Mash.Rest = []design.Rest{rest}
	if stepped {
		first, last := design.NewRest(), design.NewRest()
		first.TemperatureC, first.Minutes = f("first rest", 45, 55), f("first minutes", 5, 20)
		last.TemperatureC, last.Minutes = f("last rest", 75, 78), f("last minutes", 5, 15)
		d.Mash.Rest = []design.Rest{first, rest, last}
	}
	kg := d.Batch.IntoFermenterL * f("kg of malt for a litre", 0.15, 0.24)
	special := f("share of specialty malt", 0, 0.2)
	base, other := design.NewGrain(), design.NewGrain()
	base.MassKg = kg * (1 - special)
	other.MassKg, other.ExtractPct, other.Enzymes = kg*special, 75, design.EnzymesNone
	d.Grain = []design.Grain{base, other}
	strain := design.NewYeast()
	strain.AttenuationLowPct = f("attenuation", 66, 80)
	strain.AttenuationHighPct = strain.AttenuationLowPct + f("range", 1, 9)
	strain.TemperatureC = f("yeast at", 14, 24)
	d.Yeast = []design.Yeast{strain}
	honey := design.NewHoney()
	honey.MassKg = d.Batch.IntoFermenterL * f("kg of honey for a litre", 0, 0.045)
	honey.MoisturePct = f("moisture", 15, 20)
	honey.Moment = rapid.SampledFrom([]string{design.MomentBoil, design.MomentWhirlpool, design.MomentPitching, design.MomentFermenting}).Draw(t, "moment")
	honey.Raw = rapid.Bool().Draw(t, "raw")
	d.Honey = []design.Honey{honey}
	return d
}

// the rest that does the converting.
func mainRest(d design.Design) int { return (len(d.Mash.Rest) - 1) / 2 }

// both checks a fact over random designs, of one rest and, one in four, of
// three (whose mashes take five times as long to work out).
func both(t *testing.T, check func(t *rapid.T, e *Engine, d design.Design)) {
	t.Helper()
	t.Parallel()
	e := NewEngineDraws(64)
	rapid.Check(t, func(t *rapid.T) {
		check(t, e, ordinary(t, rapid.IntRange(1, 4).Draw(t, "three rests if 4") == 4))
	})
}

func must(t *rapid.T, e *Engine, d design.Design) Prediction {
	p, err := e.Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	sound(t, &p)
	return p
}

// From the optimum up, hotter is sweeter and fuller, whatever the beer (design
// notes, section 6, the trade's words; Hamilton & Lewis 1974 for the optimum at
// 62.5 °C for an hour; short, thick mashes with a bad thermometer have it up to
// 2 °C hotter).
func TestHotterIsSweeterAndFuller(t *testing.T) {
	both(t, func(t *rapid.T, e *Engine, d design.Design) {
		n := mainRest(d)
		low := rapid.Float64Range(65, 71).Draw(t, "cooler")
		high := low + rapid.Float64Range(0.2, 3).Draw(t, "hotter by")
		c, err := e.Curves(d, n, []float64{low, high})
		if err != nil {
			t.Fatal(err)
		}
		for o, up := range [Outcomes]bool{FinalGravity: true, Strength: false, Dryness: false, Body: true} {
			a, b := c.Bands[o][0].Mid, c.Bands[o][1].Mid
			if Outcome(o) == Strength && low < 66 {
				continue // a short, thick mash gives its most at 65 °C
			}
			if up && !(b > a) || !up && !(b < a) {
				t.Fatalf("outcome %d goes from %v at %.2f °C to %v at %.2f", o, a, low, b, high)
			}
		}
		d.Mash.Rest[n].TemperatureC = low
		cool := must(t, e, d)
		d.Mash.Rest[n].TemperatureC = high
		hot := must(t, e, d)
		if !(hot.SweetnessGL.Mid > cool.SweetnessGL.Mid && hot.DextrinGL.Mid > cool.DextrinGL.Mid && hot.ApparentAttenuationPct.Mid < cool.ApparentAttenuationPct.Mid) {
			t.Fatalf("from %.2f to %.2f °C: sweetness %v to %v, dextrin %v to %v", low, high, cool.SweetnessGL.Mid, hot.SweetnessGL.Mid, cool.DextrinGL.Mid, hot.DextrinGL.Mid)
		}
	})
}

// A strain that attenuates more makes a drier, thinner, stronger beer.
func TestMoreAttenuationIsDrier(t *testing.T) {
	both(t, func(t *rapid.T, e *Engine, d design.Design) {
		less := must(t, e, d)
		by := rapid.Float64Range(0.3, 6).Draw(t, "by")
		d.Yeast[0].AttenuationLowPct += by
		d.Yeast[0].AttenuationHighPct += by
		more := must(t, e, d)
		if !(more.Dryness.Mid > less.Dryness.Mid && more.FinalGravitySG.Mid < less.FinalGravitySG.Mid &&
			more.StrengthPct.Mid > less.StrengthPct.Mid && more.Body.Mid < less.Body.Mid && more.SweetnessGL.Mid < less.SweetnessGL.Mid) {
			t.Fatalf("by %.2f points: dryness %v to %v, final gravity %v to %v, strength %v to %v, body %v to %v", by,
				less.Dryness.Mid, more.Dryness.Mid, less.FinalGravitySG.Mid, more.FinalGravitySG.Mid, less.StrengthPct.Mid, more.StrengthPct.Mid, less.Body.Mid, more.Body.Mid)
		}
	})
}

// Honey dries and strengthens, at whatever moment it goes in.
func TestHoneyDriesAndStrengthens(t *testing.T) {
	both(t, func(t *rapid.T, e *Engine, d design.Design) {
		without := must(t, e, d)
		d.Honey[0].MassKg += d.Batch.IntoFermenterL * rapid.Float64Range(0.004, 0.03).Draw(t, "more honey for a litre")
		with := must(t, e, d)
		if !(with.Dryness.Mid > without.Dryness.Mid && with.StrengthPct.Mid > without.StrengthPct.Mid &&
			with.ApparentAttenuationPct.Mid > without.ApparentAttenuationPct.Mid && with.RealAttenuationPct.Mid > without.RealAttenuationPct.Mid &&
			with.EffectiveOriginalGravitySG.Mid > without.EffectiveOriginalGravitySG.Mid && with.HoneyCharacter.Mid > without.HoneyCharacter.Mid) {
			t.Fatalf("%.3f kg of honey: dryness %v to %v, strength %v to %v", d.Honey[0].MassKg, without.Dryness.Mid, with.Dryness.Mid, without.StrengthPct.Mid, with.StrengthPct.Mid)
		}
	})
}

// Honey in place of malt of the same extract thins (design notes, section 6).
func TestHoneyInPlaceOfMaltThins(t *testing.T) {
	both(t, func(t *rapid.T, e *Engine, d design.Design) {
		d.Honey[0].Moment = design.MomentPitching
		before := must(t, e, d)
		share := rapid.Float64Range(0.05, 0.25).Draw(t, "share")
		for i := range d.Grain {
			g := &d.Grain[i]
			extract := share * g.MassKg * g.ExtractPct / 100 * (1 - g.MoisturePct/100) * d.Kit.MashEfficiencyPct / 100
			g.MassKg *= 1 - share
			d.Honey[0].MassKg += 0.9 * extract / (1 - d.Honey[0].MoisturePct/100)
		}
		after := must(t, e, d)
		if !(after.Body.Mid < before.Body.Mid && after.DextrinGL.Mid < before.DextrinGL.Mid && after.Dryness.Mid > before.Dryness.Mid) {
			t.Fatalf("a share of %.2f: body %v to %v, dryness %v to %v", share, before.Body.Mid, after.Body.Mid, before.Dryness.Mid, after.Dryness.Mid)
		}
	})
}

// A hotter mash chiefly fills, a less attenuating strain chiefly sweetens: for
// the same loss of attenuation the strain takes more dryness and gives less
// body than the mash (design notes, section 6).
func TestMashAndYeastPointInDifferentDirections(t *testing.T) {
	both(t, func(t *rapid.T, e *Engine, d design.Design) {
		n := mainRest(d)
		d.Mash.Rest[n].TemperatureC = rapid.Float64Range(64, 68).Draw(t, "rest")
		at := must(t, e, d)
		hot := d.Clone()
		hot.Mash.Rest[n].TemperatureC += 3
		byMash := must(t, e, hot)
		d.Yeast[0].AttenuationLowPct -= 4
		d.Yeast[0].AttenuationHighPct -= 4
		byYeast := must(t, e, d)
		// Degrees from "less dry" towards "fuller" on the landing plane.
		turn := func(p Prediction) float64 {
			return math.Atan2(p.Body.Mid-at.Body.Mid, at.Dryness.Mid-p.Dryness.Mid) * 180 / math.Pi
		}
		a, b := turn(byMash), turn(byYeast)
		if !(a > b+8 && b > 0 && a < 90) {
			t.Fatalf("the mash points %.1f°, the yeast %.1f° from less dry towards fuller", a, b)
		}
	})
}

// No kink at 60 °C, where two published lines of gelatinisation meet with a
// jump (design notes, section 2): the bend of every curve there is no greater
// than elsewhere.
func TestNoKink(t *testing.T) {
	const step = 0.1
	temps := make([]float64, 141)
	for i := range temps {
		temps[i] = 58 + step*float64(i)
	}
	both(t, func(t *rapid.T, e *Engine, d design.Design) {
		b, err := e.prepare(d, liquor(d), d.Yeast[0], mainRest(d))
		if err != nil {
			t.Fatal(err)
		}
		y := make([][Outcomes]float64, len(temps))
		held := false
		for i, tC := range temps {
			var r Beer
			b.at(tC, &b.middle, &r)
			held = held || r.RDFPct < 45.1 || r.RDFPct > 84.9 // where the dryness scale itself stops counting attenuation
			y[i] = [Outcomes]float64{FinalGravity: 1000 * (r.FinalGravitySG - 1), Strength: r.ABVPct, Dryness: r.Dryness, Body: r.Body}
		}
		for o := range Outcomes {
			if o == Dryness && held {
				continue
			}
			bend := func(i int) float64 { return y[i+1][o] - 2*y[i][o] + y[i-1][o] }
			elsewhere, at60, spike := 0.0, 0.0, 0.0
			for i := 2; i < len(temps)-2; i++ {
				if math.Abs(temps[i]-60) < 0.35 {
					at60 = math.Max(at60, math.Abs(bend(i)))
				} else {
					elsewhere = math.Max(elsewhere, math.Abs(bend(i)))
				}
				// A kink is one bend that its neighbours do not share.
				spike = math.Max(spike, math.Abs(bend(i)-(bend(i-1)+bend(i+1))/2))
			}
			if at60 > 1.2*elsewhere {
				t.Fatalf("outcome %d bends by %.2g at 60 °C and by %.2g elsewhere", o, at60, elsewhere)
			}
			if spike > 0.5*math.Max(elsewhere, at60) {
				t.Fatalf("outcome %d has a kink: a bend %.2g off its neighbours', which are at most %.2g", o, spike, elsewhere)
			}
		}
	})
}

// liquor is the liquor of a design's day.
func liquor(d design.Design) *water.Plan {
	plan := recipe.Liquor(d)
	return &plan
}
