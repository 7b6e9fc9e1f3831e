package plotting

import (
	"math"
	"time"

	"skep/calc"
	"skep/plotting/plotters"
)

// Range is the stretch of a quantity that an axis shows, in the model's unit.
type Range struct{ Low, High float64 }

// Ranges are the axes of the four pictures.
type Ranges struct {
	TemperatureC Range
	Outcome      [calc.Outcomes]Range
}

// index is the range of dryness and body, which are defined from 0 to 100.
var index = Range{0, 100}

// narrowest is the least stretch an axis shows, so that doubt too small to
// matter isn't blown up to fill the picture: 8 points of gravity, 1 % of
// strength, 20 points of dryness and body. Our own choice for reading ease.
var narrowest = [calc.Outcomes]float64{
	calc.FinalGravity: 0.008, calc.Strength: 1, calc.Dryness: 20, calc.Body: 20,
}

// Span is the ranges that hold all of the curves with a little air, rounded
// outwards. Dryness and body show their whole scale. Give it the curves at the
// levers' own limits and the axes need not move while a lever does.
func Span(curves ...calc.Curves) Ranges {
	r := Ranges{TemperatureC: empty()}
	for o := range calc.Outcomes {
		r.Outcome[o] = empty()
	}
	for _, c := range curves {
		for i, t := range c.TemperatureC {
			r.TemperatureC = r.TemperatureC.with(t)
			for o := range calc.Outcomes {
				if i < len(c.Bands[o]) {
					b := c.Bands[o][i]
					r.Outcome[o] = r.Outcome[o].with(b.Low).with(b.Mid).with(b.High)
				}
			}
		}
	}
	r.TemperatureC = r.TemperatureC.sound(Range{58, 72})
	r.Outcome[calc.FinalGravity] = r.Outcome[calc.FinalGravity].airy(narrowest[calc.FinalGravity], Range{1.000, 1.020})
	r.Outcome[calc.Strength] = r.Outcome[calc.Strength].airy(narrowest[calc.Strength], Range{3, 7})
	r.Outcome[calc.Dryness] = index.union(r.Outcome[calc.Dryness])
	r.Outcome[calc.Body] = index.union(r.Outcome[calc.Body])
	return r
}

// Axes keep the ranges still while a lever moves. They start from fixed
// ranges, widen only outwards when the curves would leave them, glide there
// instead of jumping, and fit again when the drag is over.
//
// Axes belong to one goroutine.
type Axes struct {
	fixed, target, shown Ranges
}

// NewAxes starts at the fixed ranges, normally Span of the levers' limits.
func NewAxes(fixed Ranges) *Axes {
	return &Axes{fixed: fixed, target: fixed, shown: fixed}
}

// Ranges are the ranges to draw now.
func (a *Axes) Ranges() Ranges { return a.shown }

// Refix takes new fixed ranges, as another strain or rest brings them. Nothing
// narrows before Settle.
func (a *Axes) Refix(fixed Ranges) {
	a.fixed = fixed
	a.target = a.target.union(fixed)
}

// Cover makes room for curves, outwards only: what is shown never narrows
// while a drag goes on, not even when the last Settle is still gliding.
func (a *Axes) Cover(curves ...calc.Curves) {
	a.target = a.target.union(a.shown).union(a.needed(curves))
}

// Release ends a drag: the axes go back to the fixed ranges as far as the
// curves allow.
func (a *Axes) Release(curves ...calc.Curves) {
	a.target = a.fixed.union(a.needed(curves))
}

// glideTime is the time constant of a glide: 95 % of the way in about 0.2 s,
// quick enough to follow a lever, slow enough to see where things went.
const glideTime = 70 * time.Millisecond

// Advance glides for the time since the last frame and says whether there is
// more to come.
func (a *Axes) Advance(since time.Duration) (moving bool) {
	share := 1 - math.Exp(-float64(max(since, 0))/float64(glideTime))
	var more [1 + calc.Outcomes]bool
	a.shown.TemperatureC, more[calc.Outcomes] = a.shown.TemperatureC.towards(a.target.TemperatureC, share)
	for o := range calc.Outcomes {
		a.shown.Outcome[o], more[o] = a.shown.Outcome[o].towards(a.target.Outcome[o], share)
	}
	for _, m := range more {
		moving = moving || m
	}
	return moving
}

// Jump ends a glide at once.
func (a *Axes) Jump() { a.shown = a.target }

// needed is the ranges curves must have: the fixed ones where the curves are
// inside, their own airy span beyond.
func (a *Axes) needed(curves []calc.Curves) Ranges {
	need := a.fixed
	for _, c := range curves {
		for o := range calc.Outcomes {
			for _, b := range c.Bands[o] {
				for _, v := range [...]float64{b.Low, b.Mid, b.High} {
					if plotters.Finite(v) && (v < a.fixed.Outcome[o].Low || v > a.fixed.Outcome[o].High) {
						need.Outcome[o] = need.Outcome[o].with(v)
					}
				}
			}
		}
	}
	for o := range calc.Outcomes {
		fixed := a.fixed.Outcome[o]
		air := 0.04 * (fixed.High - fixed.Low)
		if need.Outcome[o].Low < fixed.Low {
			need.Outcome[o].Low -= air
		}
		if need.Outcome[o].High > fixed.High {
			need.Outcome[o].High += air
		}
	}
	return need
}

func empty() Range { return Range{math.Inf(1), math.Inf(-1)} }

func (r Range) with(v float64) Range {
	if !plotters.Finite(v) {
		return r
	}
	return Range{math.Min(r.Low, v), math.Max(r.High, v)}
}

func (r Range) union(s Range) Range { return r.with(s.Low).with(s.High) }

// sound is the range itself when something can be drawn in it, else instead.
func (r Range) sound(instead Range) Range {
	if !plotters.Finite(r.Low) || !plotters.Finite(r.High) || !(r.Low < r.High) || !plotters.Finite(r.High-r.Low) {
		return instead
	}
	return r
}

// airy widens to the least stretch, adds a twentieth at each end and rounds
// outwards to a tenth of the stretch.
func (r Range) airy(least float64, instead Range) Range {
	if !plotters.Finite(r.Low) || !plotters.Finite(r.High) || r.Low > r.High {
		return instead
	}
	if lack := least - (r.High - r.Low); lack > 0 {
		r.Low, r.High = r.Low-lack/2, r.High+lack/2
	}
	air := (r.High - r.Low) / 20
	step := niceStep((r.High-r.Low)/10, nil)
	return Range{
		Low:  math.Floor((r.Low-air)/step) * step,
		High: math.Ceil((r.High+air)/step) * step,
	}
}

// towards moves a share of the way, and arrives when less than a thousandth
// of the stretch is left: half a pixel on a large picture.
func (r Range) towards(to Range, share float64) (Range, bool) {
	next := Range{r.Low + share*(to.Low-r.Low), r.High + share*(to.High-r.High)}
	left := math.Max(math.Abs(next.Low-to.Low), math.Abs(next.High-to.High))
	if !(left > 1e-3*math.Abs(to.High-to.Low)) {
		return to, false
	}
	return next, true
}

func (r Ranges) union(s Ranges) Ranges {
	r.TemperatureC = r.TemperatureC.union(s.TemperatureC)
	for o := range calc.Outcomes {
		r.Outcome[o] = r.Outcome[o].union(s.Outcome[o])
	}
	return r
}
