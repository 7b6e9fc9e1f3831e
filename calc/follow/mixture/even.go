package mixture

import (
	"cmp"
	"slices"

	"skep/calc/parallel"
)

// How draws of equal weight are made to spread as the weighted ones do (ours).
const (
	evenParts = 32  // of equal weight, into which each quality is cut
	evenReach = 12  // places to each side that a draw looks for another
	evenLeast = 0.1 // of an equal share, that a draw must weigh to stand in for another
)

// Even is so many draws of equal weight in place of weighted ones, by their places:
// systematic resampling in order of the first quality (what a draw comes to: a value
// for each), then each draw gives way to the neighbour in that order that
// spreads the other qualities best, as the weights have them. In the order of one
// quality alone the others come out as if drawn at random, and another seed of the
// sampler moves the ends of their bands by as much again as all the weighing does.
func Even(weights []float64, qualities [][]float64, count int) []int {
	n := len(weights)
	orders, part := make([][]int, len(qualities)), make([][]int, len(qualities)) // by quality; part also by draw: that of equal weight which it lies in
	parallel.Each(2, len(qualities), func(_, q int) {
		order, of := make([]int, n), qualities[q]
		for i := range order {
			order[i] = i
		}
		slices.SortFunc(order, func(a, b int) int {
			switch x, y := of[a], of[b]; {
			case x < y:
				return -1
			case x > y:
				return 1
			}
			return cmp.Compare(a, b)
		})
		part[q] = make([]int, n)
		sum := 0.0
		for _, i := range order {
			part[q][i] = min(int((sum+weights[i]/2)*evenParts), evenParts-1)
			sum += weights[i]
		}
		orders[q] = order
	})
	order := orders[0]
	over := make([][evenParts]float64, len(qualities)) // draws above what the weights have in a part
	for q := range over {
		for i, w := range weights {
			over[q][part[q][i]] -= float64(count) * w
		}
	}
	places := make([]int, count) // in the order, which is that of the first quality
	sum, k := 0.0, 0
	for j := range places {
		want := (float64(j) + 0.5) / float64(count)
		for k < n-1 && sum+weights[order[k]] < want {
			sum += weights[order[k]]
			k++
		}
		places[j] = k
		for q := range over {
			over[q][part[q][order[k]]]++
		}
	}
	out := make([]int, count)
	for j, from := range places {
		was, best, least := order[from], order[from], 0.0
		for k := max(from-evenReach, 0); k <= min(from+evenReach, n-1); k++ {
			i := order[k]
			if weights[i] < evenLeast/float64(count) {
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
