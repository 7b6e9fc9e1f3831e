package brewday

import (
	"fmt"

	"skep/calc/carbonation"
	"skep/calc/record"
	"skep/calc/units"
)

const (
	crc     = "CRC Handbook, p. 8-90, 100 kPa"
	murray  = "Murray & Riley 1971, IUPAC-NIST database 106, 62_54"
	carroll = "Carroll, Slupsky & Mather 1991, formula worked out"
	chart   = "regression of the ASBC chart, as posted by home brewers, worked out"
	balling = "Balling, worked out"
	exact   = "Balling per litre of finished beer, worked out"
)

// Solubility is carbon dioxide in water.
func Solubility() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct{ t, x float64 }{
		{0, 1.337}, {5, 1.123}, {10, 0.950}, {15, 0.814}, {20, 0.704}, {25, 0.614}, {35, 0.481}, {40, 0.431},
		{45, 0.389}, {50, 0.354}, {60, 0.300}, {70, 0.261}, {80, 0.232}, {90, 0.211}, {100, 0.196},
	} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("mole fraction of CO2 in water, %v °C, 100 kPa", r.t), Unit: "1/1000", Published: r.x, Source: crc, Ours: 1000 * carbonation.MoleFraction(r.t, 100), Tolerance: 0.01 * r.x})
	}
	for _, r := range [...]struct{ p, x float64 }{{5, 0.035}, {10, 0.071}, {20, 0.141}, {30, 0.212}, {40, 0.283}, {50, 0.353}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("mole fraction of CO2 in water, 20 °C, %v kPa", r.p), Unit: "1/1000", Published: r.x, Source: crc, Ours: 1000 * carbonation.MoleFraction(20, r.p), Tolerance: 0.0012 + 0.005*r.x})
	}
	for _, r := range [...]struct{ t, bunsen float64 }{
		{1.04, 1.6471}, {10, 1.1926}, {15, 1.0100}, {20, 0.8652}, {25, 0.7519}, {32, 0.6336}, {35, 0.5905},
	} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("volumes of CO2 in water, %v °C, 1 atm", r.t), Unit: "volumes", Published: r.bunsen, Source: murray, Ours: carbonation.Volumes(r.t, 101.325), Tolerance: 0.02 * r.bunsen,
			Why: "these measurements lie up to 2.6 % below Carroll's evaluation, which the handbook's table supports"})
	}
	for _, r := range [...]struct{ t, g, v float64 }{
		{0, 3.336, 1.687}, {5, 2.796, 1.414}, {10, 2.368, 1.198}, {15, 2.025, 1.025}, {20, 1.749, 0.885},
		{25, 1.525, 0.771}, {30, 1.341, 0.678}, {35, 1.190, 0.602}, {40, 1.064, 0.538},
	} {
		rows = append(rows,
			record.Row{Quantity: fmt.Sprintf("CO2 in water, %v °C, 1 atm", r.t), Unit: "g/L", Published: r.g, Source: carroll, Ours: carbonation.GramsPerLitre(r.t, 101.325), Tolerance: 0.002},
			record.Row{Quantity: fmt.Sprintf("CO2 in water, %v °C, 1 atm", r.t), Unit: "volumes", Published: r.v, Source: carroll, Ours: carbonation.Volumes(r.t, 101.325), Tolerance: 0.001})
	}
	return rows
}

// Beer is carbon dioxide in beer: the chart, both ways, and what stays.
func Beer() []record.Row {
	var rows []record.Row
	wanted := [...]float64{2.0, 2.2, 2.4, 2.5, 2.6, 2.8, 3.0}
	gauges := [...]float64{0, 10, 12, 15}
	for _, r := range [...]struct {
		f   float64
		psi [7]float64
		vol [4]float64
	}{
		{32, [7]float64{3.48, 5.38, 7.27, 8.22, 9.16, 11.05, 12.92}, [4]float64{1.621, 2.669, 2.879, 3.193}},
		{38, [7]float64{5.99, 8.09, 10.20, 11.25, 12.29, 14.39, 16.47}, [4]float64{1.443, 2.395, 2.585, 2.871}},
		{40, [7]float64{6.84, 9.02, 11.19, 12.27, 13.36, 15.52, 17.67}, [4]float64{1.387, 2.309, 2.493, 2.769}},
		{45, [7]float64{9.02, 11.37, 13.72, 14.89, 16.06, 18.39, 20.72}, [4]float64{1.257, 2.106, 2.275, 2.530}},
		{50, [7]float64{11.25, 13.78, 16.30, 17.56, 18.81, 21.32, 23.82}, [4]float64{1.140, 1.920, 2.076, 2.310}},
		{60, [7]float64{15.90, 18.77, 21.64, 23.07, 24.50, 27.35, 30.20}, [4]float64{0.942, 1.601, 1.733, 1.931}},
		{68, [7]float64{19.79, 22.94, 26.08, 27.65, 29.22, 32.35, 35.48}, [4]float64{0.819, 1.396, 1.511, 1.684}},
	} {
		c := units.CelsiusFromFahrenheit(r.f)
		for i, psi := range r.psi {
			bar := units.BarFromPSI(psi)
			rows = append(rows, record.Row{Quantity: fmt.Sprintf("pressure for %v volumes at %v °F", wanted[i], r.f), Unit: "bar gauge", Published: bar, Source: chart, Ours: carbonation.ChartBarGauge(c, wanted[i]), Tolerance: 0.001})
			if bar <= carbonation.MaxChartBar {
				rows = append(rows, record.Row{Quantity: fmt.Sprintf("volumes at %v °F and %.2f psi, first regression", r.f, psi), Unit: "volumes", Published: wanted[i], Source: chart, Ours: carbonation.ChartVolumes(c, bar), Tolerance: 0.05})
			}
		}
		for i, v := range r.vol {
			rows = append(rows, record.Row{Quantity: fmt.Sprintf("volumes at %v °F and %v psi, second regression", r.f, gauges[i]), Unit: "volumes", Published: v, Source: chart, Ours: carbonation.ChartVolumes(c, units.BarFromPSI(gauges[i])), Tolerance: 0.05})
		}
	}
	for _, r := range [...]struct{ t, v float64 }{{0, 1.708}, {4, 1.483}, {8, 1.287}, {10, 1.199}, {12, 1.117}, {15, 1.009}, {18, 0.915}, {20, 0.861}, {22, 0.815}, {25, 0.757}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("CO2 kept at %v °C", r.t), Unit: "volumes", Published: r.v, Source: "regression as posted by home brewers, worked out", Ours: carbonation.ResidualVolumes(r.t), Tolerance: 0.001})
	}
	return rows
}

