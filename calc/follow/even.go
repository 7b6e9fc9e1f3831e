package follow

import (
	"cmp"
	"slices"

	"skep/calc"
)

// evenCount is how many draws of equal weight stand for the posterior.
const evenCount = calc.Draws

// How draws of equal weight are made to spread as the weighted ones do (ours).
const (
	evenParts = 32  // of equal weight, into which each quality is cut
	evenReach = 12  // places to each side that a draw looks for another
	evenLeast = 0.1 // of an equal share, that a draw must weigh to stand in for another
)

// even is the posterior as draws of equal weight: systematic resampling in order of
// the first quality, then each draw gives way to the neighbour in that order that
// spreads the other qualities best, as the weights have them. In the order of one
// quality alone the others come out as if drawn at random, and another seed of the
// sampler moves the ends of their bands by as much again as all the weighing does.
func (s *sample) even() []int {
	n := len(s.draws)
	order := make([]int, n)
	var part [qualities][]int // by quality and draw: the part of equal weight that it lies in
	for q := qualities - 1; q >= 0; q-- {
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(s.beers[a][q], s.beers[b][q]) })
		part[q] = make([]int, n)
		sum := 0.0
		for _, i := range order {
			part[q][i] = min(int((sum+s.weights[i]/2)*evenParts), evenParts-1)
			sum += s.weights[i]
		}
	}
	var over [qualities][evenParts]float64 // draws above what the weights have in a part
	for q := range over {
		for i, w := range s.weights {
			over[q][part[q][i]] -= evenCount * w
		}
	}
	places := make([]int, evenCount) // in the order, which is that of the first quality
	sum, k := 0.0, 0
	for j := range places {
		want := (float64(j) + 0.5) / evenCount
		for k < n-1 && sum+s.weights[order[k]] < want {
			sum += s.weights[order[k]]
			k++
		}
		places[j] = k
		for q := range over {
			over[q][part[q][order[k]]]++
		}
	}
	out := make([]int, evenCount)
	for j, from := range places {
		was, best, least := order[from], order[from], 0.0
		for k := max(from-evenReach, 0); k <= min(from+evenReach, n-1); k++ {
			i := order[k]
			if s.weights[i] < evenLeast/evenCount {
				continue
			}
			more := 0.0 // of the sum of squares
			for q := range over {
				if a, b := part[q][was], part[q][i]; a != b {
					more += over[q][b] - over[q][a] + 1
				}
			}
			if more < least {
				best, least = i, more
			}
		}
		for q := range over {
			over[q][part[q][was]]--
			over[q][part[q][best]]++
		}
		out[j] = best
	}
	return out
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
