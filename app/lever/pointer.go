package lever

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"skep/app/words"
)

// MouseDown takes hold: of a handle where it is, or by jumping to the place
// on the track. Acting on the press, not the tap, spares the wait for a second
// click that Fyne needs to tell a double one.
func (r *Rail) MouseDown(ev *desktop.MouseEvent) {
	if ev.Button != desktop.MouseButtonPrimary || r.disabled {
		return
	}
	r.finish()
	r.dead = false
	r.pressed = true
	r.presses = [2]*fyne.Position{r.presses[1], &ev.Position}
	r.Focus()
	if !r.onTrack(ev.Position) {
		return
	}
	if r.kept() {
		r.sayLocked()
		return
	}
	r.grab(ev.Position.X)
}

// MouseUp lets go.
func (r *Rail) MouseUp(*desktop.MouseEvent) { r.release() }

// DragEnd lets go, where the driver tells of the drag only.
func (r *Rail) DragEnd() {
	r.release()
	r.pressed = false
}

// Dragged follows the pointer.
func (r *Rail) Dragged(ev *fyne.DragEvent) {
	if r.dead || r.fixed() {
		return
	}
	if !r.grabbed {
		// Fyne gives the lever a drag that began on its name or its value
		// too: only one from the track moves it.
		start := ev.Position.SubtractXY(ev.Dragged.DX, ev.Dragged.DY)
		if r.pressed || !r.onTrack(start) {
			r.dead = true
			return
		}
		r.Focus()
		r.grab(start.X)
	}
	r.user(r.dragged(ev.Position.X + r.grip)...)
}

// Tapped matters only where no press was told of: a touch, or a test.
func (r *Rail) Tapped(ev *fyne.PointEvent) {
	if r.pressed {
		r.pressed = false
		return
	}
	if r.fixed() || !r.onTrack(ev.Position) {
		return
	}
	r.Focus()
	r.grab(ev.Position.X)
	r.release()
}

// DoubleTapped resets, unless the two clicks were for two places: Fyne only
// looks at the time between them.
func (r *Rail) DoubleTapped(*fyne.PointEvent) {
	two := r.presses[0] != nil && r.presses[1] != nil &&
		math.Abs(float64(r.presses[0].X-r.presses[1].X)) > thumb
	r.presses = [2]*fyne.Position{}
	r.pressed = false
	r.release()
	if !two {
		r.Reset()
	}
}

// MouseIn shows that the lever is under the pointer.
func (r *Rail) MouseIn(*desktop.MouseEvent) {
	r.hovered = true
	if r.spent != "" {
		r.hint(words.T("locked: {why}", r.spent))
	}
	r.replace()
}

// MouseMoved is of no interest.
func (r *Rail) MouseMoved(*desktop.MouseEvent) {}

// MouseOut undoes MouseIn.
func (r *Rail) MouseOut() {
	r.hovered = false
	if r.spent != "" {
		r.hint("")
	}
	r.replace()
}

func (r *Rail) release() {
	r.grabbed, r.dead = false, false
	r.finish()
}

func (r *Rail) cancelDrag() {
	if r.from != nil {
		from := r.from
		r.user(from...)
		r.from = nil
	}
	r.grabbed, r.dead = false, true
}

// grab takes the handle under x, or brings the nearest one there.
func (r *Rail) grab(x float32) {
	r.begin()
	r.grabbed = true
	if len(r.values) == 2 {
		r.active = r.under(x)
	}
	at := r.x(r.values[0])
	if r.active == 1 {
		at = r.x(r.values[1])
	}
	r.grip = at - x
	// The middle bar never jumps; a handle is held where it was touched.
	if len(r.values) == 2 && r.active == bothHandles || float32(math.Abs(float64(r.grip))) <= thumb {
		r.replace()
		return
	}
	r.grip = 0
	r.user(r.dragged(x)...)
	r.replace()
}

// under says which handle a press means: the nearer one, or both between them.
func (r *Rail) under(x float32) int {
	low, high := r.x(r.values[0]), r.x(r.values[1])
	switch {
	case x <= low || x < low+thumb && x < (low+high)/2:
		return 0
	case x >= high || x > high-thumb:
		return 1
	}
	return bothHandles
}

// dragged gives the values with the held handle at x.
func (r *Rail) dragged(x float32) []float64 {
	s := r.Scale
	v := s.Snap(r.valueAt(x))
	if len(r.values) == 1 {
		return []float64{v}
	}
	low, high := r.values[0], r.values[1]
	switch r.active {
	case 0:
		return []float64{math.Min(v, high), high}
	case 1:
		return []float64{low, math.Max(v, low)}
	}
	return r.together(v)
}

// onTrack leaves the name and its row to other things.
func (r *Rail) onTrack(p fyne.Position) bool {
	y := r.trackY()
	return p.Y >= y-zone/2 && p.Y <= y+zone/2
}

// x is where a value stands, valueAt what stands at an x.
func (r *Rail) x(v float64) float32 {
	return thumb + float32(r.Scale.Fraction(v))*r.travel()
}

func (r *Rail) valueAt(x float32) float64 {
	t := r.travel()
	if t <= 0 {
		return r.Scale.Min
	}
	f := math.Min(1, math.Max(0, float64((x-thumb)/t)))
	return r.Scale.Min + f*(r.Scale.Max-r.Scale.Min)
}

func (r *Rail) travel() float32 { return r.Size().Width - 2*thumb }
