package plane

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"skep/plotting"
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
	near := func(o fyne.Position, radius float32) bool {
		return math.Hypot(float64(at.X-o.X), float64(at.Y-o.Y)) <= float64(radius)
	}
	out := target{at: p.pointAt(at)}
	pin := p.pin()
	held := p.spot(pin.At)
	if pin.Shown && near(held, plotting.LandingPinRadius+4) {
		out.kind = onPin
		return out
	}
	for i, b := range p.layout.Badges {
		if b.Shown && near(fyne.Position(b.At), plotting.LandingBadgeRadius+2) {
			out.kind, out.way = onWay, i
			return out
		}
	}
	if p.now.Known && near(p.spot(p.now.Here), plotting.LandingPointRadius) {
		out.kind = onHere
		return out
	}
	if lever := p.arrowUnder(plotting.Spot(at)); lever != "" {
		out.kind, out.lever = onArrow, lever
		return out
	}
	inside := p.view().Inside(plotting.Spot(at))
	switch {
	case pin.Shown && !pin.Body && math.Abs(float64(at.X-held.X)) <= 6 && inside,
		pin.Shown && !pin.Dryness && math.Abs(float64(at.Y-held.Y)) <= 6 && inside:
		out.kind = onPin
	case p.now.Ghosted && near(p.spot(p.now.Ghost), plotting.LandingGhostRadius+3):
		out.kind = onGhost
	case inside && p.now.Known:
		out.kind = onPlane
	}
	return out
}

// arrowUnder is the lever of the arrow that a press means; words count.
func (p *Plane) arrowUnder(at plotting.Spot) string {
	best, least := "", float32(8)
	for i := range p.layout.Arrows {
		m := &p.layout.Arrows[i]
		if d := m.Distance(at); d < least {
			best, least = m.Lever, d
		}
	}
	if best != "" {
		return best
	}
	for i := range p.layout.Arrows {
		if m := &p.layout.Arrows[i]; m.Word.Holds(at) {
			return m.Lever
		}
	}
	return ""
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

// point lights what the pointer means.
func (p *Plane) point(t target) {
	lights := func(k kind) bool { return k == onArrow || k == onPin }
	changed := (lights(t.kind) || lights(p.over.kind)) && (t.kind != p.over.kind || t.lever != p.over.lever)
	p.over = t
	if changed {
		p.replace(false)
	}
	p.hint(p.describe(t))
}

// lit tells whether an arrow is held, pointed at, or chosen by the keys.
func (p *Plane) lit(lever string) bool {
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
