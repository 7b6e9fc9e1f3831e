package doubt

// Percentiles finds the 10th, 50th and 90th percentile of x, which it
// reorders. They are interpolated between neighbours in rank, so that they move
// smoothly when one value does. x must hold at least one value and no NaN.
//
// Selecting instead of sorting: three ranks are wanted of hundreds, for every
// point of every picture in every frame.
func Percentiles(x []float64) (low, mid, high float64) {
	last := float64(len(x) - 1)
	at := func(from int, share float64) (float64, int) {
		place := share * last
		k := int(place)
		part := x[from:]
		selectRank(part, k-from)
		v := part[k-from]
		if frac := place - float64(k); frac > 0 && k+1 < len(x) {
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
