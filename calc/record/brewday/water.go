package brewday

import (
	"fmt"
	"math"

	"skep/calc/density"
	"skep/calc/record"
	"skep/calc/water"
)

const (
	if97  = "IAPWS-IF97, python3-iapws 1.5.3, 1 atm"
	steam = "university steam table"
	malts = "Pauls and Whites Brewing Room Book 1984/85, brewers' supplier's appendix 4"
	mass  = "atomic masses"
)

// Water is heat and density of water and mash.
func Water() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct{ t, rho, cp, latent, vapour float64 }{
		{10, 999.702, 4.1954, 2477.21, 1.2282}, {15, 999.101, 4.1891, 2465.38, 1.7057},
		{20, 998.206, 4.1848, 2453.55, 2.3392}, {25, 997.048, 4.1819, 2441.71, 3.1697},
		{40, 992.224, 4.1786, 2406.00, 7.3844}, {60, 983.211, 4.1828, 2357.69, 19.9458},
		{65, 980.566, 4.1852, 2345.43, 25.0411}, {70, 977.779, 4.1881, 2333.08, 31.2006},
		{76, 974.256, 4.1923, 2318.13, 40.2389}, {80, 971.803, 4.1955, 2308.07, 47.4147},
		{90, 965.319, 4.2050, 2282.56, 70.1824}, {95, 961.895, 4.2106, 2269.60, 84.6089},
		{100, 958.354, 4.2166, 2256.47, 101.418},
	} {
		rows = append(rows,
			record.Row{Quantity: fmt.Sprintf("density of water, %v °C", r.t), Unit: "kg/m³", Published: r.rho, Source: if97, Ours: density.WaterDensityKgM3(r.t), Tolerance: 0.05},
			record.Row{Quantity: fmt.Sprintf("vapour pressure of water, %v °C", r.t), Unit: "kPa", Published: r.vapour, Source: if97, Ours: water.VapourPressureKPa(r.t), Tolerance: 1e-4 * r.vapour},
			record.Row{Quantity: fmt.Sprintf("specific heat of water, %v °C", r.t), Unit: "kJ/(kg K)", Published: r.cp, Source: if97, Ours: water.HeatKJPerKgK(r.t), Tolerance: 1e-9, Verdict: Fitted, Why: "our table is these rows"},
			record.Row{Quantity: fmt.Sprintf("latent heat of water, %v °C", r.t), Unit: "kJ/kg", Published: r.latent, Source: if97, Ours: water.LatentHeatKJPerKg(r.t), Tolerance: 1e-9, Verdict: Fitted, Why: "our table is these rows"})
	}
	for _, r := range [...]struct{ t, latent float64 }{{20, 2453.5}, {60, 2357.6}, {80, 2308.0}, {90, 2282.5}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("latent heat of water, %v °C, second table", r.t), Unit: "kJ/kg", Published: r.latent, Source: steam, Ours: water.LatentHeatKJPerKg(r.t), Tolerance: 0.2})
	}
	for _, r := range [...]struct{ m, c float64 }{{0, 99.97}, {250, 99.14}, {500, 98.31}, {1000, 96.65}, {1500, 94.98}, {2000, 93.32}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("boiling point at %v m", r.m), Unit: "°C", Published: r.c, Source: if97 + ", standard atmosphere", Ours: water.BoilingPointC(r.m), Tolerance: 0.02})
	}
	for _, r := range [...]struct{ t, pct float64 }{{100, 3.99}, {95, 3.64}, {80, 2.65}, {65, 1.77}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("shrinkage on cooling to 20 °C from %v °C", r.t), Unit: "%", Published: r.pct, Source: if97, Ours: 100 * (1 - density.WaterDensityKgM3(r.t)/density.WaterDensityKgM3(20)), Tolerance: 0.02})
	}
	for _, r := range [...]struct{ kw, kgH float64 }{{1, 1.595}, {1.5, 2.393}, {2, 3.191}, {2.5, 3.989}, {3, 4.786}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("steam of %v kW", r.kw), Unit: "kg/h", Published: r.kgH, Source: "power over latent heat at 100 °C, computed", Ours: water.SteamLPerHAt(1000*r.kw, 100) * density.WaterDensityKgM3(20) / 1000, Tolerance: 0.002})
	}
	return append(rows, strikes()...)
}

