package lever

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/words"
)

// Tick is a mark on the track with its word.
type Tick struct {
	Value float64
	Word  string
}

// Rail is what both levers share: everything but the number of their handles.
// Set its fields before showing the lever, or Refresh after changing them.
type Rail struct {
	widget.BaseWidget

	// Name stands above the track.
	Name string
	// Scale is the range and the steps.
	Scale Scale
	// LowWord and HighWord say what the ends mean; Ticks take their place.
	LowWord, HighWord string
	Ticks             []Tick
	// Sub stands under the name: a choice, say. At most 28 high keeps the
	// lever within 88.
	Sub fyne.CanvasObject

	// OnLocked tells that a person locked or freed the lever.
	OnLocked func(locked bool)
	// OnHint tells what the control under the pointer does, for a status
	// line; empty when the pointer leaves.
	OnHint func(text string)
	// OnNote tells how a typed text was read, or why not, and nothing when what it
	// told holds no more; the lever shows it
	// too, shortened if need be.
	OnNote func(text string, bad bool)

	self   fyne.Focusable // the lever itself
	values []float64      // one or two
	resets []float64      // nil: nothing to go back to
	active int            // handle that the keys move, or both

	format    func(values []float64) string
	parse     func(text string) (values []float64, echo string, err error)
	changed   func()
	committed func()

	locked, disabled, focused, hovered bool
	spent                              string // why it can never move again; empty: it may
	note                               string
	noteBad                            bool

	from    []float64 // values when the gesture began; nil: none is going on
	grabbed bool      // the pointer holds a handle
	dead    bool      // the drag was given up by Escape; wait for its end
	pressed bool      // a press was dealt with: ignore the tap that follows
	presses [2]*fyne.Position
	grip    float32 // from the pointer to the handle it holds
	shift   bool
	down    fyne.KeyName // key held, so its repeats are one gesture

	parts *parts
}

// bothHandles is the active handle when two move as one.
const bothHandles = 2

// The gestures that a lever takes part in.
var (
	_ fyne.Focusable      = (*Rail)(nil)
	_ fyne.Draggable      = (*Rail)(nil)
	_ fyne.Tappable       = (*Rail)(nil)
	_ fyne.DoubleTappable = (*Rail)(nil)
	_ fyne.Disableable    = (*Rail)(nil)
	_ fyne.Accessible     = (*Rail)(nil)
	_ desktop.Keyable     = (*Rail)(nil)
	_ desktop.Mouseable   = (*Rail)(nil)
	_ desktop.Hoverable   = (*Rail)(nil)
)

// Locked tells whether the lever keeps its place.
func (r *Rail) Locked() bool { return r.locked }

// SetLocked locks or frees the lever, without telling OnLocked.
func (r *Rail) SetLocked(locked bool) {
	if r.locked == locked {
		return
	}
	r.abandon()
	r.locked = locked
	r.Refresh()
}

// Enable lets the lever be used.
func (r *Rail) Enable() { r.setDisabled(false) }

// Disable greys the lever out and takes it out of the Tab order.
func (r *Rail) Disable() { r.setDisabled(true) }

// Disabled tells whether it is.
func (r *Rail) Disabled() bool { return r.disabled }

func (r *Rail) setDisabled(disabled bool) {
	if r.disabled == disabled {
		return
	}
	r.abandon()
	r.disabled = disabled
	r.Refresh()
}

// abandon ends whatever gesture is going on, keeping its value.
func (r *Rail) abandon() {
	r.stopEditing()
	r.finish()
	r.grabbed, r.dead = false, false
}

// shown is the value as text.
func (r *Rail) shown() string { return r.format(r.values) }

func (r *Rail) fixed() bool { return r.kept() || r.disabled }

// kept says whether the padlock is closed.
func (r *Rail) kept() bool { return r.locked || r.spent != "" }

// SetSpent closes the padlock for good, and says why: what the lever sets has
// happened. An empty text gives it back.
func (r *Rail) SetSpent(why string) {
	if r.spent == why {
		return
	}
	r.abandon()
	r.spent = why
	r.SetNote(why, false)
	r.Refresh()
}

