package reckon

import (
	"fmt"

	"skep/calc/alcohol"
	"skep/calc/density"
)

const (
	extractTables = "the range of the extract tables"
	drySG         = 0.98
)

var gravities = []Calculation{
	{
		Name:   "plato",
		About:  "Extract in °P (% by mass) from specific gravity 20/20. Of fermented beer it is the apparent extract, and may be negative.",
		Source: "ASBC cubic, 135.997 S³ - 630.272 S² + 1111.14 S - 616.868, made exactly 0 at 1.000; above 24 °P it differs from the sucrose table by 0.005 °P",
		In:     []Field{number("sg", "SG", density.MinSG, density.MaxSG, extractTables, "20/20")},
		Out:    []Field{result("plato", "°P", 2, "")},
		do:     func(a *args) []float64 { return []float64{density.PlatoFromSG(a.num("sg"))} },
	},
	{
		Name:   "gravity",
		About:  "Specific gravity 20/20 from extract in °P.",
		Source: "the numeric inverse of plato",
		In:     []Field{number("plato", "°P", density.MinPlato, density.MaxPlato, extractTables, "")},
		Out:    []Field{result("sg", "SG", 4, "20/20")},
		do:     func(a *args) []float64 { return []float64{density.SGFromPlato(a.num("plato"))} },
	},
	{
		Name:   "hydrometer",
		About:  "What a hydrometer reading means at 20 °C. Above 40 °C let the sample cool instead: formulas differ by 0.0005 and more, and a warm sample changes while it is read.",
		Source: "density of sucrose solutions by temperature (the ICUMSA 1990 polynomial, as Llano-Restrepo 2005 prints it), glass 25e-6 per K",
		In: []Field{
			number("sg", "SG", density.MinSG, density.MaxSG, extractTables, "as read"),
			number("temperature_c", "°C", density.MinSucroseC, density.MaxSucroseC, "the range of the sucrose density table", "of the sample").orElse("20"),
			number("calibration_c", "°C", density.MinCalibrationC, density.MaxCalibrationC, "hydrometers are calibrated at 15 to 25 °C", "printed on the hydrometer").orElse("20"),
		},
		Out: []Field{result("sg", "SG", 4, "20/20")},
		do:  hydrometer,
	},
	{
		Name:   "refractometer",
		About:  "Gravity and strength of fermented beer from two refractometer readings. A correlation for finished all-malt beer, good to about 0.002 SG: alcohol bends light too, honey lowers the factor, and early in fermentation it is worse. Both readings at temperature_c; leave it at 20 for an instrument that compensates.",
		Source: "cubic correlation of S. Terrill 2011 (from memory), checked against Balling and refractive increments; strength by Balling",
		In: []Field{
			number("reading_at_pitching_bx", "°Bx", 1, density.MaxBrix, "the range of brewing refractometers", ""),
			number("reading_today_bx", "°Bx", density.MinBrix, density.MaxBrix, "the range of brewing refractometers", ""),
			number("wort_factor", "", 0.95, 1.15, "published factors run from 1.00 to 1.08", "reading over true extract of unfermented wort").orElse("1.04"),
			number("temperature_c", "°C", density.MinBrixC, density.MaxBrixC, "the range of the correction table", "of sample and prism").orElse("20"),
		},
		Out: []Field{result("sg", "SG", 4, "20/20"), result("strength_pct", "% by volume", 2, "")},
		do:  refractometer,
	},
	{
		Name:   "brix-temperature",
		About:  "A refractometer reading brought to 20 °C, for an instrument without automatic compensation.",
		Source: "OIV compendium, Table I, 10 to 20 °C; carried on by a curve above",
		In: []Field{
			number("brix", "°Bx", density.MinBrix, density.MaxBrix, "the range of brewing refractometers", "as read"),
			number("temperature_c", "°C", density.MinBrixC, density.MaxBrixC, "the range of the correction table", "of sample and prism"),
		},
		Out: []Field{result("brix", "°Bx", 2, "at 20 °C")},
		do: func(a *args) []float64 {
			return []float64{density.BrixAt20(a.num("brix"), a.num("temperature_c"))}
		},
	},
	{
		Name:   "strength",
		About:  "Strength, extract and attenuation from original and final gravity. With honey added late take the effective original gravity, or the honey's alcohol is left out.",
		Source: "Balling: RE = 0.1808 OE + 0.8192 AE, ABW = (OE - RE)/(2.0665 - 0.010665 OE), ABV = ABW SG/0.7893; RDF as ASBC defines it; energy as EBC does",
		In: []Field{
			number("original_sg", "SG", 1, density.MaxSG, extractTables, ""),
			number("final_sg", "SG", drySG, density.MaxSG, "no beer ferments drier", ""),
		},
		Out: []Field{
			result("strength_pct", "% by volume", 2, "at 20 °C"), result("abw_pct", "% by mass", 2, ""),
			result("real_extract_plato", "°P", 2, ""), result("apparent_attenuation_pct", "%", 1, ""),
			result("real_attenuation_pct", "%", 1, ""), result("energy_kj_per_l", "kJ/L", 0, ""),
		},
		do: strength,
	},
	{
		Name:   "duty-strength",
		About:  "Strength by the UK excise factor table: the gravity's fall in excess degrees times a factor, cut (not rounded) to one decimal to be declared. The table jumps at its edges, by up to 0.1 %.",
		Source: "HMRC Notice 226, section 30.3, as quoted publicly; replaced in 2023, so ask the authority before relying on it",
		In: []Field{
			number("original_sg", "SG", 1, density.MaxSG, extractTables, ""),
			number("final_sg", "SG", drySG, density.MaxSG, "no beer ferments drier", ""),
		},
		Out: []Field{result("strength_pct", "% by volume", 3, "uncut"), result("declared_pct", "% by volume", 1, "")},
		do: func(a *args) []float64 {
			uncut, declared, err := alcohol.DutyStrength(a.num("original_sg"), a.num("final_sg"))
			if err != nil {
				return a.fail("final_sg", "{key} = {value}: {error}", "final_sg", plain(a.num("final_sg")), err)
			}
			return []float64{uncut, declared}
		},
	},
}

