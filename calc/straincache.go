package calc

import (
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/yeast"
)

// strainTakes is a strain's appetite in every draw.
type strainTakes struct {
	low, high float64 // its range
	takes     []yeast.Take
}

// mostStrains is how many strains are kept: those of a comparison.
const mostStrains = 12

// takesOf is the strain's appetite in every draw, from an earlier call if the
// range is the same.
func (e *Engine) takesOf(y design.Yeast) []yeast.Take {
	for _, s := range e.strains {
		if s.low == y.AttenuationLowPct && s.high == y.AttenuationHighPct {
			return s.takes
		}
	}
	var s strainTakes
	if len(e.strains) < mostStrains {
		s.takes = make([]yeast.Take, len(e.draws))
	} else { // the oldest makes room
		s = e.strains[0]
		e.strains = append(e.strains[:0], e.strains[1:]...)
	}
	s.low, s.high = y.AttenuationLowPct, y.AttenuationHighPct
	for i := range e.draws {
		s.takes[i] = takeAt(&y, e.draws[i][doubt.Strain])
	}
	e.strains = append(e.strains, s)
	return s.takes
}
