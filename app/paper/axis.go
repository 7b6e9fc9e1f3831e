package paper

import (
	"strconv"

	"skep/calc"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/plotting"
)

// Formatter writes quantities in the person's units, for a sheet and for the
// axes of its pictures.
type Formatter struct{ quantity.Formatter }

// Axis is a kind as a picture's axis shows it.
func (f Formatter) Axis(k quantity.Kind) plotting.Unit {
	least := 0
	if k == quantity.Gravity && f.Units().Gravity == quantity.SG {
		least = 3
	}
	tick := plotting.Decimals(least)
	return plotting.Unit{
		Name:      strconv.Itoa(int(k)) + f.Units().Encode(),
		Tick:      func(shown, step float64) string { return f.Marked(tick(shown, step)) },
		ToShown:   func(v float64) float64 { return f.Shown(k, v) },
		FromShown: func(v float64) float64 { return f.Metric(k, v) },
	}
}

// PlotUnits is how the four pictures show the person's units.
func (f Formatter) PlotUnits() plotting.Units {
	return plotting.Units{
		Temperature:      f.Axis(quantity.Temperature),
		TemperatureLabel: f.Message(message.New("mash rest, {unit}", f.Unit(quantity.Temperature))),
		Outcome: [calc.Outcomes]plotting.Unit{
			calc.FinalGravity: f.Axis(quantity.Gravity),
			calc.Strength:     f.Axis(quantity.Strength),
			calc.Dryness:      f.Axis(quantity.Index),
			calc.Body:         f.Axis(quantity.Index),
		},
	}
}
