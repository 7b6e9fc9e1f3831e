package plane

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/lever"
	"skep/app/look"
)

// link is a quiet button of text. Unlike Fyne's hyperlink it says what it does while the
// pointer is on it, and by itself is no Tab stop: its work has a key of what it belongs to.
type link struct {
	widget.BaseWidget
	text, spoken string
	tapped       func()
	hint         func(string)
	hovered      bool
	focused      bool
	least        float32 // height
	ground       *canvas.Rectangle
	label        *canvas.Text
}

var (
	_ fyne.Tappable      = (*link)(nil)
	_ desktop.Hoverable  = (*link)(nil)
	_ desktop.Cursorable = (*link)(nil)
	_ fyne.Accessible    = (*link)(nil)
)

const linkPad = 6

func newLink(tapped func(), hint func(string)) *link {
	l := &link{}
	l.make(tapped, hint, look.CaptionSize, 24)
	l.ExtendBaseWidget(l)
	return l
}

func (l *link) make(tapped func(), hint func(string), size, least float32) {
	l.tapped, l.hint, l.least = tapped, hint, least
	l.ground, l.label = canvas.NewRectangle(color.Transparent), canvas.NewText("", color.Black)
	l.ground.CornerRadius = look.Corner
	l.label.TextSize = size
}

func (l *link) set(text, label string) {
	if l.text == text && l.spoken == label {
		return
	}
	l.text, l.spoken = text, label
	l.style()
}

func (l *link) style() {
	c := look.PaletteOf(l.Theme(), fyne.CurrentApp().Settings().ThemeVariant())
	l.label.Text, l.label.Color = l.text, c.Accent
	l.ground.FillColor = color.Transparent
	if l.hovered {
		l.ground.FillColor = c.Hover
	}
	l.ground.StrokeWidth = 0
	if l.focused {
		l.ground.StrokeColor, l.ground.StrokeWidth = c.Focus, 2
	}
	l.label.Refresh()
	l.ground.Refresh()
}

func (l *link) Tapped(*fyne.PointEvent)        { l.tapped() }
func (l *link) MouseMoved(*desktop.MouseEvent) {}
func (l *link) Cursor() desktop.Cursor         { return desktop.PointerCursor }

func (l *link) MouseIn(*desktop.MouseEvent) {
	l.hovered = true
	l.style()
	l.hint(l.spoken)
}

func (l *link) MouseOut() {
	l.hovered = false
	l.style()
	l.hint("")
}

func (l *link) AccessibilityLabel() string             { return l.text + ": " + l.spoken }
func (l *link) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

func (l *link) CreateRenderer() fyne.WidgetRenderer { return &linkRenderer{l} }

type linkRenderer struct{ l *link }

func (r *linkRenderer) Layout(s fyne.Size) {
	r.l.ground.Resize(s)
	m := r.l.label.MinSize()
	r.l.label.Move(fyne.NewPos((s.Width-m.Width)/2, (s.Height-m.Height)/2))
	r.l.label.Resize(m)
}

func (r *linkRenderer) MinSize() fyne.Size {
	return fyne.NewSize(r.l.label.MinSize().Width+2*linkPad, r.l.least)
}
func (r *linkRenderer) Refresh() { r.l.style() }
func (r *linkRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.l.ground, r.l.label}
}
func (r *linkRenderer) Destroy() {}

// useButton is a link that is a Tab stop.
type useButton struct{ link }

var _ fyne.Focusable = (*useButton)(nil)

func newUseButton(tapped func(), hint func(string)) *useButton {
	u := &useButton{}
	u.make(tapped, hint, look.TextSize, look.Control)
	u.ExtendBaseWidget(u)
	return u
}

func (u *useButton) FocusGained() {
	u.focused = true
	u.style()
	u.hint(u.spoken)
}

func (u *useButton) FocusLost() {
	u.focused = false
	u.style()
	u.hint("")
}

func (u *useButton) TypedRune(rune) {}

func (u *useButton) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		u.tapped()
	default:
		lever.PassKey(u, ev)
	}
}
