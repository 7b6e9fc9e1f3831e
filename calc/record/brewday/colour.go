package brewday

import (
	"fmt"

	"skep/calc/colour"
	"skep/calc/record"
	"skep/calc/units"
)

// Colour is the rule that turns malt into a beer's colour.
func Colour() []record.Row {
	const morey = "D. A. Morey's formula, worked out"
	var rows []record.Row
	for _, r := range [...]struct{ mcu, srm, ebc float64 }{
		{2, 2.401, 4.73}, {5, 4.500, 8.86}, {8, 6.212, 12.23}, {10, 7.240, 14.25},
		{15, 9.561, 18.82}, {20, 11.647, 22.93}, {30, 15.381, 30.28}, {40, 18.736, 36.88},
	} {
		rows = append(rows,
			record.Row{Quantity: fmt.Sprintf("colour of %v MCU", r.mcu), Unit: "SRM", Published: r.srm, Source: morey, Ours: colour.MoreySRM(r.mcu), Tolerance: 0.001},
			record.Row{Quantity: fmt.Sprintf("colour of %v MCU", r.mcu), Unit: "EBC", Published: r.ebc, Source: morey, Ours: colour.MoreyEBC(r.mcu), Tolerance: 0.01})
	}
	mcu := colour.MCU(4, 2, 20) + colour.MCU(0.3, 20, 20)
	rows = append(rows,
		record.Row{Quantity: "4.0 kg of 2 °L and 0.3 kg of 20 °L in 20 L", Unit: "MCU", Published: 5.8418, Source: "definition, worked out", Ours: mcu, Tolerance: 1e-3},
		record.Row{Quantity: "the same", Unit: "SRM", Published: 5.007, Source: morey, Ours: colour.MoreySRM(mcu), Tolerance: 0.001})
	for _, r := range [...]struct{ lovibond, srm float64 }{{10, 12.7}, {40, 53.4}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("malt of %v °L", r.lovibond), Unit: "SRM", Published: r.srm, Source: "an encyclopaedia's page on the method", Ours: units.SRMFromEBC(colour.EBCFromLovibond(r.lovibond)), Tolerance: 0.1})
	}
	return rows
}
