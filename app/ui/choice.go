package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/lever"
	"skep/app/look"
	"skep/app/words"
)

// Choice is a quiet word that can be pressed: a link, or the head of a list
// of things to choose from. Its touch area is at least 28 high. Fyne's hyperlink has the
// theme's one ink and size and no icon, its select is a field's box, and neither says at
// the foot of the window what it is for.
type Choice struct {
	widget.BaseWidget
	Text      string
	Name      string // what a screen reader says before the text
	List      bool   // an arrow says that more is behind it
	Icon      fyne.Resource
	IconFirst bool // the icon stands before the text
	Chosen    bool // of several answers it is the one: for a screen reader
	Ink       Ink
	TextSize  float32
	Bold      bool
	Current   bool // underlined: this is where one is
	Height    float32
	Off       bool
	OnTap     func()
	OnHint    func(string)
	Hint      string

	self             chosen                  // what it is part of, where that is more than a choice
	seen             func(fyne.CanvasObject) // it has the keyboard: bring it into view
	focused, hovered bool
}

type chosen interface {
	fyne.Widget
	fyne.Focusable
}

// ToolWidth is the width of a choice that is a small picture alone.
const ToolWidth = 30

// ChoiceHeight is the least height of a choice.
const ChoiceHeight = 28

// NewChoice makes a choice; list shows that more is behind it.
func NewChoice(text string, list bool, tap func()) *Choice {
	c := &Choice{Text: text, List: list, OnTap: tap, TextSize: look.CaptionSize, Ink: InkQuiet, Height: ChoiceHeight}
	c.Extend(c)
	return c
}

// Extend says what the choice is part of, for one that is more.
func (c *Choice) Extend(self chosen) {
	c.self = self
	c.ExtendBaseWidget(self)
}

// SetText shows another text, and draws nothing anew when it is the same.
func (c *Choice) SetText(text string) {
	if c.Text != text {
		c.Text = text
		c.Refresh()
	}
}

// SetOff shows that the choice does nothing now.
func (c *Choice) SetOff(off bool) {
	if c.Off != off {
		c.Off = off
		c.Refresh()
	}
}

var (
	_ fyne.Focusable    = (*Choice)(nil)
	_ fyne.Tappable     = (*Choice)(nil)
	_ fyne.Disableable  = (*Choice)(nil)
	_ desktop.Hoverable = (*Choice)(nil)
	_ fyne.Accessible   = (*Choice)(nil)
)

// Tapped presses it. A press of the pointer gives it the keyboard first, as the toolkit's
// own does: the driver takes it from what had it, and after Escape from what opens Tab is
// to go on from here.
func (c *Choice) Tapped(e *fyne.PointEvent) {
	if c.Off || c.OnTap == nil {
		return
	}
	if window := fyne.CurrentApp().Driver().CanvasForObject(c.self); e != nil && window != nil {
		window.Focus(c.self)
	}
	c.OnTap()
}

func (c *Choice) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		c.Tapped(nil)
	default:
		lever.PassKey(c, k)
	}
}
func (c *Choice) TypedRune(rune) {}
func (c *Choice) FocusLost()     { c.focused = false; c.Refresh() }
func (c *Choice) FocusGained() {
	c.focused = true
	c.Refresh()
	if c.seen != nil {
		c.seen(c)
	}
}

// SetSeen says who brings it into view when it has the keyboard.
func (c *Choice) SetSeen(seen func(fyne.CanvasObject)) { c.seen = seen }

// Enable, Disable and Disabled keep what does nothing now out of the Tab order.
func (c *Choice) Enable()        { c.SetOff(false) }
func (c *Choice) Disable()       { c.SetOff(true) }
func (c *Choice) Disabled() bool { return c.Off }

func (c *Choice) MouseIn(*desktop.MouseEvent) {
	c.hovered = true
	if c.OnHint != nil {
		c.OnHint(c.Hint)
	}
	c.Refresh()
}
func (c *Choice) MouseMoved(*desktop.MouseEvent) {}
func (c *Choice) MouseOut() {
	c.hovered = false
	if c.OnHint != nil {
		c.OnHint("")
	}
	c.Refresh()
}

func (c *Choice) AccessibilityLabel() string {
	switch {
	case c.Chosen:
		return words.T("{answer}, chosen", c.Text)
	case c.Name == "":
		return c.Text
	case c.Text == "":
		return c.Name
	}
	return c.Name + ", " + c.Text
}
func (c *Choice) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

func (c *Choice) CreateRenderer() fyne.WidgetRenderer {
	r := &choiceRenderer{c: c, back: canvas.NewRectangle(color.Transparent), text: canvas.NewText("", color.Black), line: canvas.NewRectangle(color.Transparent)}
	r.back.CornerRadius = 5
	r.arrow = canvas.NewImageFromResource(nil)
	r.arrow.FillMode = canvas.ImageFillContain
	r.Refresh()
	return r
}

type choiceRenderer struct {
	c          *Choice
	back, line *canvas.Rectangle
	text       *canvas.Text
	arrow      *canvas.Image
}

// ChoicePad is the room left and right of its text.
const ChoicePad = 5

func (r *choiceRenderer) icon() fyne.Resource {
	if r.c.List {
		return look.IconDown()
	}
	return r.c.Icon
}

func (r *choiceRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	text := r.text.MinSize()
	at, x := float32(ChoicePad), float32(ChoicePad)
	side := float32(14)
	switch {
	case r.c.Text == "":
		side = 18
		x = (size.Width - side) / 2
	case r.c.IconFirst:
		at += side + 3
	default:
		x += text.Width + 3
	}
	r.text.Move(fyne.NewPos(at, (size.Height-text.Height)/2))
	r.text.Resize(text)
	r.arrow.Move(fyne.NewPos(x, (size.Height-side)/2))
	r.arrow.Resize(fyne.NewSquareSize(side))
	r.line.Move(fyne.NewPos(ChoicePad-2, size.Height-3))
	r.line.Resize(fyne.NewSize(text.Width+4, 3))
}

func (r *choiceRenderer) MinSize() fyne.Size {
	w := float32(2 * ChoicePad)
	if r.c.Text != "" {
		w += r.text.MinSize().Width
	}
	if r.icon() != nil {
		w += 17
	}
	if r.c.Text == "" {
		w = max(w, 32)
	}
	return fyne.NewSize(w, max(r.c.Height, ChoiceHeight))
}

func (r *choiceRenderer) Refresh() {
	p := PaletteOf(r.c.Theme())
	r.text.Text, r.text.TextSize = r.c.Text, r.c.TextSize
	r.text.TextStyle = fyne.TextStyle{Bold: r.c.Bold || r.c.Current}
	r.text.Color = r.c.Ink.of(p)
	if r.c.Current {
		r.text.Color = p.Ink
	}
	if r.c.Off {
		r.text.Color = p.Disabled
	}
	r.back.FillColor, r.back.StrokeColor, r.back.StrokeWidth = color.Transparent, color.Transparent, 0
	if r.c.hovered && !r.c.Off {
		r.back.FillColor = p.Hover
	}
	if r.c.focused {
		r.back.StrokeColor, r.back.StrokeWidth = p.Focus, 2
	}
	r.line.FillColor = color.Transparent
	if r.c.Current {
		r.line.FillColor = p.Accent
		r.line.CornerRadius = 1.5
	}
	r.arrow.Resource = r.icon()
	r.arrow.Translucency = 0
	if r.c.Off {
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
