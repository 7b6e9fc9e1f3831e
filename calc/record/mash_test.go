package record_test

import (
	"math"
	"testing"

	"skep/calc/alcohol"
	"skep/calc/mash"
	"skep/calc/record"
	"skep/calc/sugar"
)

// mashTolerance is tight, so that differences of a fit are the constants' and
// not the integrator's.
const mashTolerance = 1e-7

// gristOf is the grist of a row.
func gristOf(g record.Given) []mash.Grain {
	base := mash.Grain{MassKg: 1, ExtractPct: 80.5, MoisturePct: 4.5, Enzymes: mash.EnzymesOwn}
	if g.Word("grist") == "laboratory" {
		base.MassKg = 0.9
		return []mash.Grain{base, {MassKg: 0.1, ExtractPct: 75, MoisturePct: 4.5, Enzymes: mash.EnzymesNone}}
	}
	return []mash.Grain{base}
}

// reducing is copper-reducing sugar as maltose. A gram of a sugar counts for
// so many of maltose: glucose and fructose 1.6, maltotriose 0.68, dextrin 0.15
// (from memory; by reducing ends alone it would be 1.9, 0.68 and 0.2).
func reducing(s sugar.Spectrum) float64 {
	return 1.6*(s.Glucose+s.Fructose) + s.Maltose + 0.68*s.Maltotriose + 0.15*s.Dextrin
}

// mashOf is the mash of a row, where nothing else is said one hour and 3 L/kg.
func mashOf(g record.Given) mash.Input {
	liquor := g.NumOr("liquor_l_per_kg", 3)
	if c := g.NumOr("concentration_pct", 0); c > 0 { // grain in grain and liquor, by mass
		liquor = 100/c - 1
	}
	return mash.Input{Grain: gristOf(g), LiquorLPerKg: liquor, Tolerance: mashTolerance,
		Rests: []mash.Rest{{TemperatureC: g.Num("temperature_c"), Minutes: g.NumOr("minutes", 60)}}}
}