// SetNote shows a short line under the track in place of the end words until
// the lever is next moved; bad is for what could not be done.
func (r *Rail) SetNote(text string, bad bool) {
	if r.note == text && r.noteBad == bad {
		return
	}
	r.note, r.noteBad = text, bad
	r.replace()
}

func (r *Rail) show(text string, bad bool) {
	r.SetNote(text, bad)
	if r.OnNote != nil {
		r.OnNote(text, bad)
	}
}

func (r *Rail) hint(text string) {
	if r.OnHint != nil {
		r.OnHint(text)
	}
}

// AccessibilityLabel is what a screen reader says: name, value, state, ends.
func (r *Rail) AccessibilityLabel() string {
	text := words.T("{name}, {value}", r.Name, r.shown())
	if r.LowWord != "" && r.HighWord != "" {
		text = words.T("{name}, {value}, from {low} to {high}", r.Name, r.shown(), r.LowWord, r.HighWord)
	}
	if len(r.values) == 2 && r.focused {
		handle := words.T("both handles")
		switch r.active {
		case 0:
			handle = words.T("low handle")
		case 1:
			handle = words.T("high handle")
		}
		text = words.T("{text}, {state}", text, handle)
	}
	if r.kept() {
		text = words.T("{text}, {state}", text, words.T("locked"))
	}
	if r.spent != "" {
		text = words.T("{text}, {state}", text, r.spent)
	}
	return text
}

// AccessibilityRole is text, as the label carries the value: Fyne 2.8 knows no
// role for what can be set.
func (r *Rail) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// set is the programme's way: no callback, any finite value.
func (r *Rail) set(values ...float64) {
	for i, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			values[i] = r.Scale.Clamp(v)
		}
	}
	if slices.Equal(values, r.values) && !r.stretched() {
		return
	}
	copy(r.values, values)
	r.replace()
}

// stretched tells whether the range is another than the one drawn: the owner
// may change Scale and set the same value again.
func (r *Rail) stretched() bool {
	return r.parts != nil && r.parts.drawn != [2]float64{r.Scale.Min, r.Scale.Max}
}

// user is a person's way: within a gesture, told to OnChanged.
func (r *Rail) user(values ...float64) {
	if r.fixed() || slices.Equal(values, r.values) {
		return
	}
	r.begin()
	copy(r.values, values)
	r.note = ""
	r.replace()
	r.changed()
}

func (r *Rail) begin() {
	if r.from == nil {
		r.from = slices.Clone(r.values)
	}
}

func (r *Rail) finish() {
	from := r.from
	r.from = nil
	if from != nil && !slices.Equal(from, r.values) {
		r.committed()
	}
}

// Reset goes back to the default, as a person's change.
func (r *Rail) Reset() {
	if r.resets == nil || r.fixed() {
		return
	}
	r.finish()
	r.user(r.resets...)
	r.finish()
}

func (r *Rail) canReset() bool {
	return r.resets != nil && !r.fixed() && !slices.Equal(r.resets, r.values)
}

func (r *Rail) toggleLock() {
	if r.disabled {
		return
	}
	if r.spent != "" {
		r.sayLocked()
		return
	}
	r.SetLocked(!r.locked)
	r.SetNote("", false)
	if r.OnLocked != nil {
		r.OnLocked(r.locked)
	}
}

// Focus gives the lever the keyboard, once its window is shown: before that
// Fyne knows no canvas for it, and window.Canvas().Focus(lever) is the way.
func (r *Rail) Focus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(r.self.(fyne.CanvasObject)); c != nil {
		c.Focus(r.self)
	}
}

func (r *Rail) palette() look.Palette {
	return look.PaletteOf(r.Theme(), fyne.CurrentApp().Settings().ThemeVariant())
}

// replace puts the moving parts where they belong, if the lever is drawn.
func (r *Rail) replace() {
	if r.parts != nil {
		r.parts.move()
	}
}
