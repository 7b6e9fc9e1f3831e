package brewday

import (
	"math"

	"skep/calc"
	"skep/calc/says"
)

func of(k says.Kind, v float64) says.Quantity { return says.Of(k, v) }

func band(k says.Kind, b calc.Band) says.Quantity {
	return says.Quantity{Kind: k, Value: b.Mid, Low: b.Low, High: b.High}
}

// Short constructors of the commonest kinds.
func celsius(v float64) says.Quantity { return of(says.Temperature, v) }
func litres(v float64) says.Quantity  { return of(says.Volume, v) }
func grams(v float64) says.Quantity   { return of(says.MassG, v) }
func kilos(v float64) says.Quantity   { return of(says.MassKg, v) }
func minutes(v float64) says.Quantity { return of(says.Minutes, v) }
func hours(v float64) says.Quantity   { return of(says.Hours, v) }
func gravity(v float64) says.Quantity { return of(says.Gravity, v) }
func percent(v float64) says.Quantity { return of(says.Percent, v) }
func count(v float64) says.Quantity   { return of(says.Count, v) }

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
