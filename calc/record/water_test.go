package record_test

import (
	"math"

	"skep/calc/density"
	"skep/calc/honey"
	"skep/calc/mash"
	"skep/calc/record"
	"skep/calc/water"
)

// waters is testdata/water: heat and density of water and mash, salts and
// alkalinity; package water.
func waters() map[string]func(record.Given) float64 {
	salts := map[string]func() float64{
		"calcium from gypsum":                      func() float64 { return water.Salts{GypsumG: 1}.Ions(1).CalciumMgL },
		"sulphate from gypsum":                     func() float64 { return water.Salts{GypsumG: 1}.Ions(1).SulphateMgL },
		"calcium from calcium chloride dihydrate":  func() float64 { return water.Salts{CalciumChlorideG: 1}.Ions(1).CalciumMgL },
		"chloride from calcium chloride dihydrate": func() float64 { return water.Salts{CalciumChlorideG: 1}.Ions(1).ChlorideMgL },
		"magnesium from Epsom salt":                func() float64 { return water.Salts{EpsomG: 1}.Ions(1).MagnesiumMgL },
		"sulphate from Epsom salt":                 func() float64 { return water.Salts{EpsomG: 1}.Ions(1).SulphateMgL },
		"sodium from table salt":                   func() float64 { return water.Salts{TableSaltG: 1}.Ions(1).SodiumMgL },
		"chloride from table salt":                 func() float64 { return water.Salts{TableSaltG: 1}.Ions(1).ChlorideMgL },
		"sodium from baking soda":                  func() float64 { return water.Salts{BakingSodaG: 1}.Ions(1).SodiumMgL },
		"bicarbonate from baking soda":             func() float64 { return water.Salts{BakingSodaG: 1}.Ions(1).BicarbonateMgL },
		"alkalinity as CaCO3 from baking soda": func() float64 {
			return water.ChalkMgL(water.Salts{BakingSodaG: 1}.Ions(1).AlkalinityMEqL())
		},
		"calcium from chalk":    func() float64 { return water.Salts{ChalkG: 1}.Ions(1).CalciumMgL },
		"alkalinity from chalk": func() float64 { return water.ChalkMgL(water.Salts{ChalkG: 1}.Ions(1).AlkalinityMEqL()) },
	}
	ions := func(g record.Given) water.Ions {
		return water.Ions{CalciumMgL: g.Num("calcium"), MagnesiumMgL: g.Num("magnesium"), BicarbonateMgL: g.Num("bicarbonate")}
	}
	return map[string]func(record.Given) float64{
		"density-of-water": func(g record.Given) float64 { return density.WaterDensityKgM3(g.Num("temperature_c")) },
		"vapour-pressure":  func(g record.Given) float64 { return water.VapourPressureKPa(g.Num("temperature_c")) },
		"heat-of-water":    func(g record.Given) float64 { return water.HeatKJPerKgK(g.Num("temperature_c")) },
		"latent-heat":      func(g record.Given) float64 { return water.LatentHeatKJPerKg(g.Num("temperature_c")) },
		"boiling-point":    func(g record.Given) float64 { return water.BoilingPointC(g.Num("altitude_m")) },
		"shrinkage": func(g record.Given) float64 {
			return 100 * (1 - density.WaterDensityKgM3(g.Num("temperature_c"))/density.WaterDensityKgM3(20))
		},
		"steam": func(g record.Given) float64 {
			return water.SteamLPerHAt(1000*g.Num("kw"), 100) * density.WaterDensityKgM3(20) / 1000
		},
		// The rows leave slaking out, and only heat counts: a kilogram of 0.38 is
		// 0.95 kg of the 0.40 that is taken where moisture is not known.
		"strike": func(g record.Given) float64 {
			s := water.Strike{
				GrainKg: g.Num("malt_heat") / 0.40, LiquorL: g.Num("l_per_kg"), GrainTemperatureC: g.Num("grain_c"),
				TargetC: g.Num("target_c"), VesselC: math.NaN(), MaltMoisturePct: math.NaN(),
			}
			return orNaN(s.TemperatureC())
		},
		"mash-of-malt": func(g record.Given) float64 {
			s := water.Strike{
				GrainKg: g.Num("grain_kg"), LiquorL: g.Num("liquor_l"), GrainTemperatureC: g.Num("grain_c"),
				VesselC: math.NaN(), MaltMoisturePct: g.Num("moisture_pct"),
			}
			return orNaN(s.MashC(g.Num("strike_c")))
		},
		"heating": func(g record.Given) float64 {
			return water.HeatingMinutes(g.Num("liquor_kg")/0.9982, g.Num("grain_kg"), 0, g.Num("from_c"), g.Num("to_c"), g.Num("w"))
		},
		"salt": func(g record.Given) float64 {
			if f, ok := salts[g.Word("what")]; ok {
				return f()
			}
			return math.NaN()
		},
		// For 10 mg/L of calcium in a US beer barrel.
		"salt-for-a-barrel": func(g record.Given) float64 {
			const barrelL = 117.35
			one := water.Salts{GypsumG: 1}
			if g.Word("what") == "calcium chloride" {
				one = water.Salts{CalciumChlorideG: 1}
			}
			return barrelL * 10 / one.Ions(1).CalciumMgL
		},
		"acidity": func(g record.Given) float64 { return mash.Acidity(g.Num("ph")) },
		"acid-malt": func(g record.Given) float64 {
			const lacticMolar = 90.08
			mEqKg := g.Num("pct") / 100 * g.Num("acid_pct") / 100 * 1e6 / lacticMolar
			_, low, _, _ := water.MashPH([]water.Malt{{MassKg: 1, ColourEBC: 5}}, -mEqKg, 1)
			_, mid, _, _ := water.MashPH([]water.Malt{{MassKg: 1, ColourEBC: 5}}, 0, 1)
			return mid - low
		},
		"buffer": func(g record.Given) float64 {
			_, mid, _ := water.AcidMEq(1, g.Num("from_ph"), g.Num("to_ph"))
			return mid
		},
		"acid-strength": func(g record.Given) float64 { return water.Acids()[g.Word("acid")].MEqPerML(g.Num("ph")) },
		"acid-dose": func(g record.Given) float64 {
			_, mid, _ := water.AcidMEq(g.Num("grain_kg"), g.Num("from_ph"), g.Num("to_ph"))
			return mid / water.Acids()[g.Word("acid")].MEqPerML(g.Num("to_ph"))
		},
		"honey-acid":                   func(g record.Given) float64 { return honey.AcidMEqPerKg * g.Num("g_per_l") / 1000 },
		"honey-ph":                     func(g record.Given) float64 { return honey.BeerPHDrop(g.Num("g_per_l")) },
		"residual-alkalinity":          func(g record.Given) float64 { return ions(g).ResidualAlkalinityMEqL() },
		"residual-alkalinity-as-chalk": func(g record.Given) float64 { return water.ChalkMgL(ions(g).ResidualAlkalinityMEqL()) },
	}
}
