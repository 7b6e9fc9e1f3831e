package paper

import (
	"math"
	"strconv"

	"skep/app/quantity"
	"skep/calc/brewday"
	"skep/calc/density"
	"skep/calc/units"
	"skep/plotting"
)

// Formatter writes the quantities of a day in the person's units: what
// package quantity knows as that package does, and the few that only a brew
// day has.
type Formatter struct{ person quantity.Formatter }

// NewFormatter makes a formatter from the person's own.
func NewFormatter(person quantity.Formatter) Formatter { return Formatter{person} }

// known are the kinds that package quantity has too.
var known = map[brewday.Kind]quantity.Kind{
	brewday.Temperature: quantity.Temperature, brewday.TemperatureDifference: quantity.TemperatureDifference,
	brewday.Gravity: quantity.Gravity, brewday.Strength: quantity.Strength,
	brewday.MassG: quantity.MassG, brewday.MassKg: quantity.MassKg, brewday.Volume: quantity.Volume,
	brewday.Minutes: quantity.Minutes, brewday.Percent: quantity.Percent, brewday.Index: quantity.Index,
	brewday.Colour: quantity.Colour, brewday.GramsPerLitre: quantity.GramsPerLitre, brewday.Bitterness: quantity.Bitterness,
}

// How a kind that only a brew day has is shown.
type only struct {
	decimals int
	unit     string
	// Another unit for those who measure volume in gallons, masses in pounds.
	otherFactor   float64
	otherDecimals int
	other         string
}

const millilitresPerFluidOunce = units.LitresPerUSGallon * 1000 / 128

var onlyHere = map[brewday.Kind]only{
	brewday.Count:       {},
	brewday.Hours:       {unit: "h"},
	brewday.MgPerLitre:  {unit: "mg/L"},
	brewday.PH:          {decimals: 1},
	brewday.CO2Volumes:  {decimals: 1, unit: "volumes"},
	brewday.Cells:       {},
	brewday.Power:       {unit: "W"},
	brewday.Energy:      {unit: "kJ/L"},
	brewday.Millilitres: {unit: "mL", otherFactor: 1 / millilitresPerFluidOunce, otherDecimals: 1, other: "fl oz"},
	brewday.Flow:        {decimals: 1, unit: "L/min", otherFactor: 1 / units.LitresPerUSGallon, otherDecimals: 1, other: "gal/min"},
	brewday.LitresPerKg: {decimals: 1, unit: "L/kg", otherFactor: units.QuartsPerPoundFromLitresPerKg(1), otherDecimals: 1, other: "qt/lb"},
	brewday.Pressure:    {decimals: 1, unit: "bar", otherFactor: units.KilopascalsPerBar / units.KilopascalsPerPSI, other: "psi"},
}

const dash = "–"

// Quantity is the value with its unit.
func (f Formatter) Quantity(q brewday.Quantity) string {
	if k, ok := known[q.Kind]; ok {
		return f.person.Format(k, q.Value)
	}
	if q.Kind == brewday.Points {
		return f.points(q.Value)
	}
	o, ok := onlyHere[q.Kind]
	if !ok || math.IsNaN(q.Value) || math.IsInf(q.Value, 0) {
		return dash
	}
	return withUnit(f.number(o, q.Value), f.unit(o))
}

// points is a difference of gravity: points of SG, or degrees Plato.
func (f Formatter) points(sg float64) string {
	if f.person.Units().Gravity == quantity.Plato {
		return f.decimal(density.PlatoFromSG(1+sg), 1) + " °P"
	}
	return f.decimal(1000*sg, 0) + " points"
}

// Range is the band with one unit.
func (f Formatter) Range(q brewday.Quantity) string {
	if k, ok := known[q.Kind]; ok {
		return f.person.FormatRange(k, q.Low, q.High)
	}
	o := onlyHere[q.Kind]
	low, high := f.number(o, q.Low), f.number(o, q.High)
	if low == high {
		return withUnit(low, f.unit(o))
	}
	return withUnit(low+dash+high, f.unit(o))
}

// Unit is what stands behind a blank to fill in.
func (f Formatter) Unit(k brewday.Kind) string {
	if q, ok := known[k]; ok {
		return f.person.Unit(q)
	}
	return f.unit(onlyHere[k])
}

// Axis is a kind as a picture's axis shows it.
func (f Formatter) Axis(k brewday.Kind) plotting.Unit {
	q, ok := known[k]
	if !ok {
		return plotting.Unit{}
	}
	u := plotting.Unit{
		Name:      f.person.Unit(q) + strconv.Itoa(int(k)),
		ToShown:   func(v float64) float64 { return f.person.Shown(q, v) },
		FromShown: func(v float64) float64 { return f.person.Metric(q, v) },
	}
	if k == brewday.Gravity && f.person.Units().Gravity == quantity.SG {
		u.Tick = plotting.Decimals(3)
	}
	return u
}

func (f Formatter) gallons() bool { return f.person.Units().Volume == quantity.USGallon }

func (f Formatter) number(o only, v float64) string {
	if o.other != "" && f.gallons() {
		return f.decimal(v*o.otherFactor, o.otherDecimals)
	}
	return f.decimal(v, o.decimals)
}

func (f Formatter) unit(o only) string {
	if o.other != "" && f.gallons() {
		return o.other
	}
	return o.unit
}

// decimal writes a number as package quantity writes one of no unit, without
// or with one decimal.
func (f Formatter) decimal(v float64, decimals int) string {
	if decimals > 0 {
		return f.person.Number(quantity.Strength, v)
	}
	return f.person.Number(quantity.Index, v)
}

func withUnit(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}