func strikes() []record.Row {
	var rows []record.Row
	none := math.NaN()
	at := func(s water.Strike) float64 {
		c, err := s.TemperatureC()
		if err != nil {
			return math.NaN()
		}
		return c
	}
	for _, r := range [...]struct{ lPerKg, at38, at40 float64 }{
		{2.5, 72.99, 73.36}, {3, 71.83, 72.13}, {3.5, 70.99, 71.26}, {4, 70.37, 70.60}, {5, 69.50, 69.68},
	} {
		s := water.Strike{GrainKg: 1, LiquorL: r.lPerKg, GrainTemperatureC: 20, TargetC: 66, VesselC: none}
		s.MaltMoisturePct = none // specific heat 0.40
		const computed = "heat balance, litres taken as kilograms, computed"
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("strike for 66 °C, malt 20 °C of specific heat 0.40, %v L/kg", r.lPerKg), Unit: "°C", Published: r.at40, Source: computed, Ours: at(s), Tolerance: 0.05})
		s.MaltMoisturePct = 0 // specific heat 0.38, and slaking 3.0 °C that the row leaves out
		s.TargetC += water.SlakingC(0)
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("strike for 66 °C, malt 20 °C of specific heat 0.38, %v L/kg", r.lPerKg), Unit: "°C", Published: r.at38, Source: computed, Ours: at(s), Tolerance: 0.05})
	}
	example, err := water.Strike{GrainKg: 100, LiquorL: 268, GrainTemperatureC: 27, VesselC: none, MaltMoisturePct: 2}.MashC(69)
	if err != nil {
		example = math.NaN()
	}
	return append(rows,
		record.Row{Quantity: "mash of 2 % moist malt at 27 °C with 2.68 hL of 69 °C a 100 kg, slaking counted", Unit: "°C", Published: 65.96, Source: malts + ", its example worked out", Ours: example, Tolerance: 0.05},
		record.Row{Quantity: "20 kg of liquor and 5 kg of grain, 66 to 76 °C at 2 kW", Unit: "min", Published: 7.67, Source: "heat balance, computed", Ours: water.HeatingMinutes(20/0.9982, 5, 0, 66, 76, 2000), Tolerance: 0.05})
}

// Ions is salts and alkalinity.
func Ions() []record.Row {
	var rows []record.Row
	row := func(what string, published, ours float64) {
		rows = append(rows, record.Row{Quantity: what + " of 1 g/L", Unit: "mg/L", Published: published, Source: mass, Ours: ours, Tolerance: 0.1})
	}
	gypsum := water.Salts{GypsumG: 1}.Ions(1)
	row("calcium from gypsum", 232.8, gypsum.CalciumMgL)
	row("sulphate from gypsum", 557.9, gypsum.SulphateMgL)
	chloride := water.Salts{CalciumChlorideG: 1}.Ions(1)
	row("calcium from calcium chloride dihydrate", 272.6, chloride.CalciumMgL)
	row("chloride from calcium chloride dihydrate", 482.3, chloride.ChlorideMgL)
	epsom := water.Salts{EpsomG: 1}.Ions(1)
	row("magnesium from Epsom salt", 98.6, epsom.MagnesiumMgL)
	row("sulphate from Epsom salt", 389.7, epsom.SulphateMgL)
	salt := water.Salts{TableSaltG: 1}.Ions(1)
	row("sodium from table salt", 393.4, salt.SodiumMgL)
	row("chloride from table salt", 606.6, salt.ChlorideMgL)
	soda := water.Salts{BakingSodaG: 1}.Ions(1)
	row("sodium from baking soda", 273.7, soda.SodiumMgL)
	row("bicarbonate from baking soda", 726.3, soda.BicarbonateMgL)
	row("alkalinity as CaCO3 from baking soda", 595.7, water.ChalkMgL(soda.AlkalinityMEqL()))
	chalk := water.Salts{ChalkG: 1}.Ions(1)
	row("calcium from chalk", 400.4, chalk.CalciumMgL)
	rows = append(rows, record.Row{Quantity: "alkalinity as CaCO3 from chalk of 1 g/L", Unit: "mg/L", Published: 1000, Source: mass, Ours: water.ChalkMgL(chalk.AlkalinityMEqL()), Tolerance: 0.1})

	const barrelL = 117.35 // US beer barrel
	rows = append(rows,
		record.Row{Quantity: "gypsum for 10 mg/L of calcium in a US barrel, as the hydrate", Unit: "g", Published: 5.04, Source: mass + "; a maltster's sheet prints 4.0 for the anhydrous salt", Ours: barrelL * 10 / gypsum.CalciumMgL, Tolerance: 0.01},
		record.Row{Quantity: "calcium chloride for 10 mg/L of calcium in a US barrel, as the dihydrate", Unit: "g", Published: 4.30, Source: mass + "; a maltster's sheet prints 3.25 for the anhydrous salt", Ours: barrelL * 10 / chloride.CalciumMgL, Tolerance: 0.01})
	hard := water.Ions{CalciumMgL: 80, MagnesiumMgL: 10, BicarbonateMgL: 200}
	ra := hard.ResidualAlkalinityMEqL()
	return append(rows,
		record.Row{Quantity: "residual alkalinity of Ca 80, Mg 10, HCO3 200 mg/L", Unit: "mEq/L", Published: 2.0196, Source: "Kolbach 1953, computed", Ours: ra, Tolerance: 0.001},
		record.Row{Quantity: "the same as CaCO3", Unit: "mg/L", Published: 101.1, Source: "Kolbach 1953, computed", Ours: water.ChalkMgL(ra), Tolerance: 0.1})
}
