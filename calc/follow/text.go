package follow

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"skep/calc"
)

// The plain English below is in SG and hours; a window that shows other units
// writes its own from the codes and numbers.

func sgText(b calc.Band) string { return fmt.Sprintf("%.3f (%.3f to %.3f)", b.Mid, b.Low, b.High) }

func hoursText(b calc.Band) string { return fmt.Sprintf("%.0f h (%.0f to %.0f)", b.Mid, b.Low, b.High) }

// inHours is a band of hours from now: "in 9 h (3 to 14)", or past.
func inHours(b calc.Band) string {
	if b.Mid >= 0 {
		return fmt.Sprintf("in %.0f h (%.0f to %.0f)", b.Mid, b.Low, b.High)
	}
	return fmt.Sprintf("%.0f h ago (%.0f to %.0f)", -b.Mid, -b.High, -b.Low)
}

func shift(b calc.Band, by float64) calc.Band {
	return calc.Band{Low: b.Low + by, Mid: b.Mid + by, High: b.High + by}
}

// tellDoubts orders the doubts and puts them into words.
func (b *Batch) tellDoubts(g *target) {
	slices.SortStableFunc(b.Doubts, func(x, y Doubt) int { return cmp.Compare(math.Abs(y.Z), math.Abs(x.Z)) })
	for i := range b.Doubts {
		d := &b.Doubts[i]
		p := &b.Timeline.Points[d.Points[len(d.Points)/2]]
		what := strings.ReplaceAll(p.What, "-", " ")
		if d.Alone {
			d.Text = fmt.Sprintf("the %s of %.3f is far from the plan's %s: the yield, the volume or the mash was not as planned, or the reading is off; read again", what, p.Value, sgText(d.Expected))
			continue
		}
		d.Text = fmt.Sprintf("the %s of %.3f at %.0f h contradicts the rest, which expects %s: it may be wrong; check sample, temperature and instrument, and read again", what, p.Value, p.Hours, sgText(d.Expected))
	}
}