// Bottles is priming, over-carbonation and pressure.
func Bottles() []record.Row {
	perVolume := func(primer string, moisture float64) float64 {
		return carbonation.PrimerGPerL(primer, moisture, 0, 1)
	}
	kept := carbonation.ResidualVolumes(20)
	rows := []record.Row{
		{Quantity: "one volume of CO2", Unit: "g/L", Published: 1.9768, Source: "44.0095 g/mol over 22.263 L/mol", Ours: carbonation.GramsPerVolume, Tolerance: 1e-4},
		{Quantity: "sucrose for a volume", Unit: "g/L", Published: 3.844, Source: mass, Ours: perVolume(carbonation.TableSugar, 0), Tolerance: 0.001},
		{Quantity: "dextrose monohydrate for a volume", Unit: "g/L", Published: 4.451, Source: mass, Ours: perVolume(carbonation.Dextrose, 0), Tolerance: 0.001},
		{Quantity: "honey of 17.2 % water for a volume", Unit: "g/L", Published: 5.1, Source: "atomic masses, 95 % of solids fermentable assumed", Ours: perVolume(carbonation.Honey, 17.2), Tolerance: 0.15, Why: "ours takes 93 %"},
		{Quantity: "wort extract fermented for a volume", Unit: "g/L", Published: 4.271, Source: balling, Ours: 1 / carbonation.VolumesFromExtract(1), Tolerance: 0.001},
		{Quantity: "sucrose for 20 L at 20 °C to 2.4 volumes", Unit: "g", Published: 118.3, Source: mass, Ours: 20 * carbonation.PrimerGPerL(carbonation.TableSugar, 0, kept, 2.4), Tolerance: 0.1},
		{Quantity: "dextrose monohydrate for the same", Unit: "g", Published: 137.0, Source: mass, Ours: 20 * carbonation.PrimerGPerL(carbonation.Dextrose, 0, kept, 2.4), Tolerance: 0.1},
	}
	for _, r := range [...]struct{ oe, from, to, grams, volumes float64 }{
		{8, 1.006, 1.005, 0.988, 0.500}, {12, 1.010, 1.009, 0.993, 0.503}, {16, 1.010, 1.009, 0.997, 0.505},
		{20, 1.020, 1.019, 1.005, 0.508}, {12, 1.014, 1.010, 3.978, 2.012},
	} {
		v := carbonation.VolumesFromExtract(carbonation.ExtractBetween(r.oe, r.from, r.to))
		rows = append(rows,
			record.Row{Quantity: fmt.Sprintf("CO2 from %v to %v, wort of %v °P", r.from, r.to, r.oe), Unit: "g/L", Published: r.grams, Source: exact, Ours: v * carbonation.GramsPerVolume, Tolerance: 0.001},
			record.Row{Quantity: fmt.Sprintf("CO2 from %v to %v, wort of %v °P", r.from, r.to, r.oe), Unit: "volumes", Published: r.volumes, Source: exact, Ours: v, Tolerance: 0.001})
	}
	volumes := [...]float64{2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0, 8.0}
	for _, r := range [...]struct {
		t   float64
		bar [8]float64
	}{
		{5, [8]float64{1.43, 1.79, 2.15, 2.50, 2.86, 3.57, 4.28, 5.70}},
		{10, [8]float64{1.69, 2.11, 2.53, 2.96, 3.38, 4.22, 5.06, 6.73}},
		{20, [8]float64{2.29, 2.86, 3.43, 4.00, 4.57, 5.71, 6.84, 9.11}},
		{25, [8]float64{2.62, 3.28, 3.93, 4.59, 5.24, 6.55, 7.85, 10.45}},
		{30, [8]float64{2.98, 3.73, 4.47, 5.22, 5.96, 7.44, 8.92, 11.88}},
		{40, [8]float64{3.76, 4.70, 5.64, 6.57, 7.51, 9.38, 11.25, 14.97}},
	} {
		for i, bar := range r.bar {
			rows = append(rows, record.Row{Quantity: fmt.Sprintf("pressure of %v volumes at %v °C", volumes[i], r.t), Unit: "bar absolute", Published: bar, Source: carroll, Ours: carbonation.PressureKPa(r.t, volumes[i]) / 100, Tolerance: 0.01})
		}
	}
	return rows
}
