package lever

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/calc/quantity"
)

// The tests share Fyne's global test application, so none runs in parallel.

// log keeps what a lever told.
type log []string

func (l *log) add(format string, args ...any) { *l = append(*l, fmt.Sprintf(format, args...)) }

func (l *log) want(t *testing.T, lines ...string) {
	t.Helper()
	if got := strings.Join(*l, "; "); got != strings.Join(lines, "; ") {
		t.Errorf("told %q, want %q", got, strings.Join(lines, "; "))
	}
	*l = nil
}

// mash is a lever from 58 to 72 °C in a window of the column's width.
func mash(t *testing.T) (*Lever, *log, fyne.Window) {
	t.Helper()
	f, p := quantity.NewFormatter(quantity.Units{}, nil), quantity.NewParser(quantity.Units{}, nil)
	l := New("Mash rest", Scale{Min: 58, Max: 72, Step: 0.1, Big: 1, Page: 2}, 66.5, func(v float64) string {
		return f.Format(quantity.Temperature, v)
	})
	l.Parse = func(text string) (float64, string, error) {
		r, err := p.Parse(quantity.Temperature, text, quantity.Limits{Low: 58, High: 72})
		return r.Value, r.Echo, err
	}
	l.LowWord, l.HighWord = "lighter, drier", "fuller, sweeter"
	told := &log{}
	l.OnChanged = func(v float64) { told.add("changed %v", v) }
	l.OnCommitted = func(v float64) { told.add("committed %v", v) }
	l.OnLocked = func(locked bool) { told.add("locked %v", locked) }
	w := window(t, l)
	return l, told, w
}

func window(t *testing.T, o fyne.CanvasObject) fyne.Window {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(look.New(look.Light))
	w := test.NewTempWindow(t, container.NewVBox(o))
	w.SetPadded(false)
	w.Resize(fyne.NewSize(248, 120))
	return w
}

func press(r *Rail, keys ...fyne.KeyName) {
	for _, k := range keys {
		r.KeyDown(&fyne.KeyEvent{Name: k})
		if k != desktop.KeyShiftLeft {
			r.TypedKey(&fyne.KeyEvent{Name: k})
			r.KeyUp(&fyne.KeyEvent{Name: k})
		}
	}
}

func TestKeys(t *testing.T) {
	l, told, _ := mash(t)
	l.Focus()
	for _, c := range []struct {
		key  fyne.KeyName
		want float64
	}{
		{fyne.KeyRight, 66.6}, {fyne.KeyLeft, 66.5}, {fyne.KeyUp, 66.6}, {fyne.KeyDown, 66.5},
		{fyne.KeyPageUp, 68.5}, {fyne.KeyPageDown, 66.5}, {fyne.KeyEnd, 72}, {fyne.KeyHome, 58},
	} {
		press(&l.Rail, c.key)
		if l.Value() != c.want {
			t.Errorf("%s: %v, want %v", c.key, l.Value(), c.want)
		}
		told.want(t, fmt.Sprint("changed ", c.want), fmt.Sprint("committed ", c.want))
	}
	press(&l.Rail, fyne.KeyLeft)
	told.want(t) // already at the end: nothing to tell
	press(&l.Rail, desktop.KeyShiftLeft, fyne.KeyRight, fyne.KeyRight)
	told.want(t, "changed 59", "committed 59", "changed 60", "committed 60")
	l.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	press(&l.Rail, fyne.KeyRight)
	told.want(t, "changed 60.1", "committed 60.1")
}

// A held key is one gesture; a driver that tells of no KeyDown commits at once.
func TestHeldKeyIsOneGesture(t *testing.T) {
	l, told, _ := mash(t)
	l.Focus()
	right := &fyne.KeyEvent{Name: fyne.KeyRight}
	l.KeyDown(right)
	for range 3 {
		l.TypedKey(right)
	}
	told.want(t, "changed 66.6", "changed 66.7", "changed 66.8")
	l.KeyUp(right)
	told.want(t, "committed 66.8")
	l.TypedKey(right)
	told.want(t, "changed 66.9", "committed 66.9")
	l.KeyDown(right)
	l.TypedKey(right)
	l.FocusLost()
	told.want(t, "changed 67", "committed 67")
	// Shift went down elsewhere and its release was never seen: forgotten.
	l.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftRight})
	l.FocusLost()
	l.FocusGained()
	press(&l.Rail, fyne.KeyRight)
	told.want(t, "changed 67.1", "committed 67.1")
}