// mashes is testdata/mash: package mash with some constants.
func mashes(k mash.Kinetics) map[string]func(record.Given) float64 {
	run := func(in mash.Input, of func(mash.Result) float64) float64 {
		r, err := k.Run(in)
		if err != nil {
			return math.NaN()
		}
		return of(r)
	}
	at := func(g record.Given, tC float64, of func(mash.Result) float64) float64 {
		in := mashOf(g)
		in.Rests[0].TemperatureC = tC
		return run(in, of)
	}
	one := func(of func(mash.Result) float64) func(record.Given) float64 {
		return func(g record.Given) float64 { return run(mashOf(g), of) }
	}
	difference := func(of func(mash.Result) float64) func(record.Given) float64 {
		return func(g record.Given) float64 {
			return at(g, g.Num("temperature_c"), of) - at(g, g.Num("other_c"), of)
		}
	}
	attenuation := func(r mash.Result) float64 { return mash.LimitAttenuationPct(r.Wort) }
	fermentable := func(r mash.Result) float64 { return r.ExtractKg * r.Wort.Sugars() }
	ofCarbohydrate := func(of func(sugar.Spectrum) float64) func(record.Given) float64 {
		return one(func(r mash.Result) float64 { return 100 * of(r.Wort) / (1 - r.Wort.Other) })
	}
	return map[string]func(record.Given) float64{
		"limit-attenuation":           one(attenuation),
		"glucose":                     one(func(r mash.Result) float64 { return 100 * r.Wort.Glucose }),
		"maltose":                     one(func(r mash.Result) float64 { return 100 * r.Wort.Maltose }),
		"maltotriose":                 one(func(r mash.Result) float64 { return 100 * r.Wort.Maltotriose }),
		"dextrin":                     one(func(r mash.Result) float64 { return 100 * r.Wort.Dextrin }),
		"maltose-of-carbohydrate":     ofCarbohydrate(func(s sugar.Spectrum) float64 { return s.Maltose }),
		"maltotriose-of-carbohydrate": ofCarbohydrate(func(s sugar.Spectrum) float64 { return s.Maltotriose }),
		"dextrin-of-carbohydrate":     ofCarbohydrate(func(s sugar.Spectrum) float64 { return s.Dextrin }),
		"beta-left":                   one(func(r mash.Result) float64 { return 100 * r.BetaLeft }),
		"alpha-left":                  one(func(r mash.Result) float64 { return 100 * r.AlphaLeft }),
		"carbohydrate-extracted":      one(func(r mash.Result) float64 { return 100 * (1 - r.StarchLeft) }),
		"reducing-sugar":              one(func(r mash.Result) float64 { return 100 * reducing(r.Wort) }),
		"sugar-of-reference": func(g record.Given) float64 {
			hour := mashOf(g)
			hour.Rests = []mash.Rest{{TemperatureC: 65, Minutes: 60}}
			return 100 * run(mashOf(g), fermentable) / run(hour, fermentable)
		},
		"attenuation-difference": difference(attenuation),
		"extract-difference":     difference(func(r mash.Result) float64 { return 100 * r.Conversion }),
		"optimum-fermentable-extract": func(g record.Given) float64 {
			best, bestC := 0.0, 0.0
			for t := 55.0; t <= 75; t += 0.05 {
				if v := at(g, t, fermentable); v > best {
					best, bestC = v, t
				}
			}
			return bestC
		},
		// The middle of the band over a span of temperatures, doubted response and
		// all, in equal steps.
		"limit-attenuation-middle": func(g record.Given) float64 {
			const steps = 7
			d := mash.Doubt{Response: mash.ResponseQuantile(0.5)}
			low, high := g.Num("temperature_c"), g.Num("other_c")
			sum := 0.0
			for i := range steps + 1 {
				sum += at(g, d.EffectiveC(low+(high-low)*float64(i)/steps), attenuation)
			}
			return sum / (steps + 1)
		},
		// Beta-amylase in a solution of 500 mM maltose, no starch: plain first order.
		"beta-left-in-maltose": func(g record.Given) float64 {
			const maltoseMolL = 0.5
			return 100 * math.Exp(-g.Num("minutes")*k.BetaLossAt(g.Num("temperature_c"), maltoseMolL))
		},
		"beta-half-life": func(g record.Given) float64 { return math.Ln2 / k.BetaLossAt(g.Num("temperature_c"), 0) },
		// The congress mash (EBC; from memory): 30 min at 45 °C, 1 K/min to 70 °C,
		// 60 min there; 4 L/kg and 6 after the hot addition, 5 taken; 8.6 °P.
		"congress-rdf": func(g record.Given) float64 {
			const oe = 8.6
			in := mash.Input{Grain: gristOf(g), LiquorLPerKg: 5, HeatKPerMin: 1, Tolerance: mashTolerance,
				Rests: []mash.Rest{{TemperatureC: 45, Minutes: 30}, {TemperatureC: 70, Minutes: 60}}}
			return run(in, func(r mash.Result) float64 {
				return alcohol.RDF(oe, alcohol.RealExtractAfter(oe, r.Wort.Sugars()))
			})
		},
	}
}

// Rows held out agree, or say why not; a reason that is no longer needed goes.
func TestHeldOutMashes(t *testing.T) {
	t.Parallel()
	checks := 0
	for _, r := range compared(t, "mash", mashes(mash.Committed())) {
		if r.Verdict != "" {
			continue
		}
		checks++
		if agrees := r.Judge() == "agrees"; agrees != (r.Why == "") {
			t.Errorf("%s: %.4g, published %.4g ± %.2g (%s), why %q", r.ID, r.Ours, r.Published, r.Tolerance, r.Source, r.Why)
		}
	}
	if checks < 15 {
		t.Errorf("only %d rows are held out", checks)
	}
}
