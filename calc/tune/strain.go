package tune

import (
	"math"
	"slices"

	"skep/calc/design"
	"skep/calc/lever"
)

// strain is a yeast that may be taken.
type strain struct {
	mid, width float64
	yeast      design.Yeast
	own        bool
}

// strainAxis lines the strains up by the middle of their range, the design's
// own among them, each once.
func (t *Tuner) strainAxis(free Levers) Axis {
	own := t.design.Yeast[0]
	same := func(a, b design.Yeast) bool {
		return a.AttenuationLowPct == b.AttenuationLowPct && a.AttenuationHighPct == b.AttenuationHighPct &&
			(!free.Set[lever.YeastC] || a.TemperatureC == b.TemperatureC)
	}
	of := func(y design.Yeast) strain {
		return strain{mid: (y.AttenuationLowPct + y.AttenuationHighPct) / 2, width: y.AttenuationHighPct - y.AttenuationLowPct, yeast: y}
	}
	me := of(own)
	me.own = true
	list := []strain{me}
	for _, y := range free.Strains {
		if usable(y) && !slices.ContainsFunc(list, func(s strain) bool { return same(s.yeast, y) }) {
			list = append(list, of(y))
		}
	}
	slices.SortStableFunc(list, func(a, b strain) int {
		switch {
		case a.mid != b.mid:
			return cmp(a.mid, b.mid)
		case a.own != b.own:
			if a.own {
				return -1
			}
			return 1
		}
		return cmp(a.width, b.width)
	})
	return Axis{Lever: lever.Yeast, Low: list[0].mid, High: list[len(list)-1].mid, Natural: lever.Yeast.Natural(&t.design), Now: me.mid, strains: list}
}

// usable tells whether a strain's numbers are within what a design takes.
func usable(y design.Yeast) bool {
	return y.AttenuationLowPct >= 10 && y.AttenuationHighPct <= 100 && y.AttenuationLowPct <= y.AttenuationHighPct &&
		y.TemperatureC >= 4 && y.TemperatureC <= 40
}

// surer is the strain of the narrowest range within a point and a half of one, if
// that is narrower by a point.
func (a *Axis) surer(mid float64) (float64, bool) {
	width := math.Inf(1)
	for _, s := range a.strains {
		if s.mid == mid {
			width = min(width, s.width)
		}
	}
	best := -1
	for i, s := range a.strains {
		if math.Abs(s.mid-mid) <= 1.5 && s.width < width-1 {
			best, width = i, s.width+1
		}
	}
	if best < 0 {
		return 0, false
	}
	return a.strains[best].mid, true
}

// strainAt is the first strain with a middle, the design's own before others;
// -1 where strains are not free.
func (a *Axis) strainAt(mid float64) int {
	return slices.IndexFunc(a.strains, func(s strain) bool { return s.mid == mid })
}
