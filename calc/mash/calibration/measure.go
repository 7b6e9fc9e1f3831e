package calibration

import (
	"fmt"
	"math"

	"skep/calc/alcohol"
	"skep/calc/mash"
	"skep/calc/sugar"
)

// The tolerance of calibration runs: tight, so that differences of a fit are
// the constants' and not the integrator's.
const tolerance = 1e-7

// grains is the grist of a row.
func grains(name string) ([]mash.Grain, error) {
	base := mash.Grain{MassKg: 1, ExtractPct: 80.5, MoisturePct: 4.5, Enzymes: mash.EnzymesOwn}
	switch name {
	case "malt", "":
		return []mash.Grain{base}, nil
	case "laboratory":
		base.MassKg = 0.9
		return []mash.Grain{base, {MassKg: 0.1, ExtractPct: 75, MoisturePct: 4.5, Enzymes: mash.EnzymesNone}}, nil
	}
	return nil, fmt.Errorf("unknown grist %q", name)
}

// Measure is what a row's mash gives with the constants k, in the row's unit.
func Measure(k mash.Kinetics, r Row) (float64, error) {
	g, err := grains(r.Grist)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", r.ID, err)
	}
	at := func(tC, minutes float64) (mash.Result, error) {
		return k.Run(mash.Input{Grain: g, Rests: []mash.Rest{{TemperatureC: tC, Minutes: minutes}},
			LiquorLPerKg: r.LiquorLPerKg, Tolerance: tolerance})
	}
	if f, ok := whole[r.Quantity]; ok {
		return f(k, r, at)
	}
	res, err := at(r.TemperatureC, r.Minutes)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", r.ID, err)
	}
	f, ok := single[r.Quantity]
	if !ok {
		return 0, fmt.Errorf("%s: unknown quantity %q", r.ID, r.Quantity)
	}
	return f(res), nil
}

// single are the quantities of one mash.
var single = map[string]func(mash.Result) float64{
	"limit-attenuation":           func(r mash.Result) float64 { return mash.LimitAttenuationPct(r.Wort) },
	"glucose":                     func(r mash.Result) float64 { return 100 * r.Wort.Glucose },
	"maltose":                     func(r mash.Result) float64 { return 100 * r.Wort.Maltose },
	"maltotriose":                 func(r mash.Result) float64 { return 100 * r.Wort.Maltotriose },
	"dextrin":                     func(r mash.Result) float64 { return 100 * r.Wort.Dextrin },
	"maltose-of-carbohydrate":     func(r mash.Result) float64 { return 100 * r.Wort.Maltose / (1 - r.Wort.Other) },
	"maltotriose-of-carbohydrate": func(r mash.Result) float64 { return 100 * r.Wort.Maltotriose / (1 - r.Wort.Other) },
	"dextrin-of-carbohydrate":     func(r mash.Result) float64 { return 100 * r.Wort.Dextrin / (1 - r.Wort.Other) },
	"beta-left":                   func(r mash.Result) float64 { return 100 * r.BetaLeft },
	"alpha-left":                  func(r mash.Result) float64 { return 100 * r.AlphaLeft },
	"carbohydrate-extracted":      func(r mash.Result) float64 { return 100 * (1 - r.StarchLeft) },
	"reducing-sugar":              func(r mash.Result) float64 { return 100 * reducing(r.Wort) },
}

// reducing is copper-reducing sugar as maltose. A gram of a sugar counts for
// so many of maltose: glucose and fructose 1.6, maltotriose 0.68, dextrin 0.15
// (from memory; by reducing ends alone it would be 1.9, 0.68 and 0.2).
func reducing(s sugar.Spectrum) float64 {
	return 1.6*(s.Glucose+s.Fructose) + s.Maltose + 0.68*s.Maltotriose + 0.15*s.Dextrin
}

type runAt func(tC, minutes float64) (mash.Result, error)

// whole are the quantities that need more than one mash, or none.
var whole = map[string]func(mash.Kinetics, Row, runAt) (float64, error){
	"sugar-of-reference": func(k mash.Kinetics, r Row, at runAt) (float64, error) {
		a, err := at(r.TemperatureC, r.Minutes)
		if err != nil {
			return 0, err
		}
		b, err := at(65, 60)
		if err != nil {
			return 0, err
		}
		return 100 * a.ExtractKg * a.Wort.Sugars() / (b.ExtractKg * b.Wort.Sugars()), nil
	},
	"attenuation-difference": func(k mash.Kinetics, r Row, at runAt) (float64, error) {
		return difference(r, at, func(x mash.Result) float64 { return mash.LimitAttenuationPct(x.Wort) })
	},
	"extract-difference": func(k mash.Kinetics, r Row, at runAt) (float64, error) {
		return difference(r, at, func(x mash.Result) float64 { return 100 * x.Conversion })
	},
	"optimum-fermentable-extract": func(k mash.Kinetics, r Row, at runAt) (float64, error) {
		best, bestC := 0.0, 0.0
		for t := 55.0; t <= 75; t += 0.05 {
			x, err := at(t, r.Minutes)
			if err != nil {
				return 0, err
			}
			if v := x.ExtractKg * x.Wort.Sugars(); v > best {
				best, bestC = v, t
			}
		}
		return bestC, nil
	},
	// The middle of the band over a span of temperatures, doubted response and
	// all, in equal steps.
	"limit-attenuation-middle": func(k mash.Kinetics, r Row, at runAt) (float64, error) {
		const steps = 7
		d := mash.Doubt{Response: mash.ResponseQuantile(0.5)}
		var sum float64
		for i := range steps + 1 {
			x, err := at(d.EffectiveC(r.TemperatureC+(r.OtherC-r.TemperatureC)*float64(i)/steps), r.Minutes)
			if err != nil {
				return 0, err
			}
			sum += mash.LimitAttenuationPct(x.Wort)
		}
		return sum / (steps + 1), nil
	},
	// Beta-amylase in a solution of 500 mM maltose, no starch: plain first order.
	"beta-left-in-maltose": func(k mash.Kinetics, r Row, _ runAt) (float64, error) {
		const maltoseMolL = 0.5
		return 100 * math.Exp(-r.Minutes*k.BetaLossAt(r.TemperatureC, maltoseMolL)), nil
	},
	"beta-half-life": func(k mash.Kinetics, r Row, _ runAt) (float64, error) {
		return math.Ln2 / k.BetaLossAt(r.TemperatureC, 0), nil
	},
	// The congress mash (EBC; from memory): 30 min at 45 °C, 1 K/min to 70 °C,
	// 60 min there; 4 L/kg and 6 after the hot addition, 5 taken; 8.6 °P.
	"congress-rdf": func(k mash.Kinetics, r Row, _ runAt) (float64, error) {
		g, err := grains(r.Grist)
		if err != nil {
			return 0, err
		}
		x, err := k.Run(mash.Input{Grain: g, LiquorLPerKg: 5, HeatKPerMin: 1, Tolerance: tolerance,
			Rests: []mash.Rest{{TemperatureC: 45, Minutes: 30}, {TemperatureC: 70, Minutes: 60}}})
		if err != nil {
			return 0, err
		}
		const oe = 8.6
		return alcohol.RDF(oe, alcohol.RealExtractAfter(oe, x.Wort.Sugars())), nil
	},
}

func difference(r Row, at runAt, of func(mash.Result) float64) (float64, error) {
	a, err := at(r.TemperatureC, r.Minutes)
	if err != nil {
		return 0, err
	}
	b, err := at(r.OtherC, r.Minutes)
	if err != nil {
		return 0, err
	}
	return of(a) - of(b), nil
}
