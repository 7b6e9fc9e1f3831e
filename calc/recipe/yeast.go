package recipe

import (
	"math"

	"skep/calc/design"
	"skep/calc/mash"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/yeast"
)

// YeastNotes says where the strain's numbers ask for more than its kind can do.
func YeastNotes(y design.Yeast) []message.Message {
	points, past := yeast.Diastatic(y.AttenuationHighPct, mash.Reference())
	switch {
	case past && !y.EatsDextrin && points > 0.5:
		return []message.Message{message.New("{yeast} is given up to {attenuation} attenuation, more than a yeast reaches that leaves dextrin alone (about {usual} on the reference wort): check the number, or mark the strain as eating dextrin",
			y.Name, wholePct(y.AttenuationHighPct), wholePct(y.AttenuationHighPct-points))}
	case y.EatsDextrin && !past:
		return []message.Message{message.New("{yeast} eats dextrin, but its range ends at {attenuation}: such a strain goes on for weeks, so expect the drier end", y.Name, wholePct(y.AttenuationHighPct))}
	}
	return nil
}

// wholePct is a percentage no finer than one.
func wholePct(v float64) quantity.Quantity { return quantity.Of(quantity.Percent, math.Round(v)) }
