package plane

import (
	"image/color"
	"math"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/lever"
	"skep/app/look"
	"skep/app/words"
)

// wishBox shows one wish and turns into an entry when it is clicked or typed
// into: a box keeps its text in the middle, which an entry can't.
type wishBox struct {
	widget.BaseWidget
	row   *WishRow
	key   string
	step  float64 // of the up and down keys
	most  float64
	value *float64

	focused, hovered, open bool
	before                 string // text the entry was opened with

	frame *canvas.Rectangle
	text  *canvas.Text
	entry *wishEntry
}

var (
	_ fyne.Focusable     = (*wishBox)(nil)
	_ fyne.Tappable      = (*wishBox)(nil)
	_ desktop.Hoverable  = (*wishBox)(nil)
	_ desktop.Cursorable = (*wishBox)(nil)
	_ fyne.Accessible    = (*wishBox)(nil)
)

func newWishBox(r *WishRow, key string, step, most float64) *wishBox {
	b := &wishBox{row: r, key: key, step: step, most: most,
		frame: canvas.NewRectangle(color.Transparent), text: canvas.NewText("", color.Black)}
	b.frame.CornerRadius = look.Corner
	b.text.Alignment = fyne.TextAlignCenter
	b.entry = newWishEntry(b)
	b.ExtendBaseWidget(b)
	return b
}

func (b *wishBox) shown() string {
	switch {
	case b.value == nil:
		return words.T("any")
	case b.row.Format == nil:
		return ""
	}
	return b.row.Format(b.key, *b.value)
}

func (b *wishBox) set(v *float64) {
	if v != nil && !finite(*v) {
		v = nil
	}
	if same(b.value, v) {
		return
	}
	b.value = nil
	if v != nil {
		c := *v
		b.value = &c
	}
	b.style()
}

// user is a person's change.
func (b *wishBox) user(v *float64) {
	if same(b.value, v) {
		return
	}
	b.set(v)
	if b.row.OnWish != nil {
		b.row.OnWish(b.key, b.row.Value(b.key))
	}
}

// style sets text and colours: a wish has the pin's colour and a thicker
// frame, any is quiet.
func (b *wishBox) style() {
	c := paletteOf(b)
	b.frame.FillColor, b.frame.StrokeColor, b.frame.StrokeWidth = c.Field, c.FieldBorder, 1
	ink := c.Quiet
	if b.value != nil {
		b.frame.StrokeColor, b.frame.StrokeWidth = c.Pin, 1.6
		ink = c.Ink
	} else if b.hovered {
		b.frame.StrokeColor = c.Ink
	}
	if b.focused {
		b.frame.StrokeColor, b.frame.StrokeWidth = c.Focus, 2
	}
	write(b.text, b.shown(), ink, false, look.TextSize)
	b.frame.Refresh()
}

// FocusGained shows that keys go here.
func (b *wishBox) FocusGained() {
	b.focused = true
	b.style()
	b.row.hint(b.does())
}

// FocusLost undoes it.
func (b *wishBox) FocusLost() {
	b.focused = false
	b.style()
	b.row.hint("")
}

func (b *wishBox) does() string {
	if b.key == AtHandKey {
		return words.T("honey at hand: the ways take no more; Delete where more may be bought")
	}
	return words.T("{name} wanted: type a number, up and down change it, Delete for any", nameOf(b.key))
}

// TypedRune begins typing.
func (b *wishBox) TypedRune(r rune) {
	if unicode.IsDigit(r) || strings.ContainsRune(".,", r) {
		b.edit(string(r))
	}
}

// TypedKey steps the wish, takes it away, or opens it.
func (b *wishBox) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyF2, fyne.KeySpace:
		b.edit("")
	case fyne.KeyDelete, fyne.KeyBackspace:
		b.row.show("", false)
		b.user(nil)
	case fyne.KeyUp:
		b.nudge(1)
	case fyne.KeyDown:
		b.nudge(-1)
	default:
		lever.PassKey(b, ev)
	}
}

func (b *wishBox) nudge(by float64) {
	if b.value == nil {
		b.edit("")
		return
	}
	v := min(max(math.Round(*b.value/b.step+by)*b.step, 0), b.most)
	v = math.Round(v*1e6) / 1e6 // steps of a tenth leave dust
	b.row.show("", false)
	b.user(&v)
}

// Tapped begins typing.
func (b *wishBox) Tapped(*fyne.PointEvent) { b.edit("") }

// MouseIn says what the box does.
func (b *wishBox) MouseIn(*desktop.MouseEvent) {
	b.hovered = true
	b.style()
	b.row.hint(b.does())
}

// MouseMoved is of no interest.
func (b *wishBox) MouseMoved(*desktop.MouseEvent) {}

// MouseOut takes the hint back.
func (b *wishBox) MouseOut() {
	b.hovered = false
	b.style()
	b.row.hint("")
}

// Cursor is that of text.
func (b *wishBox) Cursor() desktop.Cursor { return desktop.TextCursor }

// AccessibilityLabel is the wish.
func (b *wishBox) AccessibilityLabel() string {
	if b.key == AtHandKey {
		return words.T("honey at hand: {amount}", b.shown())
	}
	return words.T("{name} wanted, {value}", nameOf(b.key), b.shown())
}

// AccessibilityRole is a button: it opens what can be typed into.
func (b *wishBox) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

// CreateRenderer is for Fyne.
func (b *wishBox) CreateRenderer() fyne.WidgetRenderer {
	b.style()
	return &wishBoxRenderer{b}
}

type wishBoxRenderer struct{ b *wishBox }

func (r *wishBoxRenderer) Layout(s fyne.Size) {
	b := r.b
	b.frame.Resize(s)
	h := b.text.MinSize().Height
	b.text.Move(fyne.NewPos(0, (s.Height-h)/2))
	b.text.Resize(fyne.NewSize(s.Width, h))
	h = b.entry.MinSize().Height
	b.entry.Move(fyne.NewPos(0, (s.Height-h)/2))
	b.entry.Resize(fyne.NewSize(s.Width, h))
}

func (r *wishBoxRenderer) MinSize() fyne.Size { return fyne.NewSize(50, look.Control) }
func (r *wishBoxRenderer) Refresh()           { r.b.style() }
func (r *wishBoxRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.b.frame, r.b.text, r.b.entry}
}
func (r *wishBoxRenderer) Destroy() {}
