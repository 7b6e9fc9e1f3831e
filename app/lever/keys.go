package lever

import (
	"math"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"skep/app/words"
)

// FocusGained is Fyne telling that the lever has the keyboard.
func (r *Rail) FocusGained() {
	r.focused = true
	r.replace()
}

// FocusLost ends a gesture of the keys.
func (r *Rail) FocusLost() {
	r.focused, r.shift, r.down = false, false, ""
	if !r.grabbed {
		r.finish()
		// How a text was read has been seen by now; a refusal stays until
		// the lever moves, or it would vanish with the Tab that caused it.
		if !r.noteBad {
			r.note = ""
		}
	}
	r.replace()
}

// KeyDown notes the keys that change what others do.
func (r *Rail) KeyDown(ev *fyne.KeyEvent) {
	switch ev.Name {
	case desktop.KeyShiftLeft, desktop.KeyShiftRight:
		r.shift = true
	default:
		if r.down != "" && r.down != ev.Name {
			r.finish()
		}
		r.down = ev.Name
	}
}

// KeyUp ends the gesture of a held key.
func (r *Rail) KeyUp(ev *fyne.KeyEvent) {
	switch ev.Name {
	case desktop.KeyShiftLeft, desktop.KeyShiftRight:
		r.shift = false
	case r.down:
		r.down = ""
		if !r.grabbed {
			r.finish()
		}
	}
}

// shifted asks the driver too: Shift may have gone down while another widget
// had the focus.
func (r *Rail) shifted() bool {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return r.shift || d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
	}
	return r.shift
}

// TypedKey moves the lever.
func (r *Rail) TypedKey(ev *fyne.KeyEvent) {
	if r.disabled {
		return
	}
	if r.grabbed || r.dead {
		if ev.Name == fyne.KeyEscape {
			r.cancelDrag()
		}
		return
	}
	stride, ok := r.stride(ev.Name)
	switch {
	case ok:
		if r.fixed() {
			r.sayLocked()
			return
		}
		r.user(r.moved(stride)...)
	case ev.Name == fyne.KeyReturn, ev.Name == fyne.KeyEnter, ev.Name == fyne.KeyF2:
		r.startEditing("")
	case ev.Name == fyne.KeyDelete, ev.Name == fyne.KeyBackspace:
		r.Reset()
	case ev.Name == fyne.KeyEscape:
		r.SetNote("", false)
		PassKey(r.self.(fyne.CanvasObject), ev)
	default:
		PassKey(r.self.(fyne.CanvasObject), ev)
	}
	// Without a KeyDown before it there will be no KeyUp either.
	if r.down != ev.Name {
		r.finish()
	}
}

// stride says how far a key goes; infinite for the ends.
func (r *Rail) stride(key fyne.KeyName) (float64, bool) {
	s := r.Scale.sound()
	step := s.Step
	if r.shifted() {
		step = s.Big
	}
	two := len(r.values) == 2
	switch {
	case two && (key == fyne.KeySpace || key == fyne.KeyUp || key == fyne.KeyDown):
		r.nextHandle(key == fyne.KeyDown)
		return 0, false
	case key == fyne.KeyLeft || key == fyne.KeyDown:
		return -step, true
	case key == fyne.KeyRight || key == fyne.KeyUp:
		return step, true
	case key == fyne.KeyPageDown:
		return -s.Page, true
	case key == fyne.KeyPageUp:
		return s.Page, true
	case key == fyne.KeyHome:
		return math.Inf(-1), true
	case key == fyne.KeyEnd:
		return math.Inf(1), true
	}
	return 0, false
}

func (r *Rail) nextHandle(backwards bool) {
	// low, high, both, round and round
	r.active = (r.active + map[bool]int{false: 1, true: 2}[backwards]) % 3
	r.replace()
}

// moved gives the values after a key, handles kept in order and, when both
// move, as far apart as they were.
func (r *Rail) moved(stride float64) []float64 {
	s := r.Scale
	move := func(v float64) float64 {
		if math.IsInf(stride, 0) {
			return s.Clamp(stride)
		}
		return s.Move(v, stride)
	}
	if len(r.values) == 1 {
		return []float64{move(r.values[0])}
	}
	low, high := r.values[0], r.values[1]
	switch r.active {
	case 0:
		return []float64{math.Min(move(low), high), high}
	case 1:
		return []float64{low, math.Max(move(high), low)}
	}
	if stride < 0 {
		return r.together(move(low))
	}
	return r.together(move(high) - (high - low))
}

// together puts the low handle at a place and the high one as far above it as
// it was; at an end of the range both stop.
func (r *Rail) together(low float64) []float64 {
	s := r.Scale
	apart := r.values[1] - r.values[0]
	low = math.Max(s.Min, math.Min(low, s.Max-apart))
	p := math.Pow10(9) // sums and differences of typed numbers leave dust
	return []float64{math.Round(low*p) / p, math.Round((low+apart)*p) / p}
}

// TypedRune begins typing a value at the first digit, or locks.
func (r *Rail) TypedRune(c rune) {
	switch {
	case r.disabled || r.grabbed:
	case unicode.IsDigit(c) || strings.ContainsRune("+-−.,", c):
		r.startEditing(string(c))
	case unicode.ToLower(c) == 'l':
		r.toggleLock()
	}
}

func (r *Rail) sayLocked() {
	if r.spent != "" {
		r.show(words.T("locked: {why}", r.spent), false)
		return
	}
	if r.locked {
		r.show(words.T("locked: L or the padlock frees it"), false)
	}
}