func TestProgrammeIsNeverEchoed(t *testing.T) {
	l, told, _ := mash(t)
	l.SetValue(60)
	l.SetDefault(64)
	l.SetLocked(true)
	l.SetLocked(false)
	l.SetNote("x", false)
	l.Disable()
	l.Enable()
	told.want(t)
	l.SetValue(75.25) // a file may hold what the lever's own range doesn't
	if l.Value() != 75.25 || l.parts.box.text.Text != "75.3 °C" || l.Scale.Fraction(l.Value()) != 1 {
		t.Errorf("%v shown as %q", l.Value(), l.parts.box.text.Text)
	}
	press(&l.Rail, fyne.KeyLeft)
	told.want(t, "changed 71.9", "committed 71.9")
}

// at gives the place of a value on the track, in the lever's coordinates.
func at(r *Rail, v float64) fyne.Position { return fyne.NewPos(r.x(v), r.trackY()) }

func down(r *Rail, p fyne.Position) {
	r.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: p}, Button: desktop.MouseButtonPrimary})
}

// drag moves along a path as a pointer does: every event has its own place.
func drag(r *Rail, from fyne.Position, to ...fyne.Position) {
	for _, p := range to {
		r.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: p}, Dragged: fyne.NewDelta(p.X-from.X, p.Y-from.Y)})
		from = p
	}
}

func up(r *Rail) {
	r.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	r.DragEnd()
}

func TestDragAlongAPath(t *testing.T) {
	l, told, w := mash(t)
	down(&l.Rail, at(&l.Rail, 66.5))
	told.want(t) // the handle is held where it was: no jump
	if w.Canvas().Focused() != l {
		t.Error("a press must take the focus")
	}
	drag(&l.Rail, at(&l.Rail, 66.5), at(&l.Rail, 68), at(&l.Rail, 70), at(&l.Rail, 64))
	told.want(t, "changed 68", "changed 70", "changed 64")
	up(&l.Rail)
	told.want(t, "committed 64")
	// Beyond the ends the handle stays at them.
	down(&l.Rail, at(&l.Rail, 64))
	drag(&l.Rail, at(&l.Rail, 64), fyne.NewPos(900, 0), fyne.NewPos(-900, 300))
	up(&l.Rail)
	told.want(t, "changed 72", "changed 58", "committed 58")
}

func TestDragBackToTheStartIsNoChange(t *testing.T) {
	l, told, _ := mash(t)
	start := at(&l.Rail, 66.5)
	down(&l.Rail, start)
	drag(&l.Rail, start, at(&l.Rail, 70), start)
	up(&l.Rail)
	told.want(t, "changed 70", "changed 66.5")
}

func TestPressOnTheTrackJumps(t *testing.T) {
	l, told, _ := mash(t)
	down(&l.Rail, at(&l.Rail, 60))
	told.want(t, "changed 60")
	l.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	told.want(t, "committed 60")
	l.SetValue(65) // the tap comes later, after the wait for a second one
	l.Tapped(&fyne.PointEvent{Position: at(&l.Rail, 60)})
	told.want(t)
	// A touch tells of the tap alone.
	l.Tapped(&fyne.PointEvent{Position: at(&l.Rail, 70)})
	told.want(t, "changed 70", "committed 70")
	// The name and the value are no track, for a press as for a drag.
	down(&l.Rail, fyne.NewPos(20, 10))
	drag(&l.Rail, fyne.NewPos(20, 10), fyne.NewPos(90, 10))
	up(&l.Rail)
	drag(&l.Rail, fyne.NewPos(200, 10), fyne.NewPos(90, 40), fyne.NewPos(30, 40))
	l.DragEnd()
	l.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(&l.Rail, 60)}, Button: desktop.MouseButtonSecondary})
	told.want(t)
}

func TestEscapeRestores(t *testing.T) {
	l, told, _ := mash(t)
	start := at(&l.Rail, 66.5)
	down(&l.Rail, start)
	drag(&l.Rail, start, at(&l.Rail, 70))
	l.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight}) // keys wait while the pointer holds
	l.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	drag(&l.Rail, at(&l.Rail, 70), at(&l.Rail, 60)) // still down: of no effect now
	up(&l.Rail)
	told.want(t, "changed 70", "changed 66.5")
	down(&l.Rail, at(&l.Rail, 60))
	up(&l.Rail)
	told.want(t, "changed 60", "committed 60")
}

