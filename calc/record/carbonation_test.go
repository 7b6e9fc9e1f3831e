package record_test

import (
	"math"

	"skep/calc/carbonation"
	"skep/calc/record"
	"skep/calc/units"
	"skep/calc/water"
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
		// What a regulator set to so much makes beer hold: the volumes whose setting
		// it is.
		"keg-volumes": func(g record.Given) float64 {
			c, bar := units.CelsiusFromFahrenheit(g.Num("temperature_f")), units.BarFromPSI(g.Num("psi"))
			low, high := 0.5, 6.0
			for range 60 {
				if mid := (low + high) / 2; carbonation.KegBarGauge(c, mid, 0) < bar {
					low = mid
				} else {
					high = mid
				}
			}
			return low
		},
		"keg-altitude": func(g record.Given) float64 {
			return carbonation.KegBarGauge(4, 2.5, water.AirPressureKPa(g.Num("altitude_m"))) - carbonation.KegBarGauge(4, 2.5, 0)
		},
		"keg-psi": func(g record.Given) float64 {
			const metresPerFoot = 0.3048
			air := water.AirPressureKPa(g.Num("altitude_ft") * metresPerFoot)
			return units.PSIFromBar(carbonation.KegBarGauge(units.CelsiusFromFahrenheit(g.Num("temperature_f")), g.Num("volumes"), air))
		},
		"bottle-psi": func(g record.Given) float64 {
			return units.PSIFromBar(carbonation.BottleBarGauge(units.CelsiusFromFahrenheit(g.Num("temperature_f")), g.Num("volumes")))
		},
		"residual-altitude": func(g record.Given) float64 {
			c := g.Num("temperature_c")
			return carbonation.ResidualVolumesAt(c, water.AirPressureKPa(g.Num("altitude_m"))) / carbonation.ResidualVolumes(c)
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
