package app

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
)

// choice is a quiet word that can be pressed: a link, or the head of a list
// of things to choose from. Its touch area is at least 28 high.
type choice struct {
	widget.BaseWidget
	text    string
	name    string // what a screen reader says before the text
	list    bool   // an arrow says that more is behind it
	icon    fyne.Resource
	ink     ink
	size    float32
	bold    bool
	current bool // underlined: this is where one is
	height  float32
	off     bool
	onTap   func()
	onHint  func(string)
	hint    string

	focused, hovered bool
}

const choiceHeight = 28

func newChoice(text string, list bool, tap func()) *choice {
	c := &choice{text: text, list: list, onTap: tap, size: look.CaptionSize, ink: inkQuiet, height: choiceHeight}
	c.ExtendBaseWidget(c)
	return c
}

func (c *choice) SetText(text string) {
	if c.text != text {
		c.text = text
		c.Refresh()
	}
}

func (c *choice) setOff(off bool) {
	if c.off != off {
		c.off = off
		c.Refresh()
	}
}

var (
	_ fyne.Focusable    = (*choice)(nil)
	_ fyne.Tappable     = (*choice)(nil)
	_ fyne.Disableable  = (*choice)(nil)
	_ desktop.Hoverable = (*choice)(nil)
	_ fyne.Accessible   = (*choice)(nil)
)

func (c *choice) Tapped(*fyne.PointEvent) {
	if !c.off && c.onTap != nil {
		c.onTap()
	}
}

func (c *choice) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		c.Tapped(nil)
	}
}
func (c *choice) TypedRune(rune) {}
func (c *choice) FocusGained()   { c.focused = true; c.Refresh() }
func (c *choice) FocusLost()     { c.focused = false; c.Refresh() }

// Enable, Disable and Disabled keep what does nothing now out of the Tab order.
func (c *choice) Enable()        { c.setOff(false) }
func (c *choice) Disable()       { c.setOff(true) }
func (c *choice) Disabled() bool { return c.off }

func (c *choice) MouseIn(*desktop.MouseEvent) {
	c.hovered = true
	if c.onHint != nil {
		c.onHint(c.hint)
	}
	c.Refresh()
}
func (c *choice) MouseMoved(*desktop.MouseEvent) {}
func (c *choice) MouseOut() {
	c.hovered = false
	if c.onHint != nil {
		c.onHint("")
	}
	c.Refresh()
}

func (c *choice) AccessibilityLabel() string {
	switch {
	case c.name == "":
		return c.text
	case c.text == "":
		return c.name
	}
	return c.name + ", " + c.text
}
func (c *choice) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

func (c *choice) CreateRenderer() fyne.WidgetRenderer {
	r := &choiceRenderer{c: c, back: canvas.NewRectangle(color.Transparent), text: canvas.NewText("", color.Black), line: canvas.NewRectangle(color.Transparent)}
	r.back.CornerRadius = 5
	r.arrow = canvas.NewImageFromResource(nil)
	r.arrow.FillMode = canvas.ImageFillContain
	r.Refresh()
	return r
}

type choiceRenderer struct {
	c          *choice
	back, line *canvas.Rectangle
	text       *canvas.Text
	arrow      *canvas.Image
}

const choicePad = 5

func (r *choiceRenderer) icon() fyne.Resource {
	if r.c.list {
		return look.IconDown()
	}
	return r.c.icon
}

func (r *choiceRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	text := r.text.MinSize()
	r.text.Move(fyne.NewPos(choicePad, (size.Height-text.Height)/2))
	r.text.Resize(text)
	x := float32(choicePad)
	if r.c.text != "" {
		x += text.Width + 3
	}
	side := float32(14)
	if r.c.text == "" {
		side = 18
		x = (size.Width - side) / 2
	}
	r.arrow.Move(fyne.NewPos(x, (size.Height-side)/2))
	r.arrow.Resize(fyne.NewSquareSize(side))
	r.line.Move(fyne.NewPos(choicePad-2, size.Height-3))
	r.line.Resize(fyne.NewSize(text.Width+4, 3))
}

func (r *choiceRenderer) MinSize() fyne.Size {
	w := float32(2 * choicePad)
	if r.c.text != "" {
		w += r.text.MinSize().Width
	}
	if r.icon() != nil {
		w += 17
	}
	if r.c.text == "" {
		w = max(w, 32)
	}
	return fyne.NewSize(w, max(r.c.height, choiceHeight))
}

func (r *choiceRenderer) Refresh() {
	p := paletteOf(r.c.Theme())
	r.text.Text, r.text.TextSize = r.c.text, r.c.size
	r.text.TextStyle = fyne.TextStyle{Bold: r.c.bold || r.c.current}
	r.text.Color = r.c.ink.of(p)
	if r.c.current {
		r.text.Color = p.Ink
	}
	if r.c.off {
		r.text.Color = p.Disabled
	}
	r.back.FillColor, r.back.StrokeColor, r.back.StrokeWidth = color.Transparent, color.Transparent, 0
	if r.c.hovered && !r.c.off {
		r.back.FillColor = p.Hover
	}
	if r.c.focused {
		r.back.StrokeColor, r.back.StrokeWidth = p.Focus, 2
	}
	r.line.FillColor = color.Transparent
	if r.c.current {
		r.line.FillColor = p.Accent
		r.line.CornerRadius = 1.5
	}
	r.arrow.Resource = r.icon()
	r.arrow.Translucency = 0
	if r.c.off {
		r.arrow.Translucency = 0.55
	}
	r.arrow.Hidden = r.arrow.Resource == nil
	r.Layout(r.c.Size())
	r.back.Refresh()
	r.text.Refresh()
	r.arrow.Refresh()
	r.line.Refresh()
}

func (r *choiceRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.back, r.text, r.arrow, r.line}
}
func (r *choiceRenderer) Destroy() {}
