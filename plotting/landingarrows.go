package plotting

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/plotting/canvas"
)

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
	alikeDeg  = 12 // nearer arrows are set side by side
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
	nearly := float32(math.Cos(alikeDeg * math.Pi / 180))
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

// Plot is for plot.Plotter.
func (g *landingArrows) Plot(c draw.Canvas, p *plot.Plot) {
	t, l := g.tracer.On(c, p), g.l
	for i := range g.layout.Arrows {
		m := &g.layout.Arrows[i]
		ink, wide := g.inks.ink, float32(shaft)
		if i < len(l.Arrows) && l.Arrows[i].Lit {
			ink, wide = g.inks.accent, shaftLit
		}
		back := Spot{m.Tip.X - m.DX*headLong, m.Tip.Y - m.DY*headLong}
		half := headWide + (wide-shaft)/2
		t.Stroke(draw.LineStyle{Color: ink, Width: vg.Length(wide) * canvas.Px}, spot(&c, m.Start), spot(&c, Spot{back.X + m.DX, back.Y + m.DY}))
		t.Path = t.Path[:0]
		t.Path.Move(spot(&c, m.Tip))
		t.Path.Line(spot(&c, Spot{back.X - m.DY*half, back.Y + m.DX*half}))
		t.Path.Line(spot(&c, Spot{back.X + m.DY*half, back.Y - m.DX*half}))
		t.Path.Close()
		c.SetColor(ink)
		c.Fill(t.Path)
	}
	for i := range g.layout.Arrows {
		if i < len(l.Arrows) {
			ink := g.inks.ink
			if l.Arrows[i].Lit {
				ink = g.inks.accent
			}
			writeWord(&c, g.layout.Arrows[i].Word, l.Arrows[i].Word, ink)
		}
	}
}