func TestReset(t *testing.T) {
	l, told, _ := mash(t)
	if l.parts.reset.Visible() {
		t.Error("nothing to go back to, yet a reset button")
	}
	l.SetDefault(64)
	if !l.parts.reset.Visible() {
		t.Error("away from its default the lever must offer the way back")
	}
	l.DoubleTapped(&fyne.PointEvent{Position: at(&l.Rail, 66.5)})
	told.want(t, "changed 64", "committed 64")
	if l.parts.reset.Visible() {
		t.Error("at its default there is no way back")
	}
	l.SetValue(70)
	test.Tap(l.parts.reset)
	told.want(t, "changed 64", "committed 64")
	l.SetValue(70)
	press(&l.Rail, fyne.KeyDelete)
	told.want(t, "changed 64", "committed 64")
	// Two quick presses at two places are two presses.
	for _, v := range []float64{60, 70} {
		down(&l.Rail, at(&l.Rail, v))
		l.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	}
	l.DoubleTapped(&fyne.PointEvent{Position: at(&l.Rail, 70)})
	told.want(t, "changed 60", "committed 60", "changed 70", "committed 70")
}

func TestTypedValue(t *testing.T) {
	l, told, w := mash(t)
	var notes log
	l.OnNote = func(text string, bad bool) { notes.add("%s %v", text, bad) }
	l.Focus()

	press(&l.Rail, fyne.KeyReturn)
	if w.Canvas().Focused() != l.parts.entry || l.parts.entry.SelectedText() != "66.5 °C" {
		t.Fatalf("Enter must open the value, selected: %q", l.parts.entry.SelectedText())
	}
	test.Type(l.parts.entry, "151F")
	told.want(t) // nothing is taken yet
	l.parts.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	told.want(t, "changed 66.111", "committed 66.111") // (151 − 32)/1.8
	notes.want(t, "read as 66.1 °C false")
	if w.Canvas().Focused() != l || l.parts.entry.Visible() {
		t.Error("Enter must give the lever back the keyboard")
	}
	if !l.parts.noteText.Visible() || l.parts.noteText.Text != "read as 66.1 °C" {
		t.Errorf("the lever shows %q", l.parts.noteText.Text)
	}

	// A digit begins typing, Tab takes it.
	test.Type(l, "6")
	test.Type(w.Canvas().Focused(), "0,5")
	w.Canvas().FocusNext()
	told.want(t, "changed 60.5", "committed 60.5")
	notes.want(t, "read as 60.5 °C false")
	if l.parts.entry.Visible() || !l.parts.box.Visible() {
		t.Error("the entry must close when it loses the focus")
	}

	// Bad text: stays open on Enter, value unchanged, message shown.
	test.Tap(l.parts.box)
	test.Type(l.parts.entry, "hot")
	l.parts.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if !l.parts.entry.Visible() || l.Value() != 60.5 {
		t.Error("what can't be read must stay to be mended")
	}
	notes.want(t, "can't read “hot”; it takes 58.0 °C to 72.0 °C true")
	// … and is dropped when the focus goes; who hears it is told why, and beside the old
	// value no remark of another stays.
	notes = nil
	w.Canvas().Unfocus()
	if l.parts.entry.Visible() || l.parts.box.text.Text != "60.5 °C" || l.parts.noteText.Visible() {
		t.Errorf("box %q, note %v", l.parts.box.text.Text, l.parts.noteText.Visible())
	}
	notes.want(t, "can't read “hot”; it takes 58.0 °C to 72.0 °C true")
	told.want(t)
	notes = nil

	// Out of range, by Parse and, behind it, by the lever itself.
	test.Tap(l.parts.box)
	test.Type(l.parts.entry, "80")
	l.parts.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	notes.want(t, "80.0 °C is outside 58.0 °C to 72.0 °C true")
	l.Parse = func(string) (float64, string, error) { return 99, "", nil }
	l.parts.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	notes.want(t, "that is outside 58.0 °C to 72.0 °C true")
	// Escape leaves.
	l.parts.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if l.parts.entry.Visible() || w.Canvas().Focused() != l || l.Value() != 60.5 {
		t.Error("Escape must leave the value as it was")
	}
	told.want(t)

	// Opened and left: nothing, not even a rounding of what is shown.
	l.SetValue(66.123)
	test.Tap(l.parts.box)
	w.Canvas().Unfocus()
	if l.Value() != 66.123 {
		t.Errorf("looking at a value changed it to %v", l.Value())
	}
	told.want(t)
	// The same value typed anew is no change either.
	l.Parse = func(string) (float64, string, error) { return 66.123, "", nil }
	test.Tap(l.parts.box)
	test.Type(l.parts.entry, "66.123")
	w.Canvas().Unfocus()
	told.want(t)

	l.Parse = nil
	test.Tap(l.parts.box)
	test.Type(l.parts.entry, "1")
	l.parts.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if l.note == "" || !l.noteBad {
		t.Error("without a Parse the lever must say that it can't be typed")
	}
}

