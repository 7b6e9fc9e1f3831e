package reckon

import (
	"fmt"

	"skep/calc/boil"
	"skep/calc/colour"
	"skep/calc/density"
)

var hopsAndColour = []Calculation{
	{
		Name:   "bitterness",
		About:  "Bitterness of one addition of hops. utilisation_pct is the published boil table's; ibu is ours, with saturation above 260 mg/L of alpha acid and, below 100 °C, a stand at that temperature: isomerisation slows, but what bitters without heat is measured all the same. A quarter either way is ordinary.",
		Source: "G. Tinseth 1997; Malowicki & Shellhammer 2005 for the stand; saturation and stands fitted to laboratory measurements by J.-P. Hosom",
		In: []Field{
			number("alpha_pct", "%", 0, 30, "hops hold 1 to 20 % alpha acid, extracts more", "alpha acid by mass"),
			number("mass_g", "g", 0, 5000, vesselRange, ""),
			number("minutes", "min", 0, boil.MaxTinsethMinutes, "the published table's range", "in the boil, or of the stand"),
			number("wort_sg", "SG", boil.MinTinsethSG, boil.MaxTinsethSG, "the published table ends at 1.130", ""),
			number("volume_l", "L", 0.1, 1000, vesselRange, "cool, after the boil"),
			number("temperature_c", "°C", boil.MinIsomeriseC, 100, "isomerisation is known at 90 to 130 °C and extrapolated down to 60", "below 100: a stand").orElse("100"),
		},
		Out: []Field{result("utilisation_pct", "%", 1, "boil only"), result("ibu", "IBU", 1, "")},
		do: func(a *args) []float64 {
			s := boil.Steep{AlphaPct: a.num("alpha_pct"), MassG: a.num("mass_g"), VolumeL: a.num("volume_l"), WortSG: a.num("wort_sg")}
			return []float64{
				100 * boil.TinsethUtilisation(a.num("minutes"), s.WortSG),
				boil.IBU(s, a.num("minutes"), a.num("temperature_c")),
			}
		},
	},
	{
		Name:   "isomerise",
		About:  "What becomes of dissolved alpha acid held at a temperature. Measured at 90 to 130 °C; cooler is extrapolated.",
		Source: "M. G. Malowicki, T. H. Shellhammer, J. Agric. Food Chem. 53 (2005) 4434: k1 = 7.9e11 exp(-11858/T), k2 = 4.1e12 exp(-12994/T) per min",
		In: []Field{
			number("temperature_c", "°C", boil.MinIsomeriseC, boil.MaxIsomeriseC, "measured at 90 to 130 °C and extrapolated down to 60", ""),
			number("minutes", "min", 0, 1440, "a day", ""),
		},
		Out: []Field{result("alpha_left_pct", "%", 2, ""), result("iso_pct", "%", 2, ""), result("degraded_pct", "%", 2, "")},
		do: func(a *args) []float64 {
			x := boil.Isomerise(a.num("temperature_c"), a.num("minutes"))
			return []float64{100 * x.AlphaLeft, 100 * x.Iso, 100 * x.Degraded}
		},
	},
	{
		Name:   "cooling",
		About:  "How far an open kettle has cooled some minutes after the boil ends, from 100 °C in still air. Good to about 1.6 °C over 15 minutes, 4 to 31 L. Wort stays scalding for hours.",
		Source: "evaporation and wall losses, two constants fitted to 11 measured kettles and checked on 6 others (J.-P. Hosom, article 16)",
		In: []Field{
			number("volume_l", "L", 0.5, 1000, "measured from 4 to 31 L", ""),
			number("surface_cm2", "cm²", 20, 20000, "measured from 457 to 1084 cm²", "of the wort, from above"),
			number("opening_pct", "%", 0, 100, "a share of the surface", "left uncovered").orElse("100"),
			number("room_c", "°C", -20, 50, "air a person works in", "").orElse("20"),
			number("minutes", "min", 0, 240, "measured at 15 min", "after the boil ends"),
		},
		Out: []Field{result("temperature_c", "°C", 1, "")},
		do: func(a *args) []float64 {
			k := boil.Kettle{VolumeL: a.num("volume_l"), SurfaceCM2: a.num("surface_cm2"), OpeningPct: a.num("opening_pct"), RoomC: a.num("room_c")}
			return []float64{k.Cool(100, a.num("minutes"))}
		},
	},
	{
		Name:   "colour",
		About:  "Colour of a wort from one malt in a volume. Rules differ by a third for pale beers; a quarter either way is ordinary.",
		Source: "malt colour units, then D. A. Morey, SRM = 1.4922 MCU^0.6859, for SRM below 50; EBC = 1.9685 SRM; °L from SRM = 1.3546 °L - 0.76",
		In: []Field{
			number("colour_ebc", "EBC", 0, 2000, "roasted malt is about 1500", "of the malt"),
			number("mass_kg", "kg", 0, 200, vesselRange, ""),
			number("volume_l", "L", 0.1, 1000, vesselRange, "of the wort, cool"),
		},
		Out: []Field{result("colour_ebc", "EBC", 1, "of the wort")},
		do:  wortColour,
	},
}

func wortColour(a *args) []float64 {
	mcu := colour.MCU(a.num("mass_kg"), colour.LovibondFromEBC(a.num("colour_ebc")), a.num("volume_l"))
	if srm := colour.MoreySRM(mcu); srm > colour.MaxMoreySRM {
		return a.fail("mass_kg", "mass_kg = {kilos} of colour_ebc = {colour} in volume_l = {litres} would be {srm} SRM, above {most}, where Morey's fit ends: it is black",
			plain(a.num("mass_kg")), plain(a.num("colour_ebc")), plain(a.num("volume_l")), fmt.Sprintf("%.0f", srm), fmt.Sprintf("%.0f", colour.MaxMoreySRM))
	}
	return []float64{colour.MoreyEBC(mcu)}
}

var liquor = []Calculation{
	{
		Name:   "dilute",
		About:  "Water to add for a lower gravity. Extract is kept, volumes are not simply added. Measured cool; boil the water, or trust its purity.",
		Source: "mass balance over ASBC extract and density at 20 °C",
		In: []Field{
			number("sg", "SG", 1, density.MaxSG, extractTables, ""),
			number("volume_l", "L", 0.01, 1000, vesselRange, "at 20 °C"),
			number("target_sg", "SG", 1.001, density.MaxSG, "below it nothing but water is left", ""),
		},
		Out: []Field{result("water_l", "L", 2, "at 20 °C")},
		do:  dilute,
	},
	{
		Name:   "salts",
		About:  "What salts bring to liquor. Gypsum and Epsom salt with their water, calcium chloride as the dihydrate; the anhydrous salt gives a quarter more. Chalk is counted as if it dissolved, which most of it does not.",
		Source: "atomic masses",
		In: []Field{
			number("volume_l", "L", 0.1, 5000, vesselRange, ""),
			salt("gypsum_g"), salt("calcium_chloride_g"), salt("epsom_g"), salt("table_salt_g"), salt("baking_soda_g"), salt("chalk_g"),
		},
		Out: []Field{
			result("calcium_mg_l", "mg/L", 1, ""), result("magnesium_mg_l", "mg/L", 1, ""), result("sodium_mg_l", "mg/L", 1, ""),
			result("chloride_mg_l", "mg/L", 1, ""), result("sulphate_mg_l", "mg/L", 1, ""), result("bicarbonate_mg_l", "mg/L", 1, ""),
		},
		do: salts,
	},
}
