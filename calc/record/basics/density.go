package basics

import (
	"fmt"

	"skep/calc/density"
	"skep/calc/record"
	"skep/calc/units"
)

const (
	usda      = "US Department of Agriculture, sucrose conversion table, file code 135-A-50 (NBS Circular C440 scale), as quoted on a public page"
	nbsCubic  = "cubic fitted to the NBS table, 0 to 40 °Bx, RMS 0.0009 (encyclopaedia table page and a mirror)"
	asbcPlain = "ASBC cubic as printed (encyclopaedia table page)"
	buhl      = "J. Buhl, Physical Equations Relating Extract and Relative Density, 2024, abstract: 260.4 - 260.4/S, RMS below 0.023 °P"
	if97      = "IAPWS-IF97 at 101.325 kPa (Debian python3-iapws 1.5.3)"
	musther   = "J. Musther, a laboratory page: reading · f(t)/f(calibration), cubic in °F"
	oiv       = "OIV compendium, Table I, refractometer temperature correction"
)

// Density is the record of package density.
func Density() []record.Row {
	rows := platoRows()
	rows = append(rows, extractRows()...)
	rows = append(rows, densityRows()...)
	rows = append(rows, hydrometerRows()...)
	return append(rows, OIV()...)
}

func platoRows() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct{ brix, sg float64 }{
		{0, 1}, {0.1, 1.00039}, {0.2, 1.00078}, {0.3, 1.00117}, {3.8, 1.01490},
		{4, 1.01569}, {7.6, 1.03017}, {7.8, 1.03098},
	} {
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("specific gravity at %.2f °P", r.brix), Unit: "SG",
			Published: r.sg, Source: usda, Ours: density.SGFromPlato(r.brix), Tolerance: 1e-5,
		})
	}
	for _, sg := range []float64{1.005, 1.010, 1.020, 1.030, 1.040, 1.050, 1.060, 1.070, 1.080, 1.090, 1.100, 1.120} {
		row := record.Row{
			Quantity: fmt.Sprintf("extract at SG %.3f", sg), Unit: "°P",
			Published: ((182.46007*sg-775.68212)*sg+1262.7794)*sg - 669.56218,
			Source:    nbsCubic, Ours: density.PlatoFromSG(sg), Tolerance: 0.002,
		}
		if sg >= 1.09 {
			row.Tolerance = 0.02
			row.Why = "the two cubics part above about 24 °P (0.005 °P at 1.100)"
		}
		rows = append(rows, row)
		if sg < 1.07 {
			rows = append(rows, record.Row{
				Quantity: fmt.Sprintf("extract at SG %.3f", sg), Unit: "°P",
				Published: 260.4 - 260.4/sg, Source: buhl, Ours: density.PlatoFromSG(sg), Tolerance: 0.046,
				Why: "tolerance: two of the fit's RMS",
			})
		}
	}
	plain := func(sg float64) float64 { return ((135.997*sg-630.272)*sg+1111.14)*sg - 616.868 }
	return append(rows,
		record.Row{
			Quantity: "extract at SG 1.010, the printed cubic untouched", Unit: "°P",
			Published: plain(1.010), Source: asbcPlain, Ours: density.PlatoFromSG(1.010), Tolerance: 1e-9,
		},
		record.Row{
			Quantity: "extract of water", Unit: "°P", Published: plain(1), Source: asbcPlain,
			Ours: density.PlatoFromSG(1), Tolerance: 1e-9,
			Why: "meant: the printed cubic gives -0.003 °P for water; ours is exactly 0, the difference dies out by 1 °P",
		},
		record.Row{
			Quantity: "specific gravity at 12 °P", Unit: "SG", Published: 1.0484,
			Source: "1 + P/(258.6 - 227.1 P/258.2), worked on a public calculator page",
			Ours:   density.SGFromPlato(12), Tolerance: 5e-5,
		},
	)
}

func extractRows() []record.Row {
	rows := []record.Row{{
		Quantity: "extract of a US barrel of wort at 12 °P", Unit: "lb", Published: 32.45,
		Source:    "a public page quoting J. Mallett and the ASBC",
		Ours:      units.PoundsFromKilograms(density.GramsPerLitre(12) / 1000 * units.LitresPerUSBarrel),
		Tolerance: 0.05,
	}}
	for _, r := range [...]struct{ pct, gramsPerL float64 }{{10, 104}, {15, 159}, {20, 216}, {25, 276}} {
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("sugar in a solution of %.0f %%", r.pct), Unit: "g/L", Published: r.gramsPerL,
			Source: "a public table of sugar solutions, whole grams", Ours: density.GramsPerLitre(r.pct), Tolerance: 0.5,
		})
	}
	// 46 points·US gal/lb: one pound of sucrose made up to one US gallon.
	plato := density.PlatoFromGramsPerLitre(1000 * units.KilogramsPerPound / units.LitresPerUSGallon)
	return append(rows, record.Row{
		Quantity: "gravity of one pound of sucrose made up to one US gallon", Unit: "points", Published: 46,
		Source: "J. Palmer, How to Brew, table 9: cane sugar", Tolerance: 0.5,
		Ours: units.PointsFromSG(density.SGFromPlato(plato)),
	})
}

