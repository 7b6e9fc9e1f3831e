package plotting

import (
	"math"
	"strconv"

	"gonum.org/v1/plot"

	"skep/plotting/plotters"
	"skep/plotting/style"
)

// Unit says how the numbers of an axis are shown. Zero shows them as they are.
type Unit struct {
	Name      string                           // tells units apart: ticks are set anew when it changes
	ToShown   func(model float64) float64      // rising; nil: as it is
	FromShown func(shown float64) float64      // its inverse; nil: as it is
	Tick      func(shown, step float64) string // nil: as many decimals as the step needs
	Steps     []float64                        // steps allowed within a decade, rising, 1 first; nil: 1, 2, 5
}

// ticker sets ticks on the round numbers of the unit that is shown, no more
// than there is room for: most intervals at the most, and labels that keep
// apart in a width of wide pixels (0: they stand above each other).
type ticker struct {
	unit Unit
	most int
	wide float64
}

var _ plot.Ticker = ticker{}

// mostTicks bounds the work when a range is absurd, enough the intervals where a
// picture is so large that there is room for more.
const (
	mostTicks = 60
	enough    = 12
)

// Ticks is for plot.Ticker. The values are the model's.
func (t ticker) Ticks(low, high float64) []plot.Tick {
	if !(t.wide > 0) {
		return t.ticks(low, high, t.most)
	}
	for most := t.most; most >= 1; most-- {
		list := t.ticks(low, high, most)
		widest := 0.0
		for _, k := range list {
			widest = math.Max(widest, style.Width(k.Label, style.TickPx, false))
		}
		if float64(len(list))*(widest+style.TickGapXPx) <= t.wide+widest {
			return list
		}
	}
	return nil
}

func (t ticker) ticks(low, high float64, most int) []plot.Tick {
	low, high = t.unit.shown(low), t.unit.shown(high)
	if !plotters.Finite(low) || !plotters.Finite(high) || low >= high || most < 1 {
		return nil
	}
	step := niceStep((high-low)/float64(most), t.unit.Steps)
	if !plotters.Finite(step) || step <= 0 {
		return nil
	}
	// A thousandth of a step forgives the dust of a conversion at the ends.
	first, last := math.Ceil(low/step-1e-3), math.Floor(high/step+1e-3)
	if !(last-first < mostTicks) {
		return nil
	}
	list := make([]plot.Tick, 0, int(last-first)+1)
	for k := first; k <= last; k++ {
		v := k * step
		list = append(list, plot.Tick{Value: t.unit.model(v), Label: t.unit.label(v, step)})
	}
	return list
}

// uprightTicks and levelTicks are the ticks of an axis of so many pixels, set
// once: gonum/plot asks for them again and again.
func uprightTicks(a Axis, high float64) plot.ConstantTicks {
	return ticker{unit: a.Unit, most: min(int(high/style.TickGapYPx), enough)}.Ticks(a.Range.Low, a.Range.High)
}

func levelTicks(a Axis, wide float64) plot.ConstantTicks {
	return ticker{unit: a.Unit, most: min(int(wide/(style.TickGapXPx+7)), 2*enough), wide: wide}.Ticks(a.Range.Low, a.Range.High)
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
