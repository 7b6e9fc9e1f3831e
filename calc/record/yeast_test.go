package record_test

import (
	"math"

	"skep/calc/density"
	"skep/calc/ferment"
	"skep/calc/record"
	"skep/calc/stress"
	"skep/calc/sugar"
	"skep/calc/yeast"
)

// yeasts is testdata/yeast: package stress, and courses of package ferment that hang
// on gravity and pitch.
func yeasts() map[string]func(record.Given) float64 {
	input := func(g record.Given) stress.Input {
		return stress.Input{
			OriginalPlato: g.NumOr("plato", 0), MaltPlato: g.NumOr("malt_plato", 0), HoneyGPerL: g.NumOr("honey_g_l", 0),
			NutrientGPerL: g.NumOr("nutrient_g_l", 0), PitchBillionPerL: g.NumOr("pitch", 0), StrengthPct: g.NumOr("strength", 0),
		}
	}
	return map[string]func(record.Given) float64{
		"need":     func(g record.Given) float64 { in := input(g); return in.NeedMgPerL() },
		"pace":     func(g record.Given) float64 { in := input(g); return in.Pace() },
		"nitrogen": func(g record.Given) float64 { in := input(g); return in.NitrogenMgPerL() },
		"salt":     func(record.Given) float64 { return stress.PerNutrientG },
		"oxygen":   func(g record.Given) float64 { return stress.OxygenG(g.Num("litres"), g.Num("mg_l")) },
		"stopped":  func(g record.Given) float64 { return stress.StopRisk(input(g)) },
		"alcohol": func(g record.Given) float64 {
			for _, s := range stress.Of(input(g)) {
				if s.What == stress.Alcohol {
					return s.Risk
				}
			}
			return 0 // not worth a line
		},
		"hours-nine-tenths": func(g record.Given) float64 {
			return hoursTo(0.9, g.Num("plato"), g.Num("temperature_c"), g.Num("pitch"))
		},
		"hours-ratio": func(g record.Given) float64 {
			return hoursTo(0.5, g.Num("plato"), 20, g.Num("pitch")) / hoursTo(0.5, 12, 20, 9)
		},
	}
}

// hoursTo is when a share of the attenuation of an all-malt wort is done.
func hoursTo(share, plato, temperatureC, pitch float64) float64 {
	wort := sugar.Spectrum{Fructose: 0.015, Glucose: 0.08, Sucrose: 0.04, Maltose: 0.43, Maltotriose: 0.13, Dextrin: 0.22, Other: 0.085}
	c, err := ferment.Run(ferment.Input{
		Wort: wort.Times(density.GramsPerLitre(plato)), Take: yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 0.5},
		TemperatureC: temperatureC, PitchBillionPerL: pitch,
	})
	if err != nil {
		return math.NaN()
	}
	for i, a := range c.Attenuated {
		if a >= share {
			return c.Hours[i]
		}
	}
	return math.NaN()
}
