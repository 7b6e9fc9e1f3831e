package plotting

import "math"

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

// Lengths in pixels at scale 1.
const (
	LeastArrow = 20 // an arrow is never shorter: it must be taken hold of
	LeastPull  = 6  // pointer travel for one step, where a step is less than that on the plane

	stretchBy = 44 // an arrow grows by at most so much ...
	stretchAt = 10 // ... half of it at this true length
	headLong  = 9
	headWide  = 3.6 // half of it
	shaft     = 1.6
	shaftLit  = 2.4
	wordGap   = 5  // from tip to word
	farther   = 10 // ... at most
	parallel  = 12 // degrees: nearer arrows are set side by side
	aside     = 5  // how far
)

// ArrowPlace is an arrow as it is drawn.
type ArrowPlace struct {
	Lever      string
	Start, Tip Spot
	DX, DY     float32 // unit vector
	Pull       float32 // pointer travel along it for one step
	Word       Box
	slot       int // which way the word hangs
}

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
		w = float32(width(s, landingWordPx, false))
		y.widths[s] = w
	}
	return w
}

// drawnLength gives every arrow a length to be seen and grabbed, the longer
// effect the longer arrow, and the true one where that is long enough.
func drawnLength(true32 float32) float32 {
	return max(LeastArrow+stretchBy*true32/(true32+stretchAt), true32)
}

// arrows places the arrows from the design's point and their words where they
// hide least.
func (y *LandingLayout) arrows(l *Landing) {
	old := y.Arrows
	y.Arrows, y.before = y.before[:0], old
	here := y.At(l.Here)
	for i := range l.Arrows {
		a := &l.Arrows[i]
		to := y.At(a.To)
		dx, dy := to.X-here.X, to.Y-here.Y
		long := float32(math.Hypot(float64(dx), float64(dy)))
		m := ArrowPlace{Lever: a.Lever, slot: -1, Pull: max(long, LeastPull), DX: 1}
		m.Word.X1, m.Word.Y1 = y.width(a.Word), wordHigh
		if long > 0 {
			m.DX, m.DY = dx/long, dy/long
		}
		for j := range old {
			if old[j].Lever == a.Lever {
				m.slot = old[j].slot
			}
		}
		m.Start = here
		length := y.reach(here, m.DX, m.DY, drawnLength(long))
		m.Tip = Spot{here.X + m.DX*length, here.Y + m.DY*length}
		y.Arrows = append(y.Arrows, m)
	}
	y.spread()
	y.hangWords(l)
}

// reach shortens an arrow that would leave the plane.
func (y *LandingLayout) reach(at Spot, dx, dy, length float32) float32 {
	const air = 5
	limit := func(pos, dir, most float32) {
		switch {
		case dir > 1e-4:
			length = min(length, (most-air-pos)/dir)
		case dir < -1e-4:
			length = min(length, (air-pos)/dir)
		}
	}
	limit(at.X, dx, y.Wide)
	limit(at.Y, dy, y.High)
	return max(length, LeastArrow/2)
}

// spread sets arrows that run almost the same way side by side.
func (y *LandingLayout) spread() {
	nearly := float32(math.Cos(parallel * math.Pi / 180))
	for i := range y.Arrows {
		for j := range i {
			a, b := &y.Arrows[i], &y.Arrows[j]
			if a.DX*b.DX+a.DY*b.DY < nearly {
				continue
			}
			// a goes to the side that it leans to, b to the other.
			side := float32(aside)
			if b.DX*a.DY-b.DY*a.DX < 0 {
				side = -side
			}
			a.move(-a.DY*side/2, a.DX*side/2)
			b.move(b.DY*side/2, -b.DX*side/2)
		}
	}
}

func (m *ArrowPlace) move(dx, dy float32) {
	m.Start = Spot{m.Start.X + dx, m.Start.Y + dy}
	m.Tip = Spot{m.Tip.X + dx, m.Tip.Y + dy}
}

// Distance from the part of an arrow that can be told from its neighbours.
func (m *ArrowPlace) Distance(at Spot) float32 {
	x, y := at.X-m.Start.X, at.Y-m.Start.Y
	long := (m.Tip.X-m.Start.X)*m.DX + (m.Tip.Y-m.Start.Y)*m.DY
	t := x*m.DX + y*m.DY
	t = max(min(LandingPointRadius+1, long/2), min(t, long+3))
	return float32(math.Hypot(float64(x-t*m.DX), float64(y-t*m.DY)))
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
