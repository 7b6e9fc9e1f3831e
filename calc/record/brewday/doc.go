// Package brewday is the record of the brew day's outside checks: water and
// heat, hops, colour, carbon dioxide. It is not linked into the program; a test
// judges every row and the record page prints them.
package brewday

import "skep/calc/record"

// Fitted is the verdict of a row that a constant of ours was fitted to: it
// shows how well, and proves nothing.
const Fitted = "fitted"

// Record is every row, in the order of the day.
func Record() []record.Row {
	var rows []record.Row
	for _, part := range [...]func() []record.Row{Water, Ions, Hops, Cooling, Colour, Solubility, Beer, Bottles} {
		rows = append(rows, part()...)
	}
	return rows
}
