package water_test

import (
	"fmt"
	"math"

	"skep/calc/water"
)

// The liquor of a day, backwards from what is wanted in the fermenter.
func Example() {
	plan := water.For(water.Input{
		IntoFermenterL: 15,
		Grist:          water.GristOf(water.Malt{MassKg: 3.2, ExtractPct: 80.5, MoisturePct: 4.5}),
		LiquorLPerKg:   3, GrainC: 18, FirstRestC: 66,
		BoilMinutes: 60,
		Kit: water.Kit{
			VesselL: 30, MashEfficiencyPct: 74, HeldByGrainLPerKg: 0.9, SteamLPerH: 2.2, LeftWithBreakL: 1,
		},
	})
	fmt.Printf("mash %.1f L, sparge %.1f L, before the boil %.1f L of %.3f\n",
		plan.MashLiquor, plan.Sparge, plan.PreBoil, plan.PreBoilGravitySG)
	// Output:
	// mash 9.6 L, sparge 11.5 L, before the boil 19.0 L of 1.039
}

// How hot the liquor must be for a mash of 66 °C.
func ExampleStrike() {
	s := water.Strike{GrainKg: 4, LiquorL: 12, GrainTemperatureC: 18, TargetC: 66, VesselC: math.NaN(), MaltMoisturePct: 4.5}
	c, err := s.TemperatureC()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f °C\n", c)
	// Output:
	// 71.0 °C
}

// Salts in soft water, and what they leave of its alkalinity.
func ExampleSalts() {
	ions := water.Ions{CalciumMgL: 20, BicarbonateMgL: 90}.Plus(water.Salts{CalciumChlorideG: 4}.Ions(20))
	fmt.Printf("calcium %.0f mg/L, residual alkalinity %.1f mEq/L\n", ions.CalciumMgL, ions.ResidualAlkalinityMEqL())
	// Output:
	// calcium 75 mg/L, residual alkalinity 0.4 mEq/L
}
