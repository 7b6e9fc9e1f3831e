package reckon

import "slices"

// all is the list, in the order of interface.md's table.
var all = slices.Concat(gravities, honeys, mashes, hopsAndColour, gas, cold, liquor)

func number(key, unit string, low, high float64, why, note string) Field {
	return Field{Key: key, Unit: unit, Min: low, Max: high, Why: why, Note: note}
}

// orElse gives an argument its default.
func (f Field) orElse(text string) Field {
	f.Default = text
	return f
}

// ifGiven makes an argument count only when given.
func (f Field) ifGiven() Field {
	f.Optional = true
	return f
}

func result(key, unit string, digits int, note string) Field {
	return Field{Key: key, Unit: unit, Digits: digits, Note: note}
}

// Ranges used more than once.
const (
	vesselRange = "what a home or nano brewery holds"
	homeRange   = "temperatures at which beer is kept"
)
