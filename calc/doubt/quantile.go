package doubt

import (
	"math"
	"slices"
)

// Percentiles finds the 10th, 50th and 90th percentile of x, which it may
// reorder. x must hold at least one value and no NaN.
//
// Each is a mean of the values about its rank, weighted by how well they know it:
// a kernel quantile estimator whose width is that of the rank's own doubt, which
// is what Harrell and Davis's comes to (Biometrika 69, 1982, 635; Sheather and
// Marron, J. Am. Stat. Assoc. 85, 1990, 410). Two neighbours alone take turns as
// a lever moves, and a few hundred draws then put bends into a curve that the
// model does not have. Where values within reach are infinite the two neighbours
// it is.
func Percentiles(x []float64) (low, mid, high float64) {
	var few [usualDraws]float64
	sorted := inOrder(x, few[:])
	mid = at(sorted, 0.5)
	return min(at(sorted, 0.1), mid), mid, max(at(sorted, 0.9), mid) // they may cross by a rounding
}

// reach is how many standard deviations of its rank a percentile looks to each
// side. The kernel (1 - u²)³ has a third of that as its own.
const reach = 3

// at is a percentile of values in order.
func at(sorted []float64, share float64) float64 {
	n := float64(len(sorted))
	half := reach * math.Sqrt(share*(1-share)/(n+1)) * n // in ranks
	middle := share*n - 0.5                              // of the i-th of n, from 0, the share is (i + 1/2)/n
	from, to := max(int(math.Ceil(middle-half)), 0), min(int(middle+half), len(sorted)-1)
	first := sorted[from] // from which all is measured, so that one value is its own mean
	sum, all, per := 0.0, 0.0, 1/half
	for i := from; i <= to; i++ {
		u := (float64(i) - middle) * per
		w := 1 - u*u
		w *= w * w
		sum, all = sum+w*(sorted[i]-first), all+w
	}
	if v := first + sum/all; v-v == 0 {
		return v
	}
	return between(sorted, share)
}

// between is a percentile read between the two values beside its rank.
func between(sorted []float64, share float64) float64 {
	place := share * float64(len(sorted)-1)
	k := int(place)
	a, b := sorted[k], sorted[min(k+1, len(sorted)-1)]
	if a == b || place == float64(k) {
		return a
	}
	return a + (place-float64(k))*(b-a)
}

const (
	usualDraws = 512 // more are sorted where they are
	bins       = 256 // a power of two; about one value each of the usual draws
	roomInBin  = 32
)

// inOrder puts x in order, into room if it fits and spreads: it is done for every
// point of every picture in every frame, and counting values into bins of equal
// width is twice as quick as sorting.
func inOrder(x, room []float64) []float64 {
	if len(x) <= len(room) && intoBins(x, room) {
		return room[:len(x)]
	}
	slices.Sort(x)
	return x
}

// intoBins gives up where values crowd or are infinite.
func intoBins(x, room []float64) bool {
	least, most := x[0], x[0]
	for _, v := range x {
		if v < least { // the built-in min minds NaN, and takes its time
			least = v
		}
		if v > most {
			most = v
		}
	}
	width := (most - least) / bins
	if !(width > 0) || math.IsInf(width, 1) || math.IsInf(1/width, 1) {
		return false
	}
	per := 1 / width
	var next [bins]uint16
	for _, v := range x {
		next[min(uint((v-least)*per), bins-1)]++
	}
	below := uint16(0)
	for i, n := range next {
		if n > roomInBin {
			return false
		}
		next[i], below = below, below+n
	}
	for _, v := range x {
		b := &next[min(uint((v-least)*per), bins-1)]
		room[*b] = v
		*b++
	}
	// Within a bin they lie as they came.
	for i := 1; i < len(x); i++ {
		v, k := room[i], i
		for ; k > 0 && room[k-1] > v; k-- {
			room[k] = room[k-1]
		}
		room[k] = v
	}
	return true
}
