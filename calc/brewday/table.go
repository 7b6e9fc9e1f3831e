package brewday

import (
	"math"

	"skep/calc/message"
	"skep/calc/quantity"
)

// The likely misses for which a correction stands on paper.
func missedSG() []float64 { return []float64{-0.006, -0.003, 0.003, 0.006} }
func missedC() []float64  { return []float64{-2, -1, 1, 2} }

// wortTable is what to do about a gravity before the boil, at the planned volume.
func (b *brew) wortTable() (table []Correction) {
	for _, miss := range missedSG() {
		a := b.beforeBoilIs(b.plan.PreBoil, b.preBoilSG+miss, false)
		table = correct(table, gravity(b.preBoilSG+miss), a.Ways)
	}
	return table
}

// mashTable is what to do about the mash's temperature once it is mixed.
func (b *brew) mashTable() (table []Correction) {
	want := b.d.Mash.Rest[0].TemperatureC
	for _, miss := range missedC() {
		table = correct(table, celsius(want+miss), b.mashWays(want+miss, want))
	}
	return table
}

// correct adds a row, with two ways at most: paper is narrow.
func correct(table []Correction, reads quantity.Quantity, ways []Way) []Correction {
	c := Correction{Reads: reads}
	for _, w := range ways {
		if !w.Short.Empty() && len(c.Do) < 2 {
			c.Do = append(c.Do, w.Short)
		}
	}
	if len(c.Do) == 0 || math.IsNaN(reads.Value) {
		return table
	}
	return append(table, c)
}

// Either is what can be done, one thing or the other.
func (c *Correction) Either() message.Message {
	if len(c.Do) > 1 {
		return message.New("{first}, or {second}", c.Do[0], c.Do[1])
	}
	return c.Do[0]
}
