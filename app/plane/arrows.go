package plane

import (
	"math"

	"fyne.io/fyne/v2"
)

// Lengths in Fyne's units.
const (
	stub      = 20 // an arrow is never shorter: it must be taken hold of
	stretchBy = 44 // and grows by at most so much ...
	stretchAt = 10 // ... half of it at this true length
	leastPull = 6  // pointer travel for one step, where a step is less than that on the plane
	headLong  = 9
	headWide  = 3.6 // half of it
	shaft     = 1.6
	wordGap   = 5  // from tip to word
	farther   = 10 // ... at most
	parallel  = 12 // degrees: nearer arrows are set side by side
	aside     = 5  // how far
)

// arrowMark is an arrow as it is drawn, in the widget's coordinates.
type arrowMark struct {
	start, tip fyne.Position
	dirX, dirY float32 // unit vector
	pull       float32 // pointer travel along it for one step
	wordAt     fyne.Position
	wordSize   fyne.Size
	slot       int // which way the word hangs
	lever      string
}

// drawnLength gives every arrow a length to be seen and grabbed, the longer
// effect the longer arrow, and the true one where that is long enough.
func drawnLength(true32 float32) float32 {
	return max(stub+stretchBy*true32/(true32+stretchAt), true32)
}

// layArrows places the arrows from the design's point and their words where
// they hide least.
func (p *Plane) layArrows() {
	v := p.view()
	old := p.marks
	p.marks, p.marksBefore = p.marksBefore[:0], old
	here := v.at(p.now.here)
	for _, a := range p.now.arrows {
		to := v.at(a.To)
		dx, dy := to.X-here.X, to.Y-here.Y
		long := float32(math.Hypot(float64(dx), float64(dy)))
		m := arrowMark{lever: a.Lever, slot: -1, pull: max(long, leastPull), wordSize: p.measure(a.Word)}
		if long > 0 {
			m.dirX, m.dirY = dx/long, dy/long
		} else {
			m.dirX = 1
		}
		for i := range old {
			if old[i].lever == a.Lever {
				m.slot = old[i].slot
			}
		}
		m.start = here
		length := v.room(here, m.dirX, m.dirY, drawnLength(long))
		m.tip = fyne.NewPos(here.X+m.dirX*length, here.Y+m.dirY*length)
		p.marks = append(p.marks, m)
	}
	p.spread()
	p.hangWords(v)
}

// room shortens an arrow that would leave the plane.
func (v view) room(at fyne.Position, dx, dy, length float32) float32 {
	const air = 5
	limit := func(pos, dir, low, high float32) {
		switch {
		case dir > 1e-4:
			length = min(length, (high-air-pos)/dir)
		case dir < -1e-4:
			length = min(length, (low+air-pos)/dir)
		}
	}
	limit(at.X, dx, v.left, v.left+v.width)
	limit(at.Y, dy, v.top, v.top+v.height)
	return max(length, stub/2)
}

// spread sets arrows that run almost the same way side by side.
func (p *Plane) spread() {
	nearly := float32(math.Cos(parallel * math.Pi / 180))
	for i := range p.marks {
		for j := range i {
			a, b := &p.marks[i], &p.marks[j]
			if a.dirX*b.dirX+a.dirY*b.dirY < nearly {
				continue
			}
			// a goes to the side that it leans to, b to the other.
			side := float32(aside)
			if b.dirX*a.dirY-b.dirY*a.dirX < 0 {
				side = -side
			}
			a.move(-a.dirY*side/2, a.dirX*side/2)
			b.move(b.dirY*side/2, -b.dirX*side/2)
		}
	}
}

func (m *arrowMark) move(dx, dy float32) {
	m.start = m.start.AddXY(dx, dy)
	m.tip = m.tip.AddXY(dx, dy)
}

// The ways in which a word may hang from its tip, degrees off the arrow's own
// direction, the best first.
var slots = [...]float64{0, 30, -30, 60, -60, 90, -90, 120, -120, 150, -150}

// box is a rectangle.
type box struct{ x0, y0, x1, y1 float32 }

func boxAt(at fyne.Position, size fyne.Size) box {
	return box{at.X, at.Y, at.X + size.Width, at.Y + size.Height}
}

func square(at fyne.Position, half float32) box {
	return box{at.X - half, at.Y - half, at.X + half, at.Y + half}
}

func (b box) overlap(o box) float32 {
	w, h := min(b.x1, o.x1)-max(b.x0, o.x0), min(b.y1, o.y1)-max(b.y0, o.y0)
	if w <= 0 || h <= 0 {
		return 0
	}
	return w * h
}

func (b box) holds(at fyne.Position) bool {
	return at.X >= b.x0 && at.X <= b.x1 && at.Y >= b.y0 && at.Y <= b.y1
}

