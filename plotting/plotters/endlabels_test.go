package plotters

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestLabelsNeverOverlap(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		ends := rapid.SliceOfN(rapid.Float64Range(0, 300), 1, 8).Draw(t, "ends")
		labels := make([]place, len(ends))
		for i, e := range ends {
			labels[i] = place{index: i, ends: e}
		}
		const high, top, bottom = 14, 7, 293
		spread(labels, high, top, bottom)
		alone := true
		for i, l := range labels {
			if l.y < top-1e-9 || l.y > bottom+1e-9 {
				t.Fatalf("label at %v", l.y)
			}
			if i > 0 && l.y-labels[i-1].y < high-1e-9 {
				t.Fatalf("labels at %v and %v overlap", labels[i-1].y, l.y)
			}
			if i > 0 && l.ends < labels[i-1].ends {
				t.Fatalf("order of the lines lost")
			}
			alone = alone && l.ends >= top && l.ends <= bottom && (i == 0 || l.ends-labels[i-1].ends >= high)
		}
		for _, l := range labels {
			if alone && math.Abs(l.y-l.ends) > 1e-9 {
				t.Fatalf("label moved from %v to %v without need", l.ends, l.y)
			}
		}
	})
}
