package plotting

import (
	"slices"
)

// label is a name at the end of a line.
type label struct {
	series int
	ends   float64 // where the line ends
	y      float64 // where the name is written, its middle
}

// spread moves labels apart until none overlap, each as near to the end of
// its line as the others allow, and all between top and bottom as long as
// there is room. This is isotonic regression by pooling neighbours.
func spread(labels []label, height, top, bottom float64) {
	slices.SortStableFunc(labels, func(a, b label) int {
		switch {
		case a.ends < b.ends:
			return -1
		case a.ends > b.ends:
			return 1
		}
		return a.series - b.series
	})
	type pool struct {
		sum   float64
		count int
	}
	var store [Strains + 2]pool
	pools := store[:0]
	for i, l := range labels {
		p := pool{l.ends - float64(i)*height, 1}
		for n := len(pools); n > 0 && pools[n-1].sum/float64(pools[n-1].count) > p.sum/float64(p.count); n = len(pools) {
			p = pool{p.sum + pools[n-1].sum, p.count + pools[n-1].count}
			pools = pools[:n-1]
		}
		pools = append(pools, p)
	}
	room := bottom - float64(len(labels)-1)*height
	i := 0
	for _, p := range pools {
		base := max(top, min(p.sum/float64(p.count), room))
		for range p.count {
			labels[i].y = base + float64(i)*height
			i++
		}
	}
}
