package tune

import (
	"math"
	"slices"
	"strings"
)

// Misses and clouds are compared in classes of one index point, which is what
// a screen shows: a difference nobody sees must not decide before the next
// rule has its say.
const classPoints = 1.0

func class(points float64) float64 { return math.Floor(points / classPoints) }

// leastOddGain is the share of the doubt that another strain or a mash cut short must
// bring a beer nearer by, against the nearest way without: two points of a band of
// eleven nobody buys a packet for (ours, common practice, no source).
const leastOddGain = 0.25

// before puts another strain or a short mash for next to nothing last, even one that
// reaches what no other does, and what is reached first; then it orders by miss, then
// cloud, then change.
func (f *found) before(o *found) bool {
	switch a, b := class(f.miss), class(o.miss); {
	case f.needless != o.needless:
		return o.needless
	case f.reached != o.reached:
		return f.reached
	case a != b:
		return a < b
	case class(f.cloud) != class(o.cloud):
		return f.cloud < o.cloud
	case f.change != o.change:
		return f.change < o.change
	}
	return f.pattern < o.pattern
}

// choose keeps the places that are worth showing beside each other: one of a
// pattern, none that moves more levers than another and gains nothing by it.
func choose(all []found, qs []quality) []found {
	for i := range all {
		all[i].reached = reached(qs, &all[i].land)
	}
	markNeedless(all)
	slices.SortStableFunc(all, func(a, b found) int {
		switch {
		case a.before(&b):
			return -1
		case b.before(&a):
			return 1
		}
		return 0
	})
	var out []found
	for i := range all {
		f := &all[i]
		idle := false
		for j := range all {
			o := &all[j]
			if i == j {
				continue
			}
			if o.pattern == f.pattern && j < i {
				idle = true
			}
			if o.pattern != f.pattern && within(o.pattern, f.pattern) &&
				(o.reached || !f.reached) && class(o.miss) <= class(f.miss) && class(o.cloud) <= class(f.cloud) {
				idle = true
			}
		}
		if !idle {
			out = append(out, *f)
		}
	}
	return out
}

// markNeedless finds the places that take another strain or cut the mash short and
// gain next to nothing by it.
func markNeedless(all []found) {
	plain := math.Inf(1) // the nearest way without
	for i := range all {
		if f := &all[i]; !f.odd && (f.moved > 0 || f.reached) {
			plain = min(plain, f.miss)
		}
	}
	for i := range all {
		f := &all[i]
		f.needless = f.odd && plain-f.miss < leastOddGain*f.cloud
	}
}

// within tells whether every lever of a pattern moves in another one too.
func within(a, b string) bool {
	in := strings.Fields(b)
	for _, w := range strings.Fields(a) {
		if !slices.Contains(in, w) {
			return false
		}
	}
	return true
}

func cmp(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}
