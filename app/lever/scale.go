package lever

import (
	"math"
	"slices"
)

// Scale is the range of a lever and its steps.
type Scale struct {
	Min, Max float64
	// Step is one press of an arrow key, and the grid that pointer and keys
	// keep to, counted from Min. What the programme sets or a person types may
	// lie between. Max can always be reached, whether or not a step hits it.
	Step float64
	// Big is an arrow with Shift, Page a Page key; 0 means ten and five big
	// steps.
	Big, Page float64
	// Stops, when given, are the only places that pointer and keys go to, in
	// rising order, instead of the grid. Big and Page then skip as many stops
	// as they are steps.
	Stops []float64
}

// sound replaces what no lever could work with, so that a careless range shows
// as a dull lever rather than as NaN.
func (s Scale) sound() Scale {
	bad := func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }
	if bad(s.Min) || bad(s.Max) || s.Max < s.Min {
		s.Min, s.Max = 0, 0
	}
	if bad(s.Step) || s.Step <= 0 {
		s.Step = (s.Max - s.Min) / 100
	}
	if bad(s.Big) || s.Big <= 0 {
		s.Big = 10 * s.Step
	}
	if bad(s.Page) || s.Page <= 0 {
		s.Page = 5 * s.Big
	}
	return s
}

// Clamp brings a value into the range; what is not a number goes to Min.
func (s Scale) Clamp(v float64) float64 {
	if math.IsNaN(v) {
		return s.Min
	}
	return math.Min(math.Max(v, s.Min), s.Max)
}

// Fraction is where a value stands on the track, from 0 to 1.
func (s Scale) Fraction(v float64) float64 {
	if !(s.Max > s.Min) {
		return 0
	}
	return (s.Clamp(v) - s.Min) / (s.Max - s.Min)
}

// Snap gives the nearest place on the grid (or stop), ends included.
func (s Scale) Snap(v float64) float64 {
	s = s.sound()
	v = s.Clamp(v)
	if len(s.Stops) > 0 {
		best := s.Stops[0]
		for _, stop := range s.Stops {
			if math.Abs(stop-v) < math.Abs(best-v) {
				best = stop
			}
		}
		return best
	}
	if s.Step == 0 {
		return s.Min
	}
	g := s.at(math.Round((v - s.Min) / s.Step))
	if math.Abs(s.Max-v) < math.Abs(g-v) {
		return s.Max
	}
	return g
}

// Move goes from a value by a stride (Step, Big or Page; negative is down). A
// value between two places goes first to the next one that way, so that keys
// get back onto the grid.
func (s Scale) Move(v, stride float64) float64 {
	s = s.sound()
	v = s.Clamp(v)
	if s.Step == 0 || stride == 0 {
		return v
	}
	n := math.Max(1, math.Round(math.Abs(stride)/s.Step))
	if len(s.Stops) > 0 {
		return s.moveStops(v, int(math.Min(n, 1e6)), stride < 0)
	}
	const dust = 1e-6 // of a step: what arithmetic leaves behind
	k := (v - s.Min) / s.Step
	if stride > 0 {
		return s.at(math.Floor(k+dust) + n)
	}
	return s.at(math.Ceil(k-dust) - n)
}

func (s Scale) moveStops(v float64, n int, down bool) float64 {
	i, hit := slices.BinarySearch(s.Stops, v) // first stop at or above v
	switch {
	case down:
		i -= n
	case hit:
		i += n
	default:
		i += n - 1
	}
	return s.Stops[min(max(i, 0), len(s.Stops)-1)]
}

// at is the k-th place of the grid, free of float dust: 58 and 85 steps of 0.1
// are 66.5 and not 66.50000000000001, because the sum is rounded to the
// decimals that Min and Step themselves have.
func (s Scale) at(k float64) float64 {
	v := s.Min + k*s.Step
	p := math.Pow10(max(decimals(s.Min), decimals(s.Step)))
	return s.Clamp(math.Round(v*p) / p)
}

// decimals counts the decimals a number is written with, at most 9.
func decimals(v float64) int {
	for d := range 9 {
		x := v * math.Pow10(d)
		if math.Abs(x-math.Round(x)) < 1e-9*math.Max(1, math.Abs(x)) {
			return d
		}
	}
	return 9
}
