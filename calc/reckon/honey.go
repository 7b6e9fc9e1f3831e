package reckon

import (
	"skep/calc/density"
	"skep/calc/honey"
)

var honeys = []Calculation{
	{
		Name:   "honey",
		About:  "What honey brings to a volume: the gravity it alone would give made up to volume_l, its own density and volume at temperature_c, and how much of it ferments (middle of a band of 4 % either way). Never honey for infants under twelve months, in beer or out of it.",
		Source: "extract is mass less moisture; density of sucrose solutions; honey density after White's table (from memory, sources disagree by 0.01 kg/L); composition by White 1962",
		In: []Field{
			number("mass_kg", "kg", 0, 100, vesselRange, ""),
			number("moisture_pct", "%", honey.MinMoisturePct, honey.MaxMoisturePct, "what honey and honey-like syrups hold; legal honey 13 to 20, heather to 23", "").orElse("17.5"),
			number("volume_l", "L", 0.01, 1000, vesselRange, "made up to, at 20 °C"),
			number("temperature_c", "°C", 0, 60, "honey is poured at these", "of the honey").orElse("20"),
		},
		Out: []Field{
			result("gravity_points", "0.001 SG", 1, ""), result("plato", "°P", 2, ""),
			result("honey_density_kg_l", "kg/L", 3, ""), result("honey_volume_l", "L", 3, ""),
			result("fermentable_g", "g", 0, ""),
		},
		do: honeyIn,
	},
	{
		Name:   "honey-moisture",
		About:  "Moisture of honey by its refractive index. Over 20 % it may ferment in the jar.",
		Source: "Wedmore 1955, W = (-0.2681 - log10(n-1))/0.002243, with 0.00023 per °C; within 0.03 % of Chataway's table, 13 to 25 %",
		In: []Field{
			number("refractive_index", "", 1.45, 1.53, "honey of 10 to 30 % moisture reads 1.462 to 1.513", "at 589.3 nm"),
			number("temperature_c", "°C", honey.MinRefractometerC, honey.MaxRefractometerC, "the temperatures at which the correction is used", "").orElse("20"),
		},
		Out: []Field{result("moisture_pct", "%", 1, "by mass")},
		do: func(a *args) []float64 {
			w, err := honey.MoisturePct(a.num("refractive_index"), a.num("temperature_c"))
			if err != nil {
				return a.fail("refractive_index", "{key} = {value}: {error}", "refractive_index", plain(a.num("refractive_index")), err)
			}
			return []float64{w}
		},
	},
}

func honeyIn(a *args) []float64 {
	mass, moisture, volume, t := a.num("mass_kg"), a.num("moisture_pct"), a.num("volume_l"), a.num("temperature_c")
	solids := honey.SolidsKg(mass, moisture)
	plato := density.PlatoFromGramsPerLitre(1000 * solids / volume)
	if !(plato <= density.MaxPlato) {
		return a.fail("mass_kg", "mass_kg = {kilos} in volume_l = {litres} is above {most} °P, the range of the extract tables: less honey or more volume",
			plain(mass), plain(volume), plain(density.MaxPlato))
	}
	_, share, _ := honey.FermentableShare(honey.Blossom)
	return []float64{
		(density.SGFromPlato(plato) - 1) * 1000, plato,
		honey.DensityKgL(moisture, t), honey.VolumeL(mass, moisture, t),
		1000 * solids * share,
	}
}