// hang is where a word stands in a slot; the second half of the slots are a
// little further off.
func (m *arrowMark) hang(slot int) fyne.Position {
	gap := float32(wordGap)
	if slot >= len(slots) {
		gap += farther
	}
	turn := slots[slot%len(slots)] * math.Pi / 180
	sin, cos := float32(math.Sin(turn)), float32(math.Cos(turn))
	x, y := m.dirX*cos-m.dirY*sin, m.dirX*sin+m.dirY*cos
	w, h := m.wordSize.Width, m.wordSize.Height
	// The word's middle goes out until its box is clear of the tip.
	return fyne.NewPos(m.tip.X+x*(w/2+gap)-w/2, m.tip.Y+y*(h/2+gap)-h/2)
}

// hangWords gives each word the slot with the least in its way. A word keeps
// its slot unless another is clearly better: words must not hop while a lever
// moves.
func (p *Plane) hangWords(v view) {
	obstacles := p.obstacles(v)
	for round := range 2 {
		for i := range p.marks {
			m := &p.marks[i]
			best, least := 0, float32(math.MaxFloat32)
			for slot := range 2 * len(slots) {
				cost := p.inTheWay(i, v.keep(m.hang(slot), m.wordSize), obstacles, round == 0)
				cost += float32(slot%len(slots))*12 + float32(slot/len(slots))*30
				if slot == m.slot {
					cost -= 40
				}
				if cost < least {
					best, least = slot, cost
				}
			}
			m.slot = best
			m.wordAt = v.keep(m.hang(best), m.wordSize)
		}
	}
}

// keep is the nearest place at which a word stays on the plane.
func (v view) keep(at fyne.Position, size fyne.Size) fyne.Position {
	return fyne.NewPos(max(v.left+3, min(at.X, v.left+v.width-size.Width-3)),
		max(v.top+1, min(at.Y, v.top+v.height-size.Height-1)))
}

// obstacles are the boxes that words keep off.
func (p *Plane) obstacles(v view) []box {
	o := append(p.boxes[:0], square(v.at(p.now.here), pointRadius+2))
	if at, ok := p.pinAt(v); ok && p.grip.kind != onPin {
		o = append(o, square(at, pinRadius+2))
	}
	if p.now.ghosted {
		at := v.at(p.now.ghost.At)
		o = append(o, square(at, ghostRadius+2), boxAt(p.ghostWord(v, at), p.measure(p.now.ghost.Name)))
	}
	o = append(o,
		boxAt(fyne.NewPos(v.left, v.top), p.measure(p.words.full).AddWidthHeight(wordInset+4, 6)),
		boxAt(fyne.NewPos(v.left, v.top+v.height-20), p.measure(p.words.light).AddWidthHeight(wordInset+4, 6)))
	p.boxes = o
	return o
}

// inTheWay is the area that a word would hide or lie on, weighted.
func (p *Plane) inTheWay(own int, at fyne.Position, obstacles []box, first bool) float32 {
	m := &p.marks[own]
	b := boxAt(at, m.wordSize)
	b.x0, b.x1 = b.x0-2, b.x1+2
	cost := float32(0)
	for _, o := range obstacles {
		cost += 5 * b.overlap(o)
	}
	for i := range p.marks {
		o := &p.marks[i]
		if i != own && (i < own || !first) {
			cost += 4 * b.overlap(boxAt(o.wordAt, o.wordSize))
		}
		// Along the shaft, head included; of its own arrow all but the tip.
		for k := range 9 {
			t := float32(k) / 8
			if i == own && k == 8 {
				break
			}
			on := fyne.NewPos(o.start.X+t*(o.tip.X-o.start.X), o.start.Y+t*(o.tip.Y-o.start.Y))
			cost += b.overlap(square(on, 4)) * 2
		}
		if i != own { // nor be read as another's
			cost += b.overlap(square(o.tip, 12))
		}
	}
	return cost
}

// arrowUnder is the arrow that a press means; -1 for none. Words count.
func (p *Plane) arrowUnder(at fyne.Position) int {
	best, least := -1, float32(8)
	for i := range p.marks {
		m := &p.marks[i]
		if d := m.distance(at); d < least {
			best, least = i, d
		}
	}
	if best >= 0 {
		return best
	}
	for i := range p.marks {
		if boxAt(p.marks[i].wordAt, p.marks[i].wordSize).holds(at) {
			return i
		}
	}
	return -1
}

// distance from the part of an arrow that can be told from its neighbours.
func (m *arrowMark) distance(at fyne.Position) float32 {
	x, y := at.X-m.start.X, at.Y-m.start.Y
	long := (m.tip.X-m.start.X)*m.dirX + (m.tip.Y-m.start.Y)*m.dirY
	t := x*m.dirX + y*m.dirY
	t = max(min(pointRadius+1, long/2), min(t, long+3))
	return float32(math.Hypot(float64(x-t*m.dirX), float64(y-t*m.dirY)))
}
