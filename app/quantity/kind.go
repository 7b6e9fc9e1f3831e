package quantity

import "math"

// Kind says what a number measures, and so its metric unit (see the package
// comment), its precision on the screen and the words accepted for it.
type Kind uint8

// The kinds of quantity. MassG and MassKg differ in the metric unit and in
// what a bare number means: "550" is grams (or ounces) for the one, kilograms
// (or pounds) for the other.
const (
	Temperature Kind = iota
	TemperatureDifference
	Gravity
	Strength
	MassG
	MassKg
	Volume
	Minutes
	Hours
	Percent
	Index
	Colour
	GramsPerLitre
	Bitterness
	LitresPerKg   // liquor to grain, or what grain keeps
	LitresPerHour // steam
	kindCount
)

// Limits is the range a value may lie in, in the kind's metric unit. The zero
// value stands for the kind's own widest range.
type Limits struct{ Low, High float64 }

// trait is what is fixed about a kind, whatever the person's units.
type trait struct {
	// widest is no physics, only a guard against slips of the key: the design
	// file's own ranges are narrower and handed in by the caller.
	widest Limits
	// kept is the number of decimals that a typed metric value is rounded to:
	// at least two digits finer than any unit shows, so that a value in one
	// unit comes back unchanged in another, yet files don't fill with dust.
	kept int
}

var traits = [kindCount]trait{
	Temperature:           {Limits{-50, 200}, 3},
	TemperatureDifference: {Limits{-250, 250}, 3},
	Gravity:               {Limits{0.9, 1.3}, 5},
	Strength:              {Limits{0, 30}, 3},
	MassG:                 {Limits{0, 1e6}, 2},
	MassKg:                {Limits{0, 1000}, 5},
	Volume:                {Limits{0, 10000}, 4},
	Minutes:               {Limits{0, 20160}, 2},
	Hours:                 {Limits{-2400, 8760}, 3},
	Percent:               {Limits{-100, 200}, 3},
	Index:                 {Limits{0, 100}, 2},
	Colour:                {Limits{0, 2000}, 3},
	GramsPerLitre:         {Limits{0, 2000}, 4},
	Bitterness:            {Limits{0, 500}, 2},
	LitresPerKg:           {Limits{0, 100}, 4},
	LitresPerHour:         {Limits{0, 1000}, 4},
}

// Widest is the range outside which a value of the kind is taken for a slip.
func (k Kind) Widest() Limits {
	if k >= kindCount {
		return Limits{}
	}
	return traits[k].widest
}

func (l Limits) or(k Kind) Limits {
	if l == (Limits{}) || math.IsNaN(l.Low) || math.IsNaN(l.High) || l.Low > l.High {
		return k.Widest()
	}
	return l
}

func roundTo(v float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Round(v*p) / p
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
