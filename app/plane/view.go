package plane

import (
	"math"

	"fyne.io/fyne/v2"

	"skep/plotting"
)

// window is the part of the plane that is shown.
type window struct{ dLow, dHigh, bLow, bHigh float64 }

var wholePlane = window{0, 100, 0, 100}

const (
	leastSpan = 40 // index points: a closer look would make a difference of one look like much
	margin    = 4  // around what must be seen
	edge      = 5  // the window's edges stand on its multiples, so that they rarely move
	loose     = 20 // how much too wide a window may stay
)

// around is the window for what must be seen, its edges on round numbers.
func around(e extent) window {
	if e.empty() {
		return wholePlane
	}
	w := wholePlane
	w.dLow, w.dHigh = span(e.dLow, e.dHigh)
	w.bLow, w.bHigh = span(e.bLow, e.bHigh)
	return w
}

func span(low, high float64) (float64, float64) {
	low = clampIndex(math.Floor((low-margin)/edge) * edge)
	high = clampIndex(math.Ceil((high+margin)/edge) * edge)
	for high-low < leastSpan {
		// Grow on the side with more room to the middle of the plane.
		if low > 0 && (low+high >= 100 || high >= 100) {
			low -= edge
		} else {
			high += edge
		}
	}
	return low, high
}

func (w window) union(o window) window {
	return window{min(w.dLow, o.dLow), max(w.dHigh, o.dHigh), min(w.bLow, o.bLow), max(w.bHigh, o.bHigh)}
}

// holds tells whether a box is seen with a little air.
func (w window) holds(e extent) bool {
	const air = 2
	in := func(low, high, least, most float64) bool {
		return (least >= low+air || low <= 0) && (most <= high-air || high >= 100)
	}
	return in(w.dLow, w.dHigh, e.dLow, e.dHigh) && in(w.bLow, w.bHigh, e.bLow, e.bHigh)
}

// next chooses the window: still while something moves, except outwards; and
// afterwards left alone unless it is too small or much too wide.
func (w window) next(need extent, moving bool) window {
	fit := around(need)
	switch {
	case need.empty():
		return w
	case moving:
		if w.holds(need) {
			return w
		}
		return w.union(fit)
	case w.holds(need) && w.dHigh-w.dLow <= fit.dHigh-fit.dLow+loose && w.bHigh-w.bLow <= fit.bHigh-fit.bLow+loose:
		return w
	}
	return fit
}

func (w window) between(to window, at float64) window {
	mix := func(a, b float64) float64 { return a + (b-a)*at }
	return window{mix(w.dLow, to.dLow), mix(w.dHigh, to.dHigh), mix(w.bLow, to.bLow), mix(w.bHigh, to.bHigh)}
}

// view maps what is shown onto the widget.
func (p *Plane) view() plotting.LandingView {
	w := p.shown
	return plotting.LandingView{
		Dryness: plotting.Range{Low: w.dLow, High: w.dHigh}, Body: plotting.Range{Low: w.bLow, High: w.bHigh},
		Wide: p.size.Width, High: p.size.Height,
	}
}

// spot is where a point stands on the widget.
func (p *Plane) spot(at Point) fyne.Position { return fyne.Position(p.view().At(at)) }

// pointAt is the point under a position, kept on the plane that is seen.
func (p *Plane) pointAt(at fyne.Position) Point { return p.view().Point(plotting.Spot(at)) }
