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
	lowest, middle, highest := ranksOf(len(x), 0.1), ranksOf(len(x), 0.5), ranksOf(len(x), 0.9)
	sorted := few[:min(len(x), len(few))]
	if len(x) > len(few) || !intoBins(x, sorted, lowest, middle, highest) {
		slices.Sort(x)
		sorted = x
	}
	mid = middle.mean(sorted)
	return min(lowest.mean(sorted), mid), mid, max(highest.mean(sorted), mid) // they may cross by a rounding
}

// reach is how many standard deviations of its rank a percentile looks to each
// side. The kernel (1 - u²)³ has a third of that as its own.
const reach = 3

// ranks are the values in order that a percentile looks at, from 0.
type ranks struct {
	share, middle, half float64
	from, to            int // both among them
}

func ranksOf(n int, share float64) ranks {
	r := ranks{share: share, middle: share*float64(n) - 0.5} // of the i-th of n, from 0, the share is (i + 1/2)/n
	r.half = reach * math.Sqrt(share*(1-share)/float64(n+1)) * float64(n)
	r.from, r.to = max(int(math.Ceil(r.middle-r.half)), 0), min(int(r.middle+r.half), n-1)
	return r
}

// mean is the percentile of values in order.
func (r *ranks) mean(sorted []float64) float64 {
	first := sorted[r.from] // from which all is measured, so that one value is its own mean
	sum, all, per := 0.0, 0.0, 1/r.half
	for i := r.from; i <= r.to; i++ {
		u := (float64(i) - r.middle) * per
		w := 1 - u*u
		w *= w * w
		sum, all = sum+w*(sorted[i]-first), all+w
	}
	if v := first + sum/all; v-v == 0 {
		return v
	}
	return between(sorted, r.share)
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

// intoBins puts x into room so that the values of some ranks, or of all, stand there in
// order: it is done for every point of every picture in every frame, and counting values
// into bins of equal width is twice as quick as sorting, more so where the bins that
// nobody looks at stay as they are. It gives up where values crowd or are infinite.
func intoBins(x, room []float64, wanted ...ranks) bool {
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
	var ends [bins]uint16 // of each bin; at first how many it holds, then where it begins
	var bin [usualDraws]uint8
	for i, v := range x {
		k := min(uint((v-least)*per), bins-1)
		bin[i] = uint8(k)
		ends[k]++
	}
	below := uint16(0)
	for i, n := range ends {
		if n > roomInBin {
			return false
		}
		ends[i], below = below, below+n
	}
	for i, v := range x {
		k := &ends[bin[i]]
		room[*k] = v
		*k++
	}
	if len(wanted) == 0 {
		wanted = []ranks{{to: len(x) - 1}}
	}
	for i := range wanted {
		// Within a bin they lie as they came, so the first bin is taken from its begin.
		r, from := &wanted[i], 0
		if k := min(uint((room[r.from]-least)*per), bins-1); k > 0 {
			from = int(ends[k-1])
		}
		to := int(ends[min(uint((room[r.to]-least)*per), bins-1)])
		for i := from + 1; i < to; i++ {
			v, k := room[i], i
			for ; k > from && room[k-1] > v; k-- {
				room[k] = room[k-1]
			}
			room[k] = v
		}
	}
	return true
}
