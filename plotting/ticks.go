package plotting

import (
	"math"
	"strconv"
)

// tick is one labelled place on an axis.
type tick struct {
	at    float64 // in the model's unit
	label string
}

// mostTicks bounds the work when a range is absurd.
const mostTicks = 60

// ticks finds the round numbers of an axis in the unit that is shown. most is
// how many intervals there is room for.
func ticks(a Axis, most int) []tick {
	low, high := a.Unit.shown(a.Range.Low), a.Unit.shown(a.Range.High)
	if !finite(low) || !finite(high) || low >= high || most < 1 {
		return nil
	}
	step := niceStep((high-low)/float64(most), a.Unit.Steps)
	if !finite(step) || step <= 0 {
		return nil
	}
	// A thousandth of a step forgives the dust of a conversion at the ends.
	first, last := math.Ceil(low/step-1e-3), math.Floor(high/step+1e-3)
	if !(last-first < mostTicks) {
		return nil
	}
	list := make([]tick, 0, int(last-first)+1)
	for k := first; k <= last; k++ {
		v := k * step
		list = append(list, tick{at: a.Unit.model(v), label: a.Unit.label(v, step)})
	}
	return list
}

// niceStep is the smallest allowed step not below want.
func niceStep(want float64, steps []float64) float64 {
	if len(steps) == 0 {
		steps = []float64{1, 2, 5}
	}
	decade := math.Pow(10, math.Floor(math.Log10(want)))
	for _, s := range steps {
		if s*decade >= want*(1-1e-9) {
			return s * decade
		}
	}
	return 10 * decade
}

func (u Unit) shown(v float64) float64 {
	if u.ToShown == nil {
		return v
	}
	return u.ToShown(v)
}

func (u Unit) model(v float64) float64 {
	if u.FromShown == nil {
		return v
	}
	return u.FromShown(v)
}

func (u Unit) label(v, step float64) string {
	if u.Tick == nil {
		return Decimals(0)(v, step)
	}
	return u.Tick(v, step)
}

// Decimals makes a tick formatter that writes as many decimals as the step
// needs, but no fewer than least (3 for a specific gravity).
func Decimals(least int) func(shown, step float64) string {
	return func(shown, step float64) string {
		n := least
		for n < 9 && math.Abs(step*math.Pow10(n)-math.Round(step*math.Pow10(n))) > 1e-6 {
			n++
		}
		text := strconv.FormatFloat(shown, 'f', n, 64)
		if zero := strconv.FormatFloat(0, 'f', n, 64); text == "-"+zero {
			return zero
		}
		return text
	}
}
