package plotting

import "skep/calc"

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
	Than         string // a difference, written there in the place of the name
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
	Than     [calc.Outcomes]string    // what it has more than another line; written in the place of the name
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
				Name: l.Name, Than: l.Than[o], Role: l.Role, Index: l.Index, ShowBand: l.ShowBand,
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
