package follow

import (
	"skep/calc"
	"skep/calc/follow/mixture"
)

// even is the posterior as draws of equal weight, as many as an engine takes: the
// place of each.
func (s *sample) even() []int {
	values := make([][]float64, qualities)
	for q := range values {
		for i := range s.beers {
			values[q] = append(values[q], s.beers[i][q])
		}
	}
	return mixture.Even(s.weights, values, calc.Draws)
}

// summary is what of a draw's beer is kept, by quality: what its draws of equal
// weight are spread by.
type summary [qualities]float64

// The qualities of a summary.
const (
	finalSG    = iota // the first, by which draws are put in order
	aheadSG           // a day from now
	atHeightSG        // at the hour of the plan's height
	originalPlato
	strengthPct
	qualities
)

func (g *target) summary(l *evaluation) summary {
	return summary{
		finalSG: l.FinalGravitySG, aheadSG: l.GravityAt(g.nowHours + 24), atHeightSG: l.GravityAt(g.heightHours),
		originalPlato: l.OriginalPlato, strengthPct: l.ABVPct,
	}
}
