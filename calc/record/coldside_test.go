package record_test

import (
	"fmt"

	"skep/calc/alcohol"
	"skep/calc/coldside"
	"skep/calc/record"
)

// coldSide is hops added cold, heat, sulphite and oxygen.
func coldSide() []record.Row {
	const hops = "Kirkpatrick and Shellhammer, J. Agric. Food Chem. 2018, as quoted"
	fitted := "the two exponentials were made for these two rows"
	var rows []record.Row
	for _, r := range [...]struct{ days, plato float64 }{{5, 1}, {40, 2}} {
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("CK-57: fall of real extract, 10 g/L of Cascade at 20 °C, %v d", r.days), Unit: "°P", Published: r.plato, Source: hops,
			Ours: alcohol.RealPerApparent * coldside.Creep(10, r.days, 20).High, Tolerance: 0.05, Verdict: "fitted", Why: fitted,
		})
	}
	for _, r := range [...]struct{ minutes, c, units float64 }{{15, 60, 15}, {20, 62, 38.8}, {10, 65, 52.4}, {30, 58, 15.5}, {30, 55, 5.7}} {
		ours, _ := coldside.PasteurisationUnits(r.minutes, r.c)
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("CK-58: %v min at %v °C", r.minutes, r.c), Unit: "PU", Published: r.units, Source: "MEBAK B-420.13.032, formula worked out", Ours: ours, Tolerance: 0.06})
	}
	for _, r := range [...]struct {
		spores coldside.Spores
		name   string
		log    float64
	}{{coldside.HardestSpores, "the harder", 1.3}, {coldside.SofterSpores, "the softer", 2.5}} {
		ours, _ := r.spores.LogReduction(15, 60)
		rows = append(rows, record.Row{Quantity: "CK-59: yeast spores killed by 15 min at 60 °C, " + r.name + " strain", Unit: "powers of ten", Published: r.log, Source: "D60 of two strains in lager of 4 % (a thesis, read), worked out", Ours: ours, Tolerance: 0.05})
	}
	return append(rows,
		record.Row{Quantity: "sulphite to be named from", Unit: "mg/L", Published: 10, Source: "Irish and British food authorities, read", Ours: coldside.SulphiteNamedMgPerL, Tolerance: 1e-9},
		record.Row{Quantity: "CK-60: sulphite of 195 beers in the mean, so that most need not name it", Unit: "mg/L", Published: 4.2, Source: "Lachenmeier & Nerlich, BrewingScience 59:114, 2006 (read, abstract)", Ours: coldside.SulphiteNamedMgPerL, Bound: record.AtLeast},
	)
}