// The window loses the keyboard while a value is open, and gets it back.
func TestWindowChangeWhileTyping(t *testing.T) {
	l, told, w := mash(t)
	l.Focus()
	test.Type(l, "6")
	test.Type(w.Canvas().Focused(), "1")
	w.Canvas().Focused().FocusLost() // as the driver does
	told.want(t, "changed 61", "committed 61")
	w.Canvas().Focused().FocusGained()
	if !l.parts.entry.Visible() || l.parts.entry.Text != "61.0 °C" {
		t.Error("the entry in focus must be seen")
	}
}

func TestLock(t *testing.T) {
	l, told, w := mash(t)
	l.SetDefault(60)
	l.Focus()
	test.Type(l, "l")
	told.want(t, "locked true")
	press(&l.Rail, fyne.KeyRight, fyne.KeyHome, fyne.KeyDelete)
	down(&l.Rail, at(&l.Rail, 60))
	drag(&l.Rail, at(&l.Rail, 60), at(&l.Rail, 70))
	up(&l.Rail)
	l.Tapped(&fyne.PointEvent{Position: at(&l.Rail, 70)})
	l.DoubleTapped(&fyne.PointEvent{})
	l.Reset()
	test.Type(l, "65")
	test.Tap(l.parts.box)
	if l.Value() != 66.5 || l.parts.entry.Visible() || w.Canvas().Focused() != l {
		t.Errorf("a locked lever moved to %v", l.Value())
	}
	told.want(t)
	if !strings.Contains(l.note, "locked") || !strings.Contains(l.AccessibilityLabel(), "locked") {
		t.Errorf("the lever must say that it is locked: %q, %q", l.note, l.AccessibilityLabel())
	}
	l.SetValue(61) // the programme may
	if l.Value() != 61 {
		t.Error("the lock is the person's, not the programme's")
	}
	test.Tap(l.parts.lock)
	told.want(t, "locked false")
	press(&l.Rail, fyne.KeyRight)
	told.want(t, "changed 61.1", "committed 61.1")
}

func TestLockingEndsADrag(t *testing.T) {
	l, told, _ := mash(t)
	down(&l.Rail, at(&l.Rail, 60))
	l.SetLocked(true)
	drag(&l.Rail, at(&l.Rail, 60), at(&l.Rail, 70))
	up(&l.Rail)
	told.want(t, "changed 60", "committed 60")
}

func TestDisabled(t *testing.T) {
	l, told, w := mash(t)
	l.Disable()
	l.Focus()
	if w.Canvas().Focused() != nil {
		t.Error("a disabled lever must not take the focus")
	}
	press(&l.Rail, fyne.KeyRight, fyne.KeyReturn)
	test.Type(l, "5l")
	down(&l.Rail, at(&l.Rail, 60))
	up(&l.Rail)
	test.Tap(l.parts.box)
	told.want(t)
	if l.parts.lock.Visible() || l.parts.entry.Visible() || !l.Disabled() {
		t.Error("a disabled lever offers nothing")
	}
}

// Tab goes lever, choice under its name, next lever.
func TestTabWalksTheLevers(t *testing.T) {
	a, b := New("a", Scale{Max: 1}, 0, plainNumber), NewTwoHanded("b", Scale{Max: 1}, 0, 1, func(x, y float64) string { return "" })
	choice := widget.NewButton("x", nil)
	a.Sub = choice
	off := New("off", Scale{Max: 1}, 0, plainNumber)
	off.Disable()
	w := window(t, container.NewVBox(a, off, b))
	c := w.Canvas()
	c.FocusNext()
	for i, want := range []fyne.Focusable{a, choice, b, a} {
		if c.Focused() != want {
			t.Errorf("stop %d is %T %v", i, c.Focused(), c.Focused())
		}
		c.FocusNext()
	}
	// And back; Fyne walks a widget before what it holds in this direction too.
	c.Focus(b)
	back := map[fyne.Focusable]bool{}
	for range 3 {
		c.FocusPrevious()
		back[c.Focused()] = true
	}
	if !back[a] || !back[choice] || !back[b] {
		t.Errorf("Shift+Tab reaches only %d of 3", len(back))
	}
}

