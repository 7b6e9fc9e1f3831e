package record_test

import (
	"math"

	"skep/calc/carbonation"
	"skep/calc/record"
	"skep/calc/units"
)

// carbonations is testdata/carbonation: package carbonation.
func carbonations() map[string]func(record.Given) float64 {
	fall := func(g record.Given) float64 {
		return carbonation.VolumesFromExtract(carbonation.ExtractBetween(g.Num("original_plato"), g.Num("from_sg"), g.Num("to_sg")))
	}
	return map[string]func(record.Given) float64{
		"mole-fraction-in-water": func(g record.Given) float64 {
			return 1000 * carbonation.MoleFraction(g.Num("temperature_c"), g.Num("kpa"))
		},
		"volumes-in-water": func(g record.Given) float64 { return carbonation.Volumes(g.Num("temperature_c"), g.Num("kpa")) },
		"grams-in-water":   func(g record.Given) float64 { return carbonation.GramsPerLitre(g.Num("temperature_c"), g.Num("kpa")) },
		"chart-pressure": func(g record.Given) float64 {
			return carbonation.ChartBarGauge(units.CelsiusFromFahrenheit(g.Num("temperature_f")), g.Num("volumes"))
		},
		"chart-volumes": func(g record.Given) float64 {
			return carbonation.ChartVolumes(units.CelsiusFromFahrenheit(g.Num("temperature_f")), units.BarFromPSI(g.Num("psi")))
		},
		"residual":         func(g record.Given) float64 { return carbonation.ResidualVolumes(g.Num("temperature_c")) },
		"grams-per-volume": func(record.Given) float64 { return carbonation.GramsPerVolume },
		"primer": func(g record.Given) float64 {
			from := g.Num("from_volumes")
			if warmest := g.Num("warmest_c"); !math.IsNaN(warmest) {
				from = carbonation.ResidualVolumes(warmest)
			}
			return g.Num("litres") * carbonation.PrimerGPerL(g.Word("primer"), g.Num("moisture_pct"), from, g.Num("to_volumes"))
		},
		"extract-per-volume": func(record.Given) float64 { return 1 / carbonation.VolumesFromExtract(1) },
		"grams-from-fall":    func(g record.Given) float64 { return fall(g) * carbonation.GramsPerVolume },
		"volumes-from-fall":  fall,
		"pressure-in-bottle": func(g record.Given) float64 {
			return carbonation.PressureKPa(g.Num("temperature_c"), g.Num("volumes")) / 100
		},
	}
}
