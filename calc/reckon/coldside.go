package reckon

import (
	"skep/calc/carbonation"
	"skep/calc/coldside"
	"skep/calc/density"
	"skep/calc/packaging"
)

// keeping is how a sweetened beer is kept from fermenting again, by what a home
// has.
const keeping = " In a bottle sugar ferments: sweeten with what no yeast takes (lactose is milk, an allergen), or in a keg kept cold, or pasteurise. Sorbate with sulphite keeps a few cells from growing and stops no active yeast: never in a bottle, and by local law (200 mg/L of sorbic acid in kegged beer in the EU, from memory)."

var cold = []Calculation{
	{
		Name:   "dry-hops",
		About:  "How far hops added cold may take the gravity down: their enzymes free sugar from dextrin. From nothing to what the more active varieties do." + glass,
		Source: "Kirkpatrick & Shellhammer, J. Agric. Food Chem. 2018 (as quoted): 10 g/L Cascade, 20 °C, 1 °P real extract in 5 days, about 2 in 40; the band is ours",
		In: []Field{
			number("hops_g_per_l", "g/L", 0, coldside.MaxDoseGPerL, "beyond any dose measured", ""),
			number("days", "days", 0, coldside.MaxCreepDays, "a year", "in the beer, with yeast"),
			number("temperature_c", "°C", 0, 30, "where yeast works", "").orElse("20"),
		},
		Out: []Field{result("fall_points", "points", 1, "middle"), result("fall_points_high", "points", 1, "one in ten falls further"), result("volumes_co2_high", "volumes", 2, "if all of that came in a bottle")},
		do: func(a *args) []float64 {
			f := coldside.Creep(a.num("hops_g_per_l"), a.num("days"), a.num("temperature_c"))
			points := func(plato float64) float64 { return 1000 * (density.SGFromPlato(plato) - 1) }
			return []float64{points(f.Mid), points(f.High), packaging.VolumesPerPoint * points(f.High)}
		},
	},
	{
		Name:   "pasteurise",
		About:  "Pasteurisation units of minutes at a temperature, what they do to the hardest spores of yeast measured, and the pressure in a closed bottle meanwhile (0 volumes: an open vessel). Closed glass of more than 2.5 volumes must not be heated: it may burst. Eye protection, a lid, slow heating and cooling. The enzyme of strains that eat dextrin survives." + glass,
		Source: "MEBAK B-420.13.032, 1.393^(T - 60); spores of brewing yeast, D60 11.2 min, z 11.7 °C (a thesis); Carroll 1991",
		In: []Field{
			number("minutes", "min", 0, 24*60, "a day", ""),
			number("temperature_c", "°C", coldside.MinPasteuriseC, coldside.MaxPasteuriseC, "where beer is pasteurised", ""),
			number("volumes_co2", "volumes", 0, packaging.HeatableVolumes, "closed bottles of more must not be heated", "in the closed bottle").orElse("0"),
		},
		Out: []Field{result("pasteurisation_units", "PU", 1, ""), result("spores_log_killed", "", 1, "powers of ten"), result("pressure_bar_absolute", "bar", 2, "in the closed bottle")},
		do: func(a *args) []float64 {
			minutes, t := a.num("minutes"), a.num("temperature_c")
			units, _ := coldside.PasteurisationUnits(minutes, t)
			logs, _ := coldside.HardestSpores.LogReduction(minutes, t)
			bar, _ := packaging.HeatedBarAbs(a.num("volumes_co2"), t)
			return []float64{units, logs, bar}
		},
	},
	{
		Name:   "sweeten",
		About:  "What sugar added to finished beer does, and what it would do if it fermented." + keeping + glass,
		Source: "stoichiometry by atomic masses; Balling",
		In: []Field{
			number("sugar_g_per_l", "g/L", 0, 100, "sweeter than any beer", "table sugar"),
		},
		Out: []Field{result("gravity_points", "points", 1, "up"), result("volumes_co2", "volumes", 2, "if it ferments in the bottle")},
		do: func(a *args) []float64 {
			g := a.num("sugar_g_per_l")
			per, _ := carbonation.CO2PerGram(carbonation.TableSugar, 0)
			return []float64{1000 * (density.SGFromPlato(g/10) - 1), g * per / carbonation.GramsPerVolume}
		},
	},
}
