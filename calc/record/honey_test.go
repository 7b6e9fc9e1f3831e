package record_test

import (
	"math"

	"skep/calc/density"
	"skep/calc/honey"
	"skep/calc/record"
	"skep/calc/units"
)

// honeys is testdata/honey: package honey.
func honeys() map[string]func(record.Given) float64 {
	return map[string]func(record.Given) float64{
		"moisture-of-honey": func(g record.Given) float64 { return orNaN(honey.MoisturePct(g.Num("refractive_index"), 20)) },
		"density-of-honey":  func(g record.Given) float64 { return honey.DensityKgL(g.Num("moisture_pct"), 20) },
		"gravity-of-honey": func(g record.Given) float64 {
			return density.SGFromKgM3(1000 * honey.DensityKgL(g.Num("moisture_pct"), 20))
		},
		// Gravity points times litres for a kilogram in 20 L.
		"points-of-honey": func(g record.Given) float64 {
			const litres = 20
			p := density.PlatoFromGramsPerLitre(1000 * honey.SolidsKg(1, g.Num("moisture_pct")) / litres)
			return units.PointsFromSG(density.SGFromPlato(p)) * litres
		},
		"sugar-of-honey": func(g record.Given) float64 {
			s, err := honey.Composition(g.Num("moisture_pct"), honey.Blossom)
			if err != nil {
				return math.NaN()
			}
			pct := s.Times(100 - g.Num("moisture_pct"))
			switch g.Word("sugar") {
			case "fructose":
				return pct.Fructose
			case "glucose":
				return pct.Glucose
			case "sucrose":
				return pct.Sucrose
			case "maltose type and higher sugars":
				return pct.Maltose + pct.Dextrin
			}
			return math.NaN()
		},
		"diastase-half-life": func(g record.Given) float64 { return orNaN(honey.DiastaseHalfLifeHours(g.Num("temperature_c"))) },
		"aroma-whirlpool-over-cellar": func(record.Given) float64 {
			late := honey.Retained(honey.CharacterInput{GramsPerL: 1, Moment: honey.Whirlpool, CO2VolumesAfter: 20})
			cellar := honey.Retained(honey.CharacterInput{GramsPerL: 1, Moment: honey.Fermenting, CO2VolumesAfter: 3})
			return late.Mid / cellar.Mid
		},
	}
}
