package doubt

import "math"

// Percentiles finds the 10th, 50th and 90th percentile of x, which it may
// reorder. They are interpolated between neighbours in rank, so that they move
// smoothly when one value does. x must hold at least one value and no NaN.
//
// Neither sorted nor selected: three ranks are wanted of hundreds, for every
// point of every picture in every frame. Values are counted into bins of equal
// width; only those in the bins of the wanted ranks are put in order.
func Percentiles(x []float64) (low, mid, high float64) {
	if len(x) >= fewValues {
		if low, mid, high, ok := binned(x); ok {
			return low, mid, high
		}
	}
	return selected(x)
}

const (
	fewValues = 48  // below, selecting is as quick
	bins      = 256 // a power of two; about one value each of the usual draws
	roomInBin = 32
)

// places are the wanted ranks of n values: the lower neighbour and the way to
// the next.
func place(n int, share float64) (k int, frac float64) {
	at := share * float64(n-1)
	k = int(at)
	return k, at - float64(k)
}

// binned gives up where values crowd or are infinite.
func binned(x []float64) (low, mid, high float64, ok bool) {
	least, most := x[0], x[0]
	for _, v := range x {
		if v < least {
			least = v
		}
		if v > most {
			most = v
		}
	}
	width := (most - least) / bins
	if !(width > 0) || math.IsInf(width, 1) || math.IsInf(1/width, 1) {
		return low, mid, high, false
	}
	per := 1 / width
	var count [bins]uint32
	for _, v := range x {
		count[min(uint((v-least)*per), bins-1)]++
	}
	// The six ranks, rising, and the bins they are in.
	var ranks [6]int
	var fracs [3]float64
	for i, share := range [3]float64{0.1, 0.5, 0.9} {
		k, frac := place(len(x), share)
		ranks[2*i], ranks[2*i+1], fracs[i] = k, min(k+1, len(x)-1), frac
	}
	var slot [bins]uint8 // one more than the place of a wanted bin
	var before [6]int    // values in the bins below it
	var of [6]int        // the slot of each rank
	slots, below, bin := 0, 0, 0
	for i, k := range ranks {
		for below+int(count[bin]) <= k {
			below += int(count[bin])
			bin++
		}
		if slot[bin] == 0 {
			if count[bin] > roomInBin {
				return low, mid, high, false
			}
			before[slots] = below
			slots++
			slot[bin] = uint8(slots)
		}
		of[i] = int(slot[bin]) - 1
	}
	var kept [6][roomInBin]float64
	var held [6]int
	for _, v := range x {
		if s := slot[min(uint((v-least)*per), bins-1)]; s != 0 {
			// Put in order as it comes: a few values at most.
			list, n := &kept[s-1], held[s-1]
			held[s-1]++
			for ; n > 0 && list[n-1] > v; n-- {
				list[n] = list[n-1]
			}
			list[n] = v
		}
	}
	at := func(i int) float64 {
		a := kept[of[2*i]][ranks[2*i]-before[of[2*i]]]
		b := kept[of[2*i+1]][ranks[2*i+1]-before[of[2*i+1]]]
		return a + fracs[i]*(b-a)
	}
	return at(0), at(1), at(2), true
}

// selected does it by selecting the ranks.
func selected(x []float64) (low, mid, high float64) {
	at := func(from int, share float64) (float64, int) {
		k, frac := place(len(x), share)
		part := x[from:]
		selectRank(part, k-from)
		v := part[k-from]
		if frac > 0 && k+1 < len(x) {
			next := part[k-from+1]
			for _, u := range part[k-from+2:] {
				if u < next {
					next = u
				}
			}
			v += frac * (next - v)
		}
		return v, k
	}
	// After each selection all smaller values stand before the rank, so the
	// next one need only look behind it.
	low, k := at(0, 0.1)
	mid, k = at(k, 0.5)
	high, _ = at(k, 0.9)
	return low, mid, high
}

// selectRank puts the k-th smallest value of x at x[k], smaller ones before it
// (Hoare's quickselect, middle of three as pivot).
func selectRank(x []float64, k int) {
	lo, hi := 0, len(x)-1
	for lo < hi {
		m := lo + (hi-lo)/2
		if x[m] < x[lo] {
			x[m], x[lo] = x[lo], x[m]
		}
		if x[hi] < x[lo] {
			x[hi], x[lo] = x[lo], x[hi]
		}
		if x[hi] < x[m] {
			x[hi], x[m] = x[m], x[hi]
		}
		pivot := x[m]
		i, j := lo, hi
		for i <= j {
			for x[i] < pivot {
				i++
			}
			for x[j] > pivot {
				j--
			}
			if i <= j {
				x[i], x[j] = x[j], x[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			hi = j
		case k >= i:
			lo = i
		default:
			return
		}
	}
}
