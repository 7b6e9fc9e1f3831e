package ui

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"skep/app/lever"
	"skep/app/look"
	"skep/app/words"
)

// Button is the toolkit's, which lacks Escape: it is passed on to what closes the
// dialog that the button stands in. It also lacks a ring: with the keyboard it is laid
// over with the accent, which a button that has that colour already does not show.
type Button struct {
	widget.Button
	focused bool
}

// NewButton makes a button.
func NewButton(text string, tap func()) *Button {
	b := &Button{}
	b.Text, b.OnTapped = text, tap
	b.ExtendBaseWidget(b)
	return b
}

// FocusGained and FocusLost show the ring and take it away.
func (b *Button) FocusGained() { b.focused = true; b.Button.FocusGained() }
func (b *Button) FocusLost()   { b.focused = false; b.Button.FocusLost() }

// CreateRenderer adds the ring.
func (b *Button) CreateRenderer() fyne.WidgetRenderer {
	r := &ringedButton{WidgetRenderer: b.Button.CreateRenderer(), b: b, ring: canvas.NewRectangle(color.Transparent)}
	r.ring.StrokeWidth, r.ring.CornerRadius = ringWidth, look.Corner
	r.style()
	return r
}

// ringWidth is the thickness of a ring within a control: a line of two around its outside
// has no more area (WCAG 2.2, 2.4.13).
const ringWidth = 3

type ringedButton struct {
	fyne.WidgetRenderer
	b    *Button
	ring *canvas.Rectangle
}

func (r *ringedButton) Objects() []fyne.CanvasObject {
	return append(slices.Clone(r.WidgetRenderer.Objects()), r.ring)
}

func (r *ringedButton) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	const inset = 1
	r.ring.Move(fyne.NewSquareOffsetPos(inset))
	r.ring.Resize(size.SubtractWidthHeight(2*inset, 2*inset))
}

func (r *ringedButton) Refresh() {
	r.WidgetRenderer.Refresh()
	r.style()
	r.ring.Refresh()
}

// style gives the ring the colour of what is written on the button, which stands out from
// its ground by contract.
func (r *ringedButton) style() {
	p := PaletteOf(r.b.Theme())
	r.ring.StrokeColor = p.Ink
	if r.b.Importance == widget.HighImportance {
		r.ring.StrokeColor = p.OnAccent
	}
	r.ring.Hidden = !r.b.focused
}

// TypedKey adds Enter, which presses it, and Escape.
func (b *Button) TypedKey(k *fyne.KeyEvent) {
	switch {
	case lever.PassKey(b, k):
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		if !b.Disabled() {
			b.OnTapped()
		}
	default:
		b.Button.TypedKey(k)
	}
}

// Check is the toolkit's, which lacks Escape as well.
type Check struct{ widget.Check }

// NewCheck makes a check.
func NewCheck(text string, changed func(bool)) *Check {
	c := &Check{}
	c.Text, c.OnChanged = text, changed
	c.ExtendBaseWidget(c)
	return c
}

// TypedKey adds Escape.
func (c *Check) TypedKey(k *fyne.KeyEvent) {
	if !lever.PassKey(c, k) {
		c.Check.TypedKey(k)
	}
}

// Select is the toolkit's, which lacks Escape as well.
type Select struct{ widget.Select }

// NewSelect makes a choice of one.
func NewSelect(options []string, changed func(string)) *Select {
	s := &Select{}
	s.Options, s.OnChanged = options, changed
	s.ExtendBaseWidget(s)
	return s
}

// TypedKey adds Escape.
func (s *Select) TypedKey(k *fyne.KeyEvent) {
	if !lever.PassKey(s, k) {
		s.Select.TypedKey(k)
	}
}

// ShowRead shows a dialog that only says something: Enter and Escape close it.
func ShowRead(h Host, d *dialog.CustomDialog) {
	done := NewButton(words.T("Done"), d.Hide)
	done.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{done})
	ShowModal(h, d, d.Hide)
	Focus(h, done)
}

// ShowModal shows a dialog: Escape closes it by leave, and while it stands the window
// behind it hears no key.
func ShowModal(h Host, d dialog.Dialog, leave func()) {
	open := true
	gone := h.Over(true, func() bool { return open }, leave)
	d.SetOnClosed(func() { open = false; gone() })
	d.Show()
}
