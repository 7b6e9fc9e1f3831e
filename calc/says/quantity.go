package says

import (
	"math"
	"strconv"
)

// Kind says what a quantity measures, and so its metric unit.
type Kind uint8

// The kinds, with the unit of Value, Low and High.
const (
	None                  Kind = iota // no quantity
	Count                             // a whole number of things
	Temperature                       // °C
	TemperatureDifference             // K
	Gravity                           // SG 20/20
	Points                            // a difference of gravity, in SG (0.003 is three points)
	Strength                          // % by volume
	MassG                             // g
	MassKg                            // kg
	Volume                            // L
	Millilitres                       // mL
	Minutes                           // min
	Hours                             // h
	Percent                           // %
	Index                             // 0 to 100
	Colour                            // EBC
	GramsPerLitre                     // g/L
	MgPerLitre                        // mg/L
	Bitterness                        // IBU
	PH                                // pH
	CO2Volumes                        // litres of gas at 0 °C and 1 atm a litre
	Pressure                          // bar above the atmosphere
	Regulator                         // the same, as a regulator is set: in hundredths
	Cells                             // 1e9 cells
	Flow                              // L/min
	Power                             // W
	Energy                            // kJ/L
	Moment                            // a day and a time; Value means nothing
	LitresPerKg                       // liquor to grain, L/kg
	LitresPerHour                     // steam, L/h
	Days                              // days
	IndexPoints                       // a difference of what runs from 0 to 100
	Tenths                            // a number of no unit, to a tenth
	Factor                            // a number of no unit, to a hundredth
	Degrees                           // K, no finer than a degree
	Raw                               // a number as somebody wrote it
	Kinds                             // how many there are
)

// metric is how each kind is written in metric units.
var metric = [Kinds]struct {
	unit     string
	decimals int
}{
	Temperature: {"°C", 1}, TemperatureDifference: {"°C", 1}, Gravity: {"", 3}, Points: {"", 3}, Strength: {"%", 1},
	MassG: {"g", 0}, MassKg: {"kg", 2}, Volume: {"L", 1}, Millilitres: {"mL", 0}, Minutes: {"min", 0}, Hours: {"h", 0},
	Percent: {"%", 1}, Colour: {"EBC", 0}, GramsPerLitre: {"g/L", 1}, MgPerLitre: {"mg/L", 0}, Bitterness: {"IBU", 0},
	PH: {"", 1}, CO2Volumes: {"volumes", 1}, Pressure: {"bar", 1}, Regulator: {"bar", 2}, Flow: {"L/min", 1}, Power: {"W", 0}, Energy: {"kJ/L", 0},
	LitresPerKg: {"L/kg", 1}, LitresPerHour: {"L/h", 1}, Days: {"days", 1}, IndexPoints: {"points", 1}, Tenths: {"", 1}, Factor: {"", 2}, Degrees: {"°C", 0},
}

// Metric is the metric unit of a kind, empty where it has none, and how many
// decimals it deserves.
func (k Kind) Metric() (unit string, decimals int) {
	if k >= Kinds {
		return "", 0
	}
	return metric[k].unit, metric[k].decimals
}

// Quantity is a number of a kind. Where Low and High are not both 0 it is
// uncertain, and they are its 10th and 90th percentile.
type Quantity struct {
	Kind             Kind
	Value, Low, High float64
	Bare             bool // without its unit, which stands beside it
}

// Of is a quantity without a band.
func Of(k Kind, v float64) Quantity { return Quantity{Kind: k, Value: v} }

// Number is a whole number of things.
func Number(n int) Quantity { return Of(Count, float64(n)) }

// Banded says whether a quantity is uncertain.
func (q Quantity) Banded() bool { return q.Low != 0 || q.High != 0 }

// Plain is the quantity without its band.
func (q Quantity) Plain() Quantity { q.Low, q.High = 0, 0; return q }

// Unitless is the quantity for a place that has the unit beside it.
func (q Quantity) Unitless() Quantity { q.Bare = true; return q }

// String is the quantity in metric units: "9 h (3 to 14)".
func (q Quantity) String() string {
	unit, decimals := q.Kind.Metric()
	number := func(v float64) string {
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			return "–"
		case q.Kind == Raw:
			return strconv.FormatFloat(v, 'g', -1, 64)
		}
		return strconv.FormatFloat(v, 'f', decimals, 64)
	}
	text := number(q.Value)
	if unit != "" && !q.Bare {
		text += " " + unit
	}
	if q.Banded() {
		text += " (" + number(q.Low) + " to " + number(q.High) + ")"
	}
	return text
}
