package follow

import (
	"cmp"
	"math"
	"slices"

	"skep/calc"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/quantity"
)

func gravity(sg float64) quantity.Quantity { return quantity.Of(quantity.Gravity, sg) }

func days(hours float64) quantity.Quantity {
	return quantity.Of(quantity.Days, hours/measured.HoursPerDay)
}

func banded(k quantity.Kind, b calc.Band) quantity.Quantity {
	return quantity.Quantity{Kind: k, Value: b.Mid, Low: b.Low, High: b.High}
}

func gravityBand(b calc.Band) quantity.Quantity { return banded(quantity.Gravity, b) }

func hourBand(b calc.Band) quantity.Quantity { return banded(quantity.WholeHours, b) }

// nowHours is how near to now counts as now.
const nowHours = 0.5

// FromNow is a band of hours from now as people say it: "in 9 h (3 to 14)",
// "5 h (2 to 7) ago", or, where it holds the present, from when to when.
func FromNow(b calc.Band) message.Message {
	switch {
	case b.Low > -1 && b.High < 1:
		return message.New("just about now")
	case b.Low >= -nowHours:
		return message.New("in {span}", hourBand(calc.Band{Low: max(b.Low, 0), Mid: b.Mid, High: b.High}))
	case b.High <= nowHours:
		return message.New("{span} ago", hourBand(calc.Band{Low: max(-b.High, 0), Mid: -b.Mid, High: -b.Low}))
	}
	return message.New("between {before} ago and {after} from now", quantity.Of(quantity.WholeHours, -b.Low), quantity.Of(quantity.WholeHours, b.High))
}

func shift(b calc.Band, by float64) calc.Band {
	return calc.Band{Low: b.Low + by, Mid: b.Mid + by, High: b.High + by}
}

// tellDoubts orders the doubts and puts them into words.
func (b *Known) tellDoubts(g *target) {
	slices.SortStableFunc(b.Doubts, func(x, y Doubt) int { return cmp.Compare(math.Abs(y.Z), math.Abs(x.Z)) })
	for i := range b.Doubts {
		d := &b.Doubts[i]
		p := &b.Timeline.Points[d.Points[len(d.Points)/2]]
		what := message.New("gravity")
		switch p.What {
		case measured.OriginalGravity:
			what = message.New("original gravity")
		case measured.FinalGravity:
			what = message.New("final gravity")
		}
		if d.Alone {
			d.Text = message.New("the {what} of {gravity} is far from the plan's {expected}: the yield, the volume or the mash was not as planned, or the reading is off; read again", what, gravity(p.Value), gravityBand(d.Expected))
			continue
		}
		d.Text = message.New("the {what} of {gravity} at {hours} contradicts the rest, which expects {expected}: it may be wrong; check sample, temperature and instrument, and read again", what, gravity(p.Value), quantity.Of(quantity.WholeHours, p.Hours), gravityBand(d.Expected))
	}
}
