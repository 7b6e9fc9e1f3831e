package brewday

import (
	"math"

	"skep/calc"
	"skep/calc/quantity"
)

func of(k quantity.Kind, v float64) quantity.Quantity { return quantity.Of(k, v) }

func band(k quantity.Kind, b calc.Band) quantity.Quantity {
	return quantity.Quantity{Kind: k, Value: b.Mid, Low: b.Low, High: b.High}
}

// Short constructors of the commonest kinds.
func celsius(v float64) quantity.Quantity { return of(quantity.Temperature, v) }
func litres(v float64) quantity.Quantity  { return of(quantity.Volume, v) }
func grams(v float64) quantity.Quantity   { return of(quantity.MassG, v) }
func kilos(v float64) quantity.Quantity   { return of(quantity.MassKg, v) }
func minutes(v float64) quantity.Quantity { return of(quantity.Minutes, v) }
func hours(v float64) quantity.Quantity   { return of(quantity.WholeHours, v) }
func gravity(v float64) quantity.Quantity { return of(quantity.Gravity, v) }
func percent(v float64) quantity.Quantity { return of(quantity.Percent, v) }
func count(v float64) quantity.Quantity   { return of(quantity.Count, v) }

// weighed is an amount as a kitchen scale can weigh it, g: to a gram, but for a
// pinch.
func weighed(g float64) float64 {
	if g < pinchG {
		return g
	}
	return math.Round(g)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
