package reckon

import (
	"fmt"
	"math"

	"skep/calc/water"
)

var mashes = []Calculation{
	{
		Name:   "strike",
		About:  "How hot the liquor must be for the mash to settle at target_c. liquor_l is measured cool (20 °C). Without vessel_temperature_c the liquor was heated in the vessel, which is then as hot as it. Slaking heat counts only when the malt's moisture is given; the table is for about 2.7 L/kg. Check with a thermometer after stirring; hot liquor scalds.",
		Source: "heat balance; specific heat of malt and slaking from the Pauls and Whites Brewing Room Book 1984/85; water by IAPWS-IF97",
		In: []Field{
			number("grain_kg", "kg", 0, 200, vesselRange, ""),
			number("liquor_l", "L", 0.1, 1000, vesselRange, "at 20 °C"),
			number("grain_temperature_c", "°C", -20, 60, "where grain is kept", "").orElse("18"),
			number("target_c", "°C", 30, 85, "mash rests lie in it", "of the mash"),
			number("vessel_heat_kj_per_k", "kJ/K", 0, 200, "a steel vessel of 10 kg takes 5", "heat that the vessel takes").orElse("0"),
			number("vessel_temperature_c", "°C", -20, 100, "a vessel before mashing", "left out: as hot as the liquor").ifGiven(),
			number("malt_moisture_pct", "%", water.MinMaltMoisturePct, water.MaxMaltMoisturePct, "the range of the malt table", "left out: 4 % and no slaking").ifGiven(),
		},
		Out: []Field{result("strike_temperature_c", "°C", 1, "")},
		do:  strike,
	},
}

func strike(a *args) []float64 {
	c, err := water.Strike{
		GrainKg: a.num("grain_kg"), LiquorL: a.num("liquor_l"), GrainTemperatureC: a.num("grain_temperature_c"),
		TargetC: a.num("target_c"), VesselHeatKJPerK: a.num("vessel_heat_kj_per_k"),
		VesselC: a.num("vessel_temperature_c"), MaltMoisturePct: a.num("malt_moisture_pct"),
	}.TemperatureC()
	if err != nil {
		return a.fail("liquor_l", "{key} = {value}: {error}", "liquor_l", plain(a.num("liquor_l")), err)
	}
	if boiling := water.BoilingPointC(0); c > boiling || math.IsNaN(c) {
		return a.fail("liquor_l", "liquor_l = {litres} would have to be {needed} °C and boils at {boiling}: take more liquor, warmer grain or a cooler target_c",
			plain(a.num("liquor_l")), fmt.Sprintf("%.0f", c), fmt.Sprintf("%.0f", boiling))
	}
	return []float64{c}
}
