package record_test

import (
	"math"
	"testing"

	"skep/calc/density"
	"skep/calc/leastsquares"
	"skep/calc/record"
	"skep/calc/units"
)

// densities is testdata/density: packages density and units.
func densities() map[string]func(record.Given) float64 {
	return map[string]func(record.Given) float64{
		"gravity-of-extract": func(g record.Given) float64 { return density.SGFromPlato(g.Num("plato")) },
		"extract-of-gravity": func(g record.Given) float64 { return density.PlatoFromSG(g.Num("sg")) },
		"extract-of-us-barrel": func(g record.Given) float64 {
			return units.PoundsFromKilograms(density.GramsPerLitre(g.Num("plato")) / 1000 * units.LitresPerUSBarrel)
		},
		"extract-per-litre": func(g record.Given) float64 { return density.GramsPerLitre(g.Num("plato")) },
		"points-of-a-pound-of-sucrose-in-a-gallon": func(record.Given) float64 {
			plato := density.PlatoFromGramsPerLitre(1000 * units.KilogramsPerPound / units.LitresPerUSGallon)
			return units.PointsFromSG(density.SGFromPlato(plato))
		},
		"density-of-water": func(g record.Given) float64 { return density.WaterDensityKgM3(g.Num("temperature_c")) },
		"gravity-by-density": func(g record.Given) float64 {
			return density.SGFromKgM3(density.SucroseDensityKgM3(g.Num("plato")/100, 20))
		},
		"hydrometer-at-20": func(g record.Given) float64 {
			return orNaN(density.HydrometerSG(g.Num("reading_sg"), g.Num("temperature_c"), 20))
		},
		"refractometer-correction": func(g record.Given) float64 {
			brix := g.Num("brix")
			return density.BrixAt20(brix, g.Num("temperature_c")) - brix
		},
	}
}

// orNaN turns a refusal into what no published value agrees with.
func orNaN(v float64, err error) float64 {
	if err != nil {
		return math.NaN()
	}
	return v
}

// TestRefractometerRefit: the three constants of the refractometer correction
// are least squares on the rows marked as fitted.
func TestRefractometerRefit(t *testing.T) {
	t.Parallel()
	var fitted []record.Row
	for _, r := range compared(t, "density", densities()) {
		if r.Compare == "refractometer-correction" && r.Verdict == "fitted" {
			fitted = append(fitted, r)
		}
	}
	correction := func(k []float64, brix, c float64) float64 {
		d := c - 20
		return d*k[0] + d*brix*k[1] + d*d*k[2]
	}
	fit, err := leastsquares.Minimise(func(dst, k []float64) {
		for i, r := range fitted {
			dst[i] = correction(k, r.Given.Num("brix"), r.Given.Num("temperature_c")) - r.Published
		}
	}, len(fitted), []float64{0, 0, 0})
	if err != nil {
		t.Fatal(err)
	}
	for _, brix := range []float64{0, 10, 25} {
		for _, c := range []float64{8, 13, 27} {
			if got, want := density.BrixAt20(brix, c)-brix, correction(fit.X, brix, c); math.Abs(got-want) > 1e-3 {
				t.Errorf("correction at %v °C, %v °Bx is %v, the refit gives %v", c, brix, got, want)
			}
		}
	}
}
