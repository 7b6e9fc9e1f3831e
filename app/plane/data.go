package plane

import (
	"math"

	"skep/plotting"
)

// Point is a place on the plane: dryness and body, each an index of 0 to 100.
type Point = plotting.LandingPoint

func known(p Point) bool { return finite(p.Dryness) && finite(p.Body) }

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// Wish is the pin: nil on an axis where anything will do.
type Wish struct{ Dryness, Body *float64 }

// Empty tells whether nothing is wished for on the plane.
func (w Wish) Empty() bool { return w.Dryness == nil && w.Body == nil }

func (w Wish) equal(o Wish) bool { return same(w.Dryness, o.Dryness) && same(w.Body, o.Body) }

func same(a, b *float64) bool { return a == b || a != nil && b != nil && *a == *b }

// clean is a copy that shares nothing, with what is no number left out and
// what lies outside the indices brought to their end.
func (w Wish) clean() Wish { return Wish{cleanIndex(w.Dryness), cleanIndex(w.Body)} }

func cleanIndex(v *float64) *float64 {
	if v == nil || !finite(*v) {
		return nil
	}
	c := clampIndex(*v)
	return &c
}

func clampIndex(v float64) float64 { return min(max(v, 0), 100) }

// Arrow is what one natural step of a lever does from here. A locked lever has
// none: leave it out.
type Arrow struct {
	// Lever is the owner's key for it, handed back by OnArrow.
	Lever string
	// Word says what the step does: "hotter", "more honey".
	Word string
	// Step says how far the lever moves: "1 °C", "100 g". For the hint.
	Step string
	// To is where the beer would land.
	To Point
	// Does says what the step changes and how sure that is, for the hint; nil:
	// nothing more than To.
	Does func() string
}

// Ghost is the design kept for comparison.
type Ghost struct {
	At   Point
	Name string
	// Than says what the design has more than it, for the hint; nil: nothing.
	Than func() string
}

// Data is one landing: all that a computed frame brings. Rings are closed
// outlines without the first point repeated; points that are not finite are
// left out, and an arrow, ghost or design without a finite place is not drawn.
type Data struct {
	Here   Point     // the design: its middle values
	Half   [][]Point // outline of the region where half of the draws land
	Most   [][]Point // where 80 % of them land
	Reach  [][]Point // outline of all that the free levers can do; holes run the other way round
	Arrows []Arrow   // in the order in which Space walks them
	Ghost  *Ghost
	// Note takes the place of the drawing where there is nothing to draw: why,
	// and what to do.
	Note string
}

// extent is a box in index points; empty when low is above high.
type extent struct{ dLow, dHigh, bLow, bHigh float64 }

func nowhere() extent {
	return extent{math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)}
}

func (e extent) empty() bool { return e.dLow > e.dHigh }

func (e *extent) add(p Point) {
	e.dLow, e.dHigh = min(e.dLow, p.Dryness), max(e.dHigh, p.Dryness)
	e.bLow, e.bHigh = min(e.bLow, p.Body), max(e.bHigh, p.Body)
}

func (e *extent) addAll(r *plotting.Rings) {
	for _, p := range r.Points {
		e.add(p)
	}
}

// landing is the plane's own copy of [Data]: the picture, and what it does not
// show.
type landing struct {
	plotting.Landing
	arrows []Arrow
	than   func() string // the design beside the ghost, in words
	note   string
}

func (l *landing) set(d *Data) {
	l.Known, l.Here, l.note = d.Note == "" && known(d.Here), d.Here, d.Note
	l.Ghosted = l.Known && d.Ghost != nil && known(d.Ghost.At)
	l.arrows = l.arrows[:0]
	if !l.Known {
		l.Half.Set(nil)
		l.Most.Set(nil)
		l.Reach.Set(nil)
		return
	}
	l.Here = Point{Dryness: clampIndex(d.Here.Dryness), Body: clampIndex(d.Here.Body)}
	l.Half.Set(d.Half)
	l.Most.Set(d.Most)
	l.Reach.Set(d.Reach)
	for _, a := range d.Arrows {
		// A step that does nothing has no direction to be pulled in.
		if known(a.To) && math.Hypot(a.To.Dryness-d.Here.Dryness, a.To.Body-d.Here.Body) > leastEffect {
			l.arrows = append(l.arrows, a)
		}
	}
	if l.Ghosted {
		l.GhostName, l.than = d.Ghost.Name, d.Ghost.Than
		l.Ghost = Point{Dryness: clampIndex(d.Ghost.At.Dryness), Body: clampIndex(d.Ghost.At.Body)}
	}
}

// leastEffect is the least move of a step that gets an arrow, index points:
// below a hundredth the direction is only noise of the computation.
const leastEffect = 0.01
