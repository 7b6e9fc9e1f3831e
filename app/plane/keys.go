package plane

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"skep/app/lever"
)

const bigStep = 5 // with Shift: index points, or natural steps of a lever

// FocusGained is Fyne telling that the plane has the keyboard.
func (p *Plane) FocusGained() {
	p.focused = true
	p.replace(false)
	p.sayChosen()
}

// FocusLost ends a gesture of the keys.
func (p *Plane) FocusLost() {
	p.focused, p.shift, p.down = false, false, ""
	if p.grip.keys {
		p.finish()
	}
	p.replace(false)
	if !p.hovered {
		p.hint("")
	}
}

// KeyDown notes the keys that change what others do.
func (p *Plane) KeyDown(ev *fyne.KeyEvent) {
	switch ev.Name {
	case desktop.KeyShiftLeft, desktop.KeyShiftRight:
		p.shift = true
	default:
		if p.down != "" && p.down != ev.Name && p.grip.keys && ev.Name != fyne.KeyEscape {
			p.finish()
		}
		p.down = ev.Name
	}
}

// KeyUp ends the gesture of a held key.
func (p *Plane) KeyUp(ev *fyne.KeyEvent) {
	switch ev.Name {
	case desktop.KeyShiftLeft, desktop.KeyShiftRight:
		p.shift = false
	case p.down:
		p.down = ""
		if p.grip.keys {
			p.finish()
		}
	}
}

func (p *Plane) shifted() bool {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return p.shift || d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
	}
	return p.shift
}

// TypedRune goes to the whole plane and back.
func (p *Plane) TypedRune(r rune) {
	if (r == 'z' || r == 'Z') && p.grip.kind == onNothing {
		p.toggleZoom()
	}
}

// TypedKey moves the pin or pulls the arrow that is chosen.
func (p *Plane) TypedKey(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyEscape {
		p.giveUp()
	}
	if lever.PassKey(p, ev) {
		return
	}
	if p.grip.kind != onNothing && !p.grip.keys || !p.now.Known {
		return
	}
	step := 1.0
	if p.shifted() {
		step = bigStep
	}
	switch ev.Name {
	case fyne.KeySpace:
		p.finish()
		p.choose()
		return
	case fyne.KeyDelete, fyne.KeyBackspace:
		p.finish()
		p.grip = grip{kind: onPin, keys: true, from: p.wish.clean()}
		p.pinned(Wish{})
	case fyne.KeyLeft:
		p.nudge(-step, 0)
	case fyne.KeyRight:
		p.nudge(step, 0)
	case fyne.KeyUp:
		p.nudge(0, step)
	case fyne.KeyDown:
		p.nudge(0, -step)
	default:
		return
	}
	// Without a KeyDown before it there will be no KeyUp either.
	if p.down != ev.Name {
		p.finish()
	} else {
		p.aim()
		p.replace(false)
	}
}

// nudge moves what is chosen: the pin to the right and up, or its arrow on.
func (p *Plane) nudge(right, up float64) {
	if p.chosenArrow() >= 0 {
		if p.grip.kind != onArrow || p.grip.lever != p.chosen {
			p.finish()
			p.grip = grip{kind: onArrow, keys: true, lever: p.chosen}
		}
		p.pulled(p.grip.steps + right + up)
		return
	}
	p.chosen = ""
	if p.grip.kind != onPin {
		p.finish()
		p.grip = grip{kind: onPin, keys: true, from: p.wish.clean()}
	}
	w := p.wish.clean()
	// The first key calls the pin to the design, from where it moves; an axis
	// left free stays so.
	if w.Empty() {
		w = Wish{Dryness: rounded(p.now.Here.Dryness), Body: rounded(p.now.Here.Body)}
	}
	if w.Dryness != nil {
		w.Dryness = stepped(*w.Dryness, -right)
	}
	if w.Body != nil {
		w.Body = stepped(*w.Body, up)
	}
	p.pinned(w)
}

// stepped moves by whole points; what lies between goes to the next whole one.
func stepped(v, by float64) *float64 {
	switch {
	case by > 0:
		v = math.Floor(v+1e-9) + by
	case by < 0:
		v = math.Ceil(v-1e-9) + by
	}
	v = clampIndex(v)
	return &v
}

// choose walks pin, first arrow, second arrow ... pin.
func (p *Plane) choose() {
	next := p.chosenArrow() + 1
	p.chosen = ""
	if next < len(p.now.arrows) {
		p.chosen = p.now.arrows[next].Lever
	}
	p.replace(false)
	p.sayChosen()
}

// chosenArrow is the arrow that the keys pull; -1 for the pin.
func (p *Plane) chosenArrow() int {
	for i := range p.now.arrows {
		if p.chosen != "" && p.now.arrows[i].Lever == p.chosen {
			return i
		}
	}
	return -1
}

func (p *Plane) toggleZoom() {
	p.SetWhole(!p.whole)
	if p.OnZoom != nil {
		p.OnZoom(p.whole)
	}
}
