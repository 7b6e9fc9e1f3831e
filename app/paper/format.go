package paper

import (
	"math"
	"strconv"

	"skep/app/quantity"
	"skep/calc/density"
	"skep/calc/says"
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
var known = map[says.Kind]quantity.Kind{
	says.Temperature: quantity.Temperature, says.TemperatureDifference: quantity.TemperatureDifference,
	says.Gravity: quantity.Gravity, says.Strength: quantity.Strength,
	says.MassG: quantity.MassG, says.MassKg: quantity.MassKg, says.Volume: quantity.Volume,
	says.Minutes: quantity.Minutes, says.Percent: quantity.Percent, says.Index: quantity.Index,
	says.Colour: quantity.Colour, says.GramsPerLitre: quantity.GramsPerLitre, says.Bitterness: quantity.Bitterness,
	says.LitresPerKg: quantity.LitresPerKg, says.LitresPerHour: quantity.LitresPerHour,
}

// KindOf is the kind of package quantity's, where it has one.
func KindOf(k says.Kind) (kind quantity.Kind, ok bool) { kind, ok = known[k]; return kind, ok }

// inGallons are the kinds that package quantity lacks and that have another
// unit for those who measure volume in gallons, masses in pounds.
var inGallons = map[says.Kind]struct {
	factor   float64
	decimals int
	unit     string
}{
	says.Millilitres: {1 / millilitresPerFluidOunce, 1, "fl oz"},
	says.Flow:        {1 / units.LitresPerUSGallon, 1, "gal/min"},
	says.Pressure:    {units.KilopascalsPerBar / units.KilopascalsPerPSI, 0, "psi"},
	says.Regulator:   {units.KilopascalsPerBar / units.KilopascalsPerPSI, 1, "psi"},
}

const millilitresPerFluidOunce = units.LitresPerUSGallon * 1000 / 128

const dash = "–"

// Quantity is the value with its unit, without its band.
func (f Formatter) Quantity(q says.Quantity) string {
	switch k, ok := known[q.Kind]; {
	case q.Bare:
		return f.number(q.Kind, q.Value)
	case ok:
		return f.person.Format(k, q.Value)
	case q.Kind == says.None || q.Kind == says.Moment || math.IsNaN(q.Value) || math.IsInf(q.Value, 0):
		return dash
	}
	return withUnit(f.number(q.Kind, q.Value), f.Unit(q.Kind))
}

// Range is the band with one unit.
func (f Formatter) Range(q says.Quantity) string {
	if k, ok := known[q.Kind]; ok {
		return f.person.FormatRange(k, q.Low, q.High)
	}
	low, high := f.number(q.Kind, q.Low), f.number(q.Kind, q.High)
	if low == high {
		return withUnit(low, f.Unit(q.Kind))
	}
	return withUnit(low+dash+high, f.Unit(q.Kind))
}

// Unit is what stands behind a number, or a blank to fill in.
func (f Formatter) Unit(k says.Kind) string {
	if q, ok := known[k]; ok {
		return f.person.Unit(q)
	}
	if k == says.Points { // a difference of gravity
		if f.plato() {
			return "°P"
		}
		return "points"
	}
	if k == says.Degrees {
		return f.person.Unit(quantity.TemperatureDifference)
	}
	if other, ok := inGallons[k]; ok && f.gallons() {
		return other.unit
	}
	unit, _ := k.Metric()
	return unit
}

// Axis is a kind as a picture's axis shows it.
func (f Formatter) Axis(k says.Kind) plotting.Unit {
	least := 0
	if k == says.Gravity && f.person.Units().Gravity == quantity.SG {
		least = 3
	}
	tick := plotting.Decimals(least)
	u := plotting.Unit{
		Name: strconv.Itoa(int(k)) + f.person.Units().Encode(),
		Tick: func(shown, step float64) string { return f.person.Marked(tick(shown, step)) },
	}
	if q, ok := known[k]; ok {
		u.ToShown = func(v float64) float64 { return f.person.Shown(q, v) }
		u.FromShown = func(v float64) float64 { return f.person.Metric(q, v) }
	}
	return u
}

func (f Formatter) gallons() bool { return f.person.Units().Volume == quantity.USGallon }

func (f Formatter) plato() bool { return f.person.Units().Gravity == quantity.Plato }

// number is a value without its unit.
func (f Formatter) number(k says.Kind, v float64) string {
	if q, ok := known[k]; ok {
		return f.person.Number(q, v)
	}
	_, decimals := k.Metric()
	switch {
	case k == says.Points && f.plato():
		v, decimals = density.PlatoFromSG(1+v), 1
	case k == says.Points:
		v, decimals = 1000*v, 0
	case k == says.Raw:
		decimals = -1
	case k == says.Degrees:
		v = f.person.Shown(quantity.TemperatureDifference, v)
	case f.gallons():
		if other, ok := inGallons[k]; ok {
			v, decimals = v*other.factor, other.decimals
		}
	}
	return f.person.Plain(v, decimals)
}

func withUnit(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}
