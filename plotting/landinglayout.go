package plotting

import "skep/plotting/style"

// LandingLayout is where things stand on a landing, in pixels at scale 1 from
// its upper left corner, y downwards, so that a window can let them be taken
// hold of.
type LandingLayout struct {
	LandingView
	Arrows []ArrowPlace
	Badges []Badge

	before []ArrowPlace
	spokes []int
	taken  []Box
	widths map[string]float32
}

// Spot is a place in pixels at scale 1.
type Spot struct{ X, Y float32 }

// LandingView maps a part of the indices to a plane of pixels at scale 1.
type LandingView struct {
	Dryness, Body Range
	Wide, High    float32
}

// At is where a point stands.
func (v LandingView) At(p LandingPoint) Spot {
	return Spot{
		float32((v.Dryness.High-p.Dryness)/(v.Dryness.High-v.Dryness.Low)) * v.Wide,
		float32((v.Body.High-p.Body)/(v.Body.High-v.Body.Low)) * v.High}
}

// Point is the point at a place, kept on the plane that is seen.
func (v LandingView) Point(at Spot) LandingPoint {
	if v.Wide <= 0 || v.High <= 0 {
		return LandingPoint{(v.Dryness.Low + v.Dryness.High) / 2, (v.Body.Low + v.Body.High) / 2}
	}
	x := min(max(float64(at.X/v.Wide), 0), 1)
	y := min(max(float64(at.Y/v.High), 0), 1)
	return LandingPoint{v.Dryness.High - x*(v.Dryness.High-v.Dryness.Low), v.Body.High - y*(v.Body.High-v.Body.Low)}
}

// Inside says whether a place is on the plane.
func (v LandingView) Inside(at Spot) bool {
	return at.X >= 0 && at.Y >= 0 && at.X <= v.Wide && at.Y <= v.High
}

// roomy says whether words and marks have room.
func (v LandingView) roomy() bool { return roomyFor(v.Wide, v.High) }

func roomyFor(wide, high float32) bool { return wide >= 60 && high >= 60 }

// Badge is an answer's number, beside its place where that is taken.
type Badge struct {
	Shown     bool
	At, Place Spot
}

// PinAt is where the pin stands: one out of sight at the border that it lies
// behind.
func (v LandingView) PinAt(p *Pin) Spot {
	at := v.At(p.At)
	return Spot{min(max(at.X, 0), v.Wide), min(max(at.Y, 0), v.High)}
}

// Place places a landing on a plane, its foot not counted. Without words the
// arrows stay where they are, and only the badges find a place.
func (d *LandingDrawer) Place(l *Landing, wide, high float32, words bool) *LandingLayout {
	y := &d.layout
	y.LandingView = LandingView{l.Dryness, l.Body, max(wide, 0), max(high, 0)}
	if words {
		y.arrows(l)
	}
	y.badges(l)
	return y
}

// width is that of a word. There are few, and measuring one reads the typeface.
func (y *LandingLayout) width(s string) float32 {
	w, ok := y.widths[s]
	if !ok {
		if y.widths == nil || len(y.widths) > 200 { // ghosts are named at will
			y.widths = map[string]float32{}
		}
		w = float32(style.Width(s, landingWordPx, false))
		y.widths[s] = w
	}
	return w
}

// Box is a rectangle.
type Box struct{ X0, Y0, X1, Y1 float32 }

func around(at Spot, half float32) Box {
	return Box{at.X - half, at.Y - half, at.X + half, at.Y + half}
}

// Overlap is the area that two share.
func (b Box) Overlap(o Box) float32 {
	w, h := min(b.X1, o.X1)-max(b.X0, o.X0), min(b.Y1, o.Y1)-max(b.Y0, o.Y0)
	if w <= 0 || h <= 0 {
		return 0
	}
	return w * h
}

// Holds says whether a place is within.
func (b Box) Holds(at Spot) bool {
	return at.X >= b.X0 && at.X <= b.X1 && at.Y >= b.Y0 && at.Y <= b.Y1
}
