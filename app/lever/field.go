package lever

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/words"
)

// box shows the value and turns into an entry when it is clicked. Unlike Fyne's
// entry, which is always there, it keeps the value's place while a lever moves,
// sets it to the right where the eye compares, and is no Tab stop of its own.
type box struct {
	widget.BaseWidget
	rail    *Rail
	hovered bool
	frame   *canvas.Rectangle
	text    *canvas.Text
}

var (
	_ fyne.Tappable      = (*box)(nil)
	_ desktop.Hoverable  = (*box)(nil)
	_ desktop.Cursorable = (*box)(nil)
	_ fyne.Accessible    = (*box)(nil)
)

func newBox(r *Rail) *box {
	b := &box{rail: r, frame: canvas.NewRectangle(color.Transparent), text: canvas.NewText("", color.Black)}
	b.frame.CornerRadius = look.Corner
	b.frame.StrokeWidth = 1
	b.text.Alignment = fyne.TextAlignTrailing
	b.ExtendBaseWidget(b)
	return b
}

func (b *box) Tapped(*fyne.PointEvent) { b.rail.startEditing("") }

func (b *box) MouseIn(*desktop.MouseEvent) {
	b.hovered = true
	b.style()
	b.rail.hint(words.T("type a value, in any unit"))
}

func (b *box) MouseMoved(*desktop.MouseEvent) {}

func (b *box) MouseOut() {
	b.hovered = false
	b.style()
	b.rail.hint("")
}

func (b *box) Cursor() desktop.Cursor {
	if b.rail.fixed() {
		return desktop.DefaultCursor
	}
	return desktop.TextCursor
}

func (b *box) AccessibilityLabel() string {
	return words.T("value of {name}, {value}", b.rail.Name, b.text.Text)
}

func (b *box) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

// style sets the colours.
func (b *box) style() {
	p := b.rail.palette()
	b.frame.FillColor, b.frame.StrokeColor, b.text.Color = p.Field, p.FieldBorder, p.Ink
	switch {
	case b.rail.fixed():
		// No frame: there is nothing to type into.
		b.frame.FillColor, b.frame.StrokeColor = color.Transparent, color.Transparent
		b.text.Color = p.Quiet
	case b.hovered:
		b.frame.StrokeColor = p.Ink
	}
	b.text.TextSize = look.TextSize
	b.frame.Refresh()
	b.text.Refresh()
}

func (b *box) set(text string) {
	if b.text.Text != text {
		b.text.Text = text
		b.text.Refresh()
	}
}

func (b *box) CreateRenderer() fyne.WidgetRenderer { return &boxRenderer{b} }

type boxRenderer struct{ b *box }

const boxPad = 9

func (r *boxRenderer) Layout(s fyne.Size) {
	r.b.frame.Resize(s)
	h := r.b.text.MinSize().Height
	r.b.text.Move(fyne.NewPos(boxPad, (s.Height-h)/2))
	r.b.text.Resize(fyne.NewSize(s.Width-2*boxPad, h))
}

func (r *boxRenderer) MinSize() fyne.Size {
	return fyne.NewSize(r.b.text.MinSize().Width+2*boxPad, look.Control)
}

func (r *boxRenderer) Refresh() { r.b.style() }
func (r *boxRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.b.frame, r.b.text}
}
func (r *boxRenderer) Destroy() {}

// entry is what one types into.
type entry struct {
	widget.Entry
	rail   *Rail
	before string // text it was opened with: leaving that as it is changes nothing
	open   bool
}

func newEntry(r *Rail) *entry {
	e := &entry{rail: r}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	e.Scroll = fyne.ScrollNone
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) { r.submit() }
	e.Hide()
	return e
}

// FocusGained opens the entry again when the window comes back with it still
// in focus.
func (e *entry) FocusGained() {
	if !e.open {
		e.rail.open("")
	}
	e.Entry.FocusGained()
}

// TypedShortcut leaves the window its own.
func (e *entry) TypedShortcut(s fyne.Shortcut) {
	if !Leave(e, s) {
		e.Entry.TypedShortcut(s)
	}
}

// FocusLost takes what was typed.
func (e *entry) FocusLost() {
	e.Entry.FocusLost()
	if e.open {
		if !e.rail.takeEntry() {
			e.rail.SetNote("", false) // the old value stands there again; the window says why
		}
		e.rail.stopEditing()
	}
}

// TypedKey adds Escape, which leaves without taking.
func (e *entry) TypedKey(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyEscape {
		e.rail.stopEditing()
		e.rail.show("", false)
		e.rail.Focus()
		return
	}
	if !PassKey(e, ev) {
		e.Entry.TypedKey(ev)
	}
}

// AccessibilityLabel names the entry.
func (e *entry) AccessibilityLabel() string {
	return words.T("type the value of {name}", e.rail.Name)
}

// AccessibilityRole is text.
func (e *entry) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// startEditing puts the entry over the box; first is a character typed
// already, empty to begin with the value, selected.
func (r *Rail) startEditing(first string) {
	if r.disabled || r.parts == nil {
		return
	}
	if r.kept() {
		r.Focus()
		r.sayLocked()
		return
	}
	r.finish()
	r.open(first)
	if c := fyne.CurrentApp().Driver().CanvasForObject(r.self.(fyne.CanvasObject)); c != nil {
		c.Focus(r.parts.entry)
	}
	if first == "" {
		r.parts.entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

func (r *Rail) open(first string) {
	e := r.parts.entry
	e.open = true
	e.before = r.shown()
	text := e.before
	if first != "" {
		text = first
	}
	e.SetText(text)
	e.CursorColumn = len([]rune(text))
	r.note = ""
	r.parts.box.Hide()
	r.parts.reset.Hide()
	e.Show()
	r.replace()
}

func (r *Rail) stopEditing() {
	if r.parts == nil || !r.parts.entry.open {
		return
	}
	r.parts.entry.open = false
	r.parts.entry.Hide()
	r.parts.box.Show()
	r.replace()
}

// submit is Enter: what can't be read stays open to be mended.
func (r *Rail) submit() {
	if r.takeEntry() {
		r.stopEditing()
		r.Focus()
	}
}

// takeEntry reads the entry and sets the lever; false when the text is no
// value, which leaves the lever as it is and says why.
func (r *Rail) takeEntry() bool {
	e := r.parts.entry
	if e.Text == e.before {
		return true
	}
	values, echo, err := r.parse(e.Text)
	if err != nil {
		r.show(words.Error(err), true)
		return false
	}
	r.finish()
	r.user(values...)
	r.finish()
	if squeezed(e.Text) == squeezed(r.shown()) {
		echo = ""
	}
	r.show(echo, false)
	return true
}

// squeezed is a text without what makes no difference to a reader.
func squeezed(text string) string {
	return strings.ToLower(strings.Join(strings.Fields(text), ""))
}
