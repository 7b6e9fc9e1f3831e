package plotting

import (
	"math"

	"skep/calc"
)

// Picture is what one picture shows. The zero value draws an empty one.
type Picture struct {
	Outcome calc.Outcome
	Title   string // written on the sheet only; the window has its own heading
	Value   string // written on the sheet only
	X, Y    Axis
	AtC     float64  // the design's own temperature; NaN when it has none
	Series  []Series // drawn first to last, so the present design comes last
}

// Axis is the range of a picture in the model's unit, and how to show it.
type Axis struct {
	Range Range
	Label string // written under the temperature axis only
	Unit  Unit
}

// Unit says how the numbers of an axis are shown. Zero shows them as they are.
type Unit struct {
	Name      string                           // tells units apart: ticks are set anew when it changes
	ToShown   func(model float64) float64      // rising; nil: as it is
	FromShown func(shown float64) float64      // its inverse; nil: as it is
	Tick      func(shown, step float64) string // nil: as many decimals as the step needs
	Steps     []float64                        // steps allowed within a decade, rising, 1 first; nil: 1, 2, 5
}

// Role says what a series is to the reader; the palette says how it looks.
type Role int

// The roles.
const (
	Now    Role = iota // the present design: accent, full line, band, marked point
	Before             // the ghost: a dashed line
	Strain             // one of several, told apart by colour, dash and marker
)

// Series is one line of a picture.
type Series struct {
	Name         string // written where the line ends
	Role         Role
	Index        int  // which strain, from 0
	ShowBand     bool // show the band of a Strain too
	TemperatureC []float64
	Band         []calc.Band // as long as TemperatureC; a NaN leaves a gap
	Mark         calc.Band   // value at the picture's AtC; the zero Band: read off the line
}

// Line is one design or strain as the engine gives it: all four outcomes.
type Line struct {
	Name     string
	Role     Role
	Index    int
	ShowBand bool
	Curves   calc.Curves
	Marks    [calc.Outcomes]calc.Band // at the design's temperature; zero: read off the curves
}

// Units are the units of a set of four pictures.
type Units struct {
	Temperature      Unit
	TemperatureLabel string // "mash rest, °C"
	Outcome          [calc.Outcomes]Unit
}

// Four makes the four pictures, in the order of calc's outcomes. The lines
// are drawn first to last. atC is NaN when there is no design to mark.
func Four(lines []Line, atC float64, ranges Ranges, units Units) []Picture {
	pictures := make([]Picture, calc.Outcomes)
	for o := range calc.Outcomes {
		series := make([]Series, len(lines))
		for i, l := range lines {
			series[i] = Series{
				Name: l.Name, Role: l.Role, Index: l.Index, ShowBand: l.ShowBand,
				TemperatureC: l.Curves.TemperatureC,
				Band:         l.Curves.Bands[o],
				Mark:         l.Marks[o],
			}
		}
		pictures[o] = Picture{
			Outcome: o,
			X:       Axis{Range: ranges.TemperatureC, Label: units.TemperatureLabel, Unit: units.Temperature},
			Y:       Axis{Range: ranges.Outcome[o], Unit: units.Outcome[o]},
			AtC:     atC,
			Series:  series,
		}
	}
	return pictures
}

// length is how many points of the series can be used.
func (s *Series) length() int { return min(len(s.TemperatureC), len(s.Band)) }

// at is the band at a temperature: the mark where one was given, otherwise
// read off the line between its neighbours; NaN outside it.
func (s *Series) at(tempC float64) calc.Band {
	if s.Mark != (calc.Band{}) {
		return s.Mark
	}
	nan := calc.Band{Low: math.NaN(), Mid: math.NaN(), High: math.NaN()}
	if !finite(tempC) {
		return nan
	}
	for i := 1; i < s.length(); i++ {
		t0, t1 := s.TemperatureC[i-1], s.TemperatureC[i]
		if !(t0 <= tempC && tempC <= t1 && t0 < t1) {
			continue
		}
		f := (tempC - t0) / (t1 - t0)
		a, b := s.Band[i-1], s.Band[i]
		return calc.Band{
			Low:  a.Low + f*(b.Low-a.Low),
			Mid:  a.Mid + f*(b.Mid-a.Mid),
			High: a.High + f*(b.High-a.High),
		}
	}
	return nan
}

func (s *Series) banded() bool {
	switch s.Role {
	case Now:
		return true
	case Strain:
		return s.ShowBand
	default:
		return false
	}
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
