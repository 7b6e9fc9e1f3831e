package plane

import (
	"math"

	"fyne.io/fyne/v2"
)

// grip is a gesture under way.
type grip struct {
	kind     kind
	keys     bool // by the keyboard
	reported bool // somebody was told of a change
	dead     bool // given up by Escape; wait for the button

	from   Wish          // the pin before
	offset fyne.Position // from the pointer to what it holds
	at     Point         // the pin under the pointer, unrounded

	lever      string
	dirX, dirY float32
	pull       float32
	start      fyne.Position
	steps      float64
}

// grab takes hold of what is under a position; an empty place calls the pin.
func (p *Plane) grab(at fyne.Position) bool {
	p.finish()
	t := p.under(at)
	switch t.kind {
	case onNothing:
		return false
	case onArrow:
		for i := range p.layout.Arrows {
			if m := &p.layout.Arrows[i]; m.Lever == t.lever {
				p.grip = grip{kind: onArrow, lever: m.Lever, dirX: m.DX, dirY: m.DY, pull: m.Pull, start: at}
			}
		}
		p.chosen = t.lever
	case onPin:
		pin := fyne.Position(p.view().PinAt(&p.now.Pin))
		p.grip = grip{kind: onPin, from: p.wish.clean(), offset: pin.Subtract(at), at: p.pointAt(pin)}
		p.chosen = ""
	default:
		p.grip = grip{kind: onPin, from: p.wish.clean(), at: t.at}
		p.chosen = ""
		p.drag(at)
	}
	p.replace(true)
	return true
}

// drag follows the pointer with what is held.
func (p *Plane) drag(at fyne.Position) {
	g := &p.grip
	switch g.kind {
	case onPin:
		g.at = p.pointAt(at.Add(g.offset))
		w := Wish{}
		// An axis left free stays so; a pin set anew holds both.
		if g.from.Dryness != nil || g.from.Empty() {
			w.Dryness = rounded(g.at.Dryness)
		}
		if g.from.Body != nil || g.from.Empty() {
			w.Body = rounded(g.at.Body)
		}
		if w.Dryness == nil && p.now.Known {
			g.at.Dryness = p.now.Here.Dryness
		}
		if w.Body == nil && p.now.Known {
			g.at.Body = p.now.Here.Body
		}
		p.pinned(w)
		p.replace(false)
	case onArrow:
		steps := float64(((at.X-g.start.X)*g.dirX + (at.Y-g.start.Y)*g.dirY) / g.pull)
		p.pulled(steps)
	}
}

func rounded(v float64) *float64 {
	v = math.Round(clampIndex(v))
	return &v
}

// pinned is a person's change of the wish.
func (p *Plane) pinned(w Wish) {
	if p.wish.equal(w) {
		return
	}
	p.wish = w
	p.grip.reported = true
	if p.OnPin != nil {
		c := w.clean()
		p.OnPin(c.Dryness, c.Body)
	}
	p.sayGrip()
}

// pulled is a person's pull of an arrow.
func (p *Plane) pulled(steps float64) {
	g := &p.grip
	if steps == g.steps || !finite(steps) {
		return
	}
	g.steps, g.reported = steps, true
	if p.OnArrow != nil {
		p.OnArrow(g.lever, steps)
	}
}

// finish ends whatever gesture is under way.
func (p *Plane) finish() {
	g := p.grip
	p.grip = grip{}
	if g.kind == onNothing {
		return
	}
	if g.reported {
		switch {
		case g.kind == onPin && p.OnPinEnd != nil:
			p.OnPinEnd()
		case g.kind == onArrow && p.OnArrowEnd != nil:
			p.OnArrowEnd(g.lever)
		}
	}
	p.aim()
	p.replace(true)
}

// giveUp puts back what the gesture has moved.
func (p *Plane) giveUp() {
	g := &p.grip
	dead := !g.keys
	switch g.kind {
	case onNothing:
		return
	case onPin:
		p.pinned(g.from)
	case onArrow:
		p.pulled(0)
	}
	p.finish()
	p.grip.dead = dead
}
