// Package basics lists the outside checks of the basic quantities: density and
// extract, alcohol, honey. Each row has the published value, where it was read,
// ours, and the largest difference that still agrees. It is for tests and the
// validation report; the program does not link it.
//
// A row whose source says "from memory" was not read in a source. Rows that a
// constant was fitted to carry the verdict "fitted" and prove nothing but the
// fit; no fitted row is counted as a check.
package basics

import "skep/calc/record"

// Fitted marks a row that a constant was fitted to or interpolates.
const Fitted = "fitted"

// Record is every row of this package, in order.
func Record() []record.Row {
	var rows []record.Row
	for _, f := range []func() []record.Row{Density, Alcohol, Honey} {
		rows = append(rows, f()...)
	}
	return rows
}