func densityRows() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct{ c, kgM3 float64 }{
		{10, 999.702}, {15, 999.101}, {20, 998.206}, {25, 997.048}, {40, 992.224},
		{60, 983.211}, {65, 980.566}, {70, 977.779}, {76, 974.256}, {80, 971.803}, {90, 965.319}, {95, 961.895},
	} {
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("density of water at %.0f °C", r.c), Unit: "kg/m³", Published: r.kgM3,
			Source: if97, Ours: density.WaterDensityKgM3(r.c), Tolerance: 0.03,
		})
	}
	for _, r := range [...]struct{ pct, sg float64 }{{3.8, 1.01490}, {4, 1.01569}, {7.6, 1.03017}, {7.8, 1.03098}} {
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("specific gravity of %.1f %% sucrose by the density polynomial, in air", r.pct), Unit: "SG",
			Published: r.sg, Source: usda, Tolerance: 3e-5,
			Ours: density.SGFromKgM3(density.SucroseDensityKgM3(r.pct/100, 20)),
		})
	}
	for _, p := range []float64{5, 10, 15, 20} {
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("specific gravity at %.0f °P: extract cubic against sucrose density", p), Unit: "SG",
			Published: density.SGFromKgM3(density.SucroseDensityKgM3(p/100, 20)),
			Source:    "sucrose density polynomial (Llano-Restrepo 2005)", Ours: density.SGFromPlato(p), Tolerance: 1e-4,
			Why: "tolerance: a tenth of a gravity point; the two tables part by 5e-5 at 20 °P",
		})
	}
	return rows
}

func hydrometerRows() []record.Row {
	f := func(c float64) float64 {
		t := units.FahrenheitFromCelsius(c)
		return 1.00130346 - 0.000134722124*t + 2.04052596e-6*t*t - 2.32820948e-9*t*t*t
	}
	var rows []record.Row
	for _, r := range [...]struct{ reading, c float64 }{
		{1.000, 10}, {1.040, 10}, {1.060, 10}, {1.020, 15}, {1.060, 15}, {1.020, 25}, {1.050, 25},
		{1.000, 30}, {1.060, 30}, {1.020, 40}, {1.060, 40}, {1.000, 60},
	} {
		ours, err := density.HydrometerSG(r.reading, r.c, 20)
		row := record.Row{
			Quantity: fmt.Sprintf("hydrometer reading %.3f at %.0f °C, corrected to 20 °C", r.reading, r.c), Unit: "SG",
			Published: r.reading * f(r.c) / f(20), Source: musther, Ours: ours, Tolerance: 0.0005,
		}
		if r.c > density.HydrometerDoubtAboveC {
			row.Tolerance = 0.001
			row.Why = "above 40 °C the formulas in use part; the program warns"
		}
		if err != nil {
			row.Verdict, row.Why = "misses", err.Error()
		}
		rows = append(rows, row)
	}
	return rows
}

// OIV is the refractometer temperature correction. The rows at 10 and 15 °C
// are fitted, the others are checks.
func OIV() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct {
		c   float64
		add [3]float64
	}{
		{10, [3]float64{-0.59, -0.62, -0.65}},
		{12, [3]float64{-0.49, -0.51, -0.53}},
		{15, [3]float64{-0.32, -0.33, -0.34}},
		{16, [3]float64{-0.26, -0.27, -0.28}},
		{17, [3]float64{-0.20, -0.20, -0.21}},
	} {
		for i, brix := range [...]float64{10, 15, 20} {
			row := record.Row{
				Quantity: fmt.Sprintf("refractometer correction at %.0f °C, %.0f °Bx", r.c, brix), Unit: "°Bx",
				Published: r.add[i], Source: oiv, Ours: density.BrixAt20(brix, r.c) - brix, Tolerance: 0.01,
			}
			if r.c == 10 || r.c == 15 {
				row.Verdict, row.Why = Fitted, "least squares on the rows at 10 and 15 °C"
			}
			rows = append(rows, row)
		}
	}
	return rows
}
