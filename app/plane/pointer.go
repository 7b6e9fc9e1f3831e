package plane

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// kind is a sort of thing on the plane.
type kind uint8

const (
	onNothing kind = iota
	onPlane        // an empty place
	onPin
	onArrow
	onWay
	onGhost
	onHere
)

// target is what lies under the pointer.
type target struct {
	kind  kind
	lever string // of an arrow
	way   int
	at    Point
}

// under finds what is meant by a position.
func (p *Plane) under(at fyne.Position) target {
	v := p.view()
	near := func(o fyne.Position, radius float32) bool {
		return math.Hypot(float64(at.X-o.X), float64(at.Y-o.Y)) <= float64(radius)
	}
	out := target{at: v.point(at)}
	pin, pinned := p.pinAt(v)
	if pinned && near(pin, pinRadius+4) {
		out.kind = onPin
		return out
	}
	if p.parts != nil {
		for i := range p.parts.badges {
			if b := &p.parts.badges[i]; b.ring.Visible() && near(b.at, badgeRadius+2) {
				out.kind, out.way = onWay, i
				return out
			}
		}
	}
	if p.now.known && near(v.at(p.now.here), pointRadius) {
		out.kind = onHere
		return out
	}
	if i := p.arrowUnder(at); i >= 0 {
		out.kind, out.lever = onArrow, p.marks[i].lever
		return out
	}
	switch {
	case pinned && p.wish.Body == nil && abs(at.X-pin.X) <= 6 && v.inside(at),
		pinned && p.wish.Dryness == nil && abs(at.Y-pin.Y) <= 6 && v.inside(at):
		out.kind = onPin
	case p.now.ghosted && near(v.at(p.now.ghost.At), ghostRadius+3):
		out.kind = onGhost
	case v.inside(at) && p.now.known:
		out.kind = onPlane
	}
	return out
}

// MouseDown takes hold.
func (p *Plane) MouseDown(ev *desktop.MouseEvent) {
	if ev.Button != desktop.MouseButtonPrimary {
		return
	}
	p.pressed = true
	p.focus()
	p.grip.dead = false
	if !p.grab(ev.Position) {
		p.grip.dead = true
	}
}

// MouseUp lets go.
func (p *Plane) MouseUp(*desktop.MouseEvent) { p.letGo() }

func (p *Plane) letGo() {
	p.finish()
	p.grip.dead = false
}

// Dragged follows the pointer.
func (p *Plane) Dragged(ev *fyne.DragEvent) {
	if p.grip.dead {
		return
	}
	if p.grip.kind == onNothing || p.grip.keys {
		// Without a press told of: a touch.
		p.focus()
		if !p.grab(ev.Position.SubtractXY(ev.Dragged.DX, ev.Dragged.DY)) {
			p.grip.dead = true
			return
		}
	}
	p.drag(ev.Position)
}

// DragEnd lets go, where the driver tells of the drag only.
func (p *Plane) DragEnd() {
	p.letGo()
	p.pressed = false
}

// Tapped matters only where no press was told of.
func (p *Plane) Tapped(ev *fyne.PointEvent) {
	if p.pressed {
		p.pressed = false
		return
	}
	p.focus()
	p.grab(ev.Position)
	p.letGo()
}

// MouseIn says what is under the pointer.
func (p *Plane) MouseIn(ev *desktop.MouseEvent) {
	p.hovered = true
	p.MouseMoved(ev)
}

// MouseMoved says what is under the pointer.
func (p *Plane) MouseMoved(ev *desktop.MouseEvent) {
	if p.grip.kind != onNothing {
		return
	}
	p.point(p.under(ev.Position))
}

// MouseOut takes the hint back.
func (p *Plane) MouseOut() {
	p.hovered = false
	if p.grip.kind == onNothing {
		p.point(target{})
	}
}

// point lights what the pointer means; only a change of arrows needs a new
// picture.
func (p *Plane) point(t target) {
	redraw := (t.kind == onArrow || p.over.kind == onArrow) && (t.kind != p.over.kind || t.lever != p.over.lever)
	moved := t.kind != p.over.kind
	p.over = t
	if redraw || moved {
		p.restyle(redraw)
	}
	p.hint(p.says(t))
}

// restyle shows what is lit, without laying the words out anew.
func (p *Plane) restyle(redraw bool) {
	if p.parts == nil {
		return
	}
	p.parts.move()
	if redraw {
		p.stale = true
		p.parts.raster.Refresh()
	}
}

// lit tells whether an arrow is held, pointed at, or chosen by the keys.
func (p *Plane) lit(i int) bool {
	lever := p.marks[i].lever
	if p.grip.kind == onArrow {
		return p.grip.lever == lever
	}
	return p.over.kind == onArrow && p.over.lever == lever || p.focused && p.chosen == lever
}

// Cursor shows what can be taken hold of.
func (p *Plane) Cursor() desktop.Cursor {
	switch p.over.kind {
	case onPin, onArrow:
		return desktop.PointerCursor
	case onPlane, onHere, onWay, onGhost:
		return desktop.CrosshairCursor
	}
	return desktop.DefaultCursor
}

func (p *Plane) focus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(p); c != nil {
		c.Focus(p)
	}
}