func hydrometer(a *args) []float64 {
	sg, err := density.HydrometerSG(a.num("sg"), a.num("temperature_c"), a.num("calibration_c"))
	if err != nil {
		return a.fail("sg", "{key} = {value}: {error}", "sg", plain(a.num("sg")), err)
	}
	return []float64{sg}
}

func strength(a *args) []float64 {
	original, final := a.num("original_sg"), a.num("final_sg")
	if err := alcohol.CheckStrength(original, final); err != nil {
		return a.fail("final_sg", "{key} = {value}: {error}", "final_sg", plain(final), err)
	}
	r := alcohol.Strength(original, final)
	return []float64{
		r.StrengthPct, r.ABWPct, r.RealExtractPlato,
		r.ApparentAttenuationPct, r.RealAttenuationPct, r.EnergyKJPerL,
	}
}

func refractometer(a *args) []float64 {
	factor, t := a.num("wort_factor"), a.num("temperature_c")
	if a.num("reading_today_bx") > a.num("reading_at_pitching_bx") {
		return a.fail("reading_today_bx", "reading_today_bx = {today} is above reading_at_pitching_bx = {before}: nothing has fermented, or honey went in between",
			plain(a.num("reading_today_bx")), plain(a.num("reading_at_pitching_bx")))
	}
	before := max(0, density.BrixAt20(a.num("reading_at_pitching_bx"), t)) / factor
	today := max(0, density.BrixAt20(a.num("reading_today_bx"), t)) / factor
	original, final := density.SGFromPlato(before), density.RefractometerSG(before, today)
	if final < drySG || final > original {
		return a.fail("reading_today_bx", "reading_today_bx = {today} with reading_at_pitching_bx = {before} would be SG {final} from {original}, beyond the correlation: a beer reads about half of what its wort read",
			plain(a.num("reading_today_bx")), plain(a.num("reading_at_pitching_bx")), fmt.Sprintf("%.4f", final), fmt.Sprintf("%.4f", original))
	}
	return []float64{final, alcohol.Strength(original, final).StrengthPct}
}