func plainNumber(v float64) string { return fmt.Sprint(v) }

func TestFocusIsSeen(t *testing.T) {
	l, _, w := mash(t)
	seen := func() bool { _, _, _, a := l.parts.ring.StrokeColor.RGBA(); return a > 0 }
	if seen() {
		t.Error("a ring without focus")
	}
	l.Focus()
	if !seen() {
		t.Error("no ring with the focus")
	}
	if l.parts.ring.StrokeColor != look.PaletteFor(2).Focus {
		t.Error("the ring has another colour than the one whose contrast is asserted")
	}
	w.Canvas().Unfocus()
	if seen() {
		t.Error("the ring stays")
	}
}

func TestSizes(t *testing.T) {
	l, _, _ := mash(t)
	l.SetDefault(60)
	if m := l.MinSize(); m.Width > 248 || m.Height > 70 {
		t.Errorf("least size %v", m)
	}
	sub := canvas.NewRectangle(nil)
	sub.SetMinSize(fyne.NewSize(120, 28))
	l.Sub = sub
	l.Refresh()
	if m := l.MinSize(); m.Width > 248 || m.Height > 88 {
		t.Errorf("least size with a choice %v", m)
	}
	// Room for a pointer: 24 is WCAG 2.2's least (2.5.8), 28 ours.
	for name, o := range map[string]fyne.CanvasObject{"box": l.parts.box, "lock": l.parts.lock, "reset": l.parts.reset} {
		if s := o.Size(); s.Width < 24 || s.Height < look.Control {
			t.Errorf("%s is %v", name, s)
		}
	}
	if zone < look.Control {
		t.Error("the track's zone is too low")
	}
	// Nothing changes its place while the lever moves.
	before := l.parts.box.Size()
	for _, v := range []float64{58, 60, 72} {
		l.SetValue(v)
		if l.parts.box.Size() != before || l.MinSize().Width > 248 {
			t.Errorf("at %v the box is %v, was %v", v, l.parts.box.Size(), before)
		}
	}
	o, _, _, _, _ := column(look.PaletteFor(2))
	if h := o.MinSize().Height; h > 500 {
		t.Errorf("five levers with their panel need %v, leaving too little of 670 for the comparison", h)
	}
}

// The wheel belongs to the column: a lever that took it would change a brew
// because someone scrolled past.
func TestWheelIsLeftAlone(t *testing.T) {
	l, told, w := mash(t)
	if _, takes := any(l).(fyne.Scrollable); takes {
		t.Error("the lever takes the wheel")
	}
	test.Scroll(w.Canvas(), at(&l.Rail, 66.5), 0, 50)
	told.want(t)
}

func TestAccessibleName(t *testing.T) {
	l, _, _ := mash(t)
	var a fyne.Accessible = l
	if got := a.AccessibilityLabel(); got != "Mash rest, 66.5 °C, from lighter, drier to fuller, sweeter" {
		t.Errorf("%q", got)
	}
	for _, o := range []fyne.Accessible{l.parts.box, l.parts.entry, l.parts.reset, l.parts.lock} {
		if !strings.Contains(o.AccessibilityLabel(), "Mash rest") || o.AccessibilityRole() == "" {
			t.Errorf("%T is called %q", o, o.AccessibilityLabel())
		}
	}
	var hints log
	l.OnHint = func(text string) { hints.add("%s", text) }
	l.parts.lock.MouseIn(nil)
	l.parts.lock.MouseOut()
	hints.want(t, "keep Mash rest where it is (L)", "")
}

func TestNewRangeIsDrawnWithTheSameValue(t *testing.T) {
	l, told, _ := mash(t)
	before := l.parts.thumbs[0].Position()
	l.Scale.Max = 90
	l.SetValue(l.Value())
	if l.parts.thumbs[0].Position() == before {
		t.Error("the handle stands where the old range had it")
	}
	told.want(t)
}

func TestParseErrorsAreShownAsTheyAre(t *testing.T) {
	l, _, _ := mash(t)
	l.Parse = func(string) (float64, string, error) { return 0, "", errors.New(strings.Repeat("long ", 40)) }
	test.Tap(l.parts.box)
	test.Type(l.parts.entry, "x")
	l.parts.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if w := measure(l.parts.noteText.Text, l.parts.noteText.TextSize, false).Width; w > l.Size().Width || !strings.HasSuffix(l.parts.noteText.Text, "…") {
		t.Errorf("%q is %v wide", l.parts.noteText.Text, w)
	}
}
