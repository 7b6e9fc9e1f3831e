package basics

import (
	"fmt"

	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/record"
)

const (
	cutaia   = "Cutaia, Reid and Speers, J. Inst. Brew. 115:318-327, 2009, Table III"
	hmrc     = "HMRC Notice 226 (Beer Duty), section 30.3, column % ABV"
	eckhardt = "Balling's table of alcohol factors, after F. Eckhardt 1995"
	bulletin = "Tolman and Riley, USDA Bulletin 493, 1917, Table I (all-malt)"
	sheet    = "a maltster's brewing-calculation sheet"
)

// Alcohol is the record of package alcohol.
func Alcohol() []record.Row {
	rows := []record.Row{{
		Quantity: "extract for one gram of ethanol: ethanol, CO2 and yeast together", Unit: "g",
		Published: 2.0665, Source: "Balling, course formula sheet; Nielsen and others; EBC", Tolerance: 1e-12,
		Ours: 1 + alcohol.CO2PerEthanol + alcohol.YeastPerEthanol,
	}}
	rows = append(rows, cutaiaRows()...)
	rows = append(rows, dutyRows()...)
	rows = append(rows, oimlRows()...)
	rows = append(rows, bulletinRows()...)
	return append(rows, factorRows()...)
}

func cutaiaRows() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct {
		name            string
		oe, abw, re, ae float64
	}{
		{"pilot brewery I, mean of 92", 14.08, 4.72, 5.28, 3.11},
		{"pilot brewery II, mean of 112", 14.54, 5.14, 4.88, 2.53},
	} {
		re := alcohol.RealExtract(r.oe, r.ae)
		rows = append(rows,
			record.Row{
				Quantity: "alcohol by the chained Balling formulas, " + r.name, Unit: "% w/w",
				Published: r.abw, Source: cutaia, Ours: alcohol.ABW(r.oe, re), Tolerance: 0.03 * r.abw,
			},
			record.Row{
				Quantity: "alcohol by Cutaia's formula, " + r.name, Unit: "% w/w",
				Published: r.abw, Source: cutaia, Ours: alcohol.CutaiaABW(r.oe, r.ae), Tolerance: 0.03 * r.abw,
			},
			record.Row{
				Quantity: "real extract from original and apparent, " + r.name, Unit: "°P",
				Published: r.re, Source: cutaia, Ours: re, Tolerance: 0.1,
				Why: "0.1808/0.8192 gives real extract 0.1 to 0.2 °P low; the bias cancels in the chain to alcohol",
			},
			record.Row{
				Quantity: "original extract from alcohol and real extract, " + r.name, Unit: "°P",
				Published: r.oe, Source: cutaia, Ours: alcohol.OriginalExtract(r.abw, r.re), Tolerance: 0.35,
				Why: "tolerance: means of a non-linear relation, and the alcohol that evaporates (2 to 3 % of it)",
			})
	}
	// The sheet prints the formula without the bracket, which can't be meant.
	re := alcohol.RealExtract(12, 2.5)
	abw := alcohol.ABW(12, re)
	return append(rows, record.Row{
		Quantity: "real extract from apparent extract and alcohol, OE 12, AE 2.5", Unit: "°P",
		Published: 2.5 + (0.4654*abw-0.003615*abw*abw)/0.9962, Source: sheet, Ours: re, Tolerance: 0.2,
		Why: "tolerance: the bias of 0.1 to 0.2 °P that Cutaia reports",
	})
}

func dutyRows() []record.Row {
	var rows []record.Row
	// The upper end of each row; the column's lower ends repeat the row before,
	// though the factor jumps there.
	for _, r := range [...]struct{ degrees, pct float64 }{
		{6.9, 0.8}, {10.4, 1.3}, {17.2, 2.1}, {26.1, 3.3}, {36.0, 4.6}, {46.5, 6.0},
		{57.1, 7.5}, {67.9, 9.0}, {78.8, 10.5}, {89.7, 12.0}, {100.7, 13.6},
	} {
		uncut, _, err := alcohol.DutyStrength(1+r.degrees/1000, 1)
		row := record.Row{
			Quantity: fmt.Sprintf("excise strength, %.1f degrees attenuated", r.degrees), Unit: "% v/v",
			Published: r.pct, Source: hmrc, Ours: uncut, Tolerance: 0.1,
		}
		if err != nil {
			row.Verdict, row.Why = "misses", err.Error()
		}
		rows = append(rows, row)
	}
	return rows
}

