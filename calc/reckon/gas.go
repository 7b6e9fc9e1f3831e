package reckon

import (
	"skep/calc/carbonation"
	"skep/calc/density"
	"skep/calc/water"
)

const glass = " Glass under pressure can burst: only bottles made for it, within their rating (3.0 volumes when unknown), and the same gravity on two readings days apart."

// altitude is where it is done; the sea where nothing is given.
var altitude = number("altitude_m", "m", -400, 5000, "where people live", "height above the sea").orElse("0")

var gas = []Calculation{
	{
		Name:   "co2-water",
		About:  "Carbon dioxide in water at equilibrium with a partial pressure of it. Beer holds 5 to 6 % less by the charts printed for it.",
		Source: "J. J. Carroll, J. D. Slupsky, A. E. Mather, J. Phys. Chem. Ref. Data 20 (1991) 1201; 22.263 L/mol",
		In: []Field{
			number("temperature_c", "°C", carbonation.MinWaterC, carbonation.MaxWaterC, "Carroll's formula and the water density used with it", ""),
			number("pressure_kpa", "kPa", 0, carbonation.MaxPressureKPa, "Carroll's formula holds below 1 MPa", "partial pressure of CO2, absolute").orElse("101.325"),
		},
		Out: []Field{result("volumes_co2", "volumes", 3, ""), result("g_per_l", "g/L", 3, ""), result("mole_fraction", "", 6, "")},
		do: func(a *args) []float64 {
			t, p := a.num("temperature_c"), a.num("pressure_kpa")
			return []float64{carbonation.Volumes(t, p), carbonation.GramsPerLitre(t, p), carbonation.MoleFraction(t, p)}
		},
	},
	{
		Name:   "carbonation",
		About:  "Carbon dioxide in beer kept under a gauge pressure until equilibrium, days in a still keg.",
		Source: "mean of the two regressions of the ASBC chart that brewers quote, which differ by up to 0.1 volumes when warm; where the chart comes from is unknown (Speers & MacIntosh 2013)",
		In: []Field{
			number("temperature_c", "°C", carbonation.MinChartC, carbonation.MaxChartC, "the range of the chart", ""),
			number("pressure_bar_gauge", "bar", 0, carbonation.MaxChartBar, "the range of the chart, 30 psi", "above the air around it"),
			altitude,
		},
		Out: []Field{result("volumes_co2", "volumes", 2, ""), result("g_per_l", "g/L", 2, "")},
		do: func(a *args) []float64 {
			v := carbonation.KegVolumes(a.num("temperature_c"), a.num("pressure_bar_gauge"), water.AirPressureKPa(a.num("altitude_m")))
			return []float64{v, v * carbonation.GramsPerVolume}
		},
	},
	{
		Name:   "priming",
		About:  "Primer for beer that has finished fermenting. beer_temperature_c is the warmest it has been since; 0 g where it holds enough already." + glass,
		Source: "stoichiometry by atomic masses, 1.9768 g/L a volume; residual CO2 3.0378 - 0.050062 F + 0.00026555 F²",
		In: []Field{
			number("volume_l", "L", 0.01, 1000, vesselRange, ""),
			number("beer_temperature_c", "°C", carbonation.MinResidualC, carbonation.MaxResidualC, homeRange, "warmest since fermentation ended"),
			number("volumes_co2", "volumes", 0, 6, "beyond it no beer bottle holds", "wanted"),
			{
				Key: "primer", Words: []string{carbonation.TableSugar, carbonation.Dextrose, carbonation.Honey, carbonation.None},
				Default: carbonation.TableSugar, Note: "dextrose is the monohydrate",
			},
			number("moisture_pct", "%", 10, 30, "what honey holds", "of honey as primer").orElse("17.5"),
			altitude,
		},
		Out: []Field{result("primer_g", "g", 1, ""), result("residual_volumes", "volumes", 2, "")},
		do: func(a *args) []float64 {
			kept := carbonation.ResidualVolumesAt(a.num("beer_temperature_c"), water.AirPressureKPa(a.num("altitude_m")))
			g := carbonation.PrimerGPerL(a.word("primer"), a.num("moisture_pct"), kept, a.num("volumes_co2"))
			return []float64{g * a.num("volume_l"), kept}
		},
	},
	{
		Name:   "bottle",
		About:  "What a closed bottle reaches when the beer ferments from gravity_now_sg to gravity_final_sg in it, with primer_g_per_l of table sugar. A point of gravity is half a volume (of a wort of 12 °P; one of 20 °P makes 1 % more). Headspace left out; the pressure is at the sea." + glass,
		Source: "residual CO2 as in priming; Balling, 0.9565 g CO2 of 2.0665 g extract, per litre of finished beer; pressure by Carroll 1991, beer holding 0.945 of what water does (printed charts)",
		In: []Field{
			number("gravity_now_sg", "SG", drySG, density.MaxSG, extractTables, "at bottling"),
			number("gravity_final_sg", "SG", drySG, density.MaxSG, extractTables, "the lowest it may reach"),
			number("primer_g_per_l", "g/L", 0, 50, "30 g/L is far beyond any bottle", "table sugar").orElse("0"),
			number("beer_temperature_c", "°C", carbonation.MinResidualC, carbonation.MaxResidualC, homeRange, "warmest since fermentation ended").orElse("20"),
			number("store_c", "°C", 0, 60, "a car in the sun", "warmest it will be kept at").orElse("25"),
		},
		Out: []Field{result("volumes_co2", "volumes", 2, ""), result("pressure_bar_gauge", "bar", 2, "above the atmosphere")},
		do:  bottle,
	},
}

func bottle(a *args) []float64 {
	now, final := a.num("gravity_now_sg"), a.num("gravity_final_sg")
	if final > now {
		return a.fail("gravity_final_sg", "gravity_final_sg = {final} is above gravity_now_sg = {now}: gravity only falls", plain(final), plain(now))
	}
	per, _ := carbonation.CO2PerGram(carbonation.TableSugar, 0)
	v := carbonation.ResidualVolumes(a.num("beer_temperature_c")) +
		a.num("primer_g_per_l")*per/carbonation.GramsPerVolume +
		carbonation.VolumesFromExtract(carbonation.ExtractBetween(carbonation.UsualWortPlato, now, final))
	return []float64{v, carbonation.BottleBarGauge(a.num("store_c"), v)}
}