func oimlRows() []record.Row {
	pure, _ := alcohol.DensityKgM3(1, 20)
	water, _ := alcohol.DensityKgM3(0, 20)
	rows := []record.Row{
		{
			Quantity: "density of ethanol at 20 °C", Unit: "kg/m³", Published: 789.239,
			Source: "tests of public implementations of OIML R 22 (0.789239 g/mL)", Ours: pure, Tolerance: 5e-4,
		},
		{
			Quantity: "density of water at 20 °C by the alcohol tables", Unit: "kg/m³", Published: 998.206,
			Source: if97, Ours: water, Tolerance: 0.01,
		},
	}
	for _, t := range []float64{5, 10, 30, 40} {
		ours, _ := alcohol.DensityKgM3(0, t)
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("density of water at %.0f °C by the alcohol tables", t), Unit: "kg/m³",
			Published: density.WaterDensityKgM3(t), Source: "Kell's water density", Ours: ours, Tolerance: 0.02,
		})
	}
	return rows
}

// bulletinRows: strength by gravity against the distilled alcohol of 1911.
func bulletinRows() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct{ wort, beer, alcohol100mL, extract100mL, wort100mL float64 }{
		{1.0518, 1.0125, 3.85, 5.16, 13.75}, {1.0517, 1.0124, 3.91, 5.16, 13.71},
		{1.0517, 1.0130, 3.72, 5.22, 13.70}, {1.0515, 1.0147, 3.66, 5.66, 13.68},
		{1.0454, 1.0180, 2.87, 6.16, 12.02},
	} {
		s := alcohol.Strength(r.wort, r.beer)
		perVolume := density.KgM3FromSG(r.beer) / 1000
		shortPct := 100 * (1 - alcohol.ExtractPerEthanol*r.alcohol100mL/(r.wort100mL-r.extract100mL))
		tables := "which table turned gravity into extract is not known; its extracts lie 1 to 4 % above the sucrose table throughout"
		rows = append(rows,
			record.Row{
				Quantity: fmt.Sprintf("alcohol of a beer, wort %.4f, beer %.4f", r.wort, r.beer), Unit: "g/100 mL",
				Published: r.alcohol100mL, Source: bulletin, Ours: s.ABWPct * perVolume, Tolerance: 0.05 * r.alcohol100mL,
				Why: fmt.Sprintf("by the bulletin's own extracts the alcohol found is %.0f %% short of Balling (evaporation, sampling)", shortPct),
			},
			record.Row{
				Quantity: fmt.Sprintf("real extract of a beer, wort %.4f, beer %.4f", r.wort, r.beer), Unit: "g/100 mL",
				Published: r.extract100mL, Source: bulletin, Ours: s.RealExtractPlato * perVolume, Tolerance: 0.2,
				Why: "the formula gives real extract 0.1 to 0.2 °P low; and " + tables,
			},
			record.Row{
				Quantity: fmt.Sprintf("extract of a wort, %.4f", r.wort), Unit: "g/100 mL",
				Published: r.wort100mL, Source: bulletin, Tolerance: 0.25,
				Ours: density.GramsPerLitre(density.PlatoFromSG(r.wort)) / 10, Why: tables,
			})
	}
	return rows
}

func factorRows() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct{ oe, factor float64 }{
		{6, 0.4073}, {8, 0.4110}, {10, 0.4148}, {12, 0.4187}, {14, 0.4226}, {16, 0.4267}, {18, 0.4309},
		{20, 0.4351}, {25, 0.4462}, {30, 0.4580},
	} {
		ae := r.oe / 4 // the factor doesn't depend on it
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("alcohol by mass for 1 °P of apparent drop at %.0f °P", r.oe), Unit: "% w/w",
			Published: r.factor, Source: eckhardt, Tolerance: 0.002,
			Ours: alcohol.ABW(r.oe, alcohol.RealExtract(r.oe, ae)) / (r.oe - ae),
			Why:  "we use the modern line 0.1808/0.8192, which lies 0.4 % (6 °P) to 2.4 % (30 °P) above Balling's own table",
		})
	}
	return rows
}
