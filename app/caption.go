package app

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
)

// ink is what a caption's colour means.
type ink int

const (
	inkFull ink = iota
	inkQuiet
	inkAccent
	inkWarning
)

// caption is one line of text without the padding that a label brings. Where
// there is too little room it ends in an ellipsis.
type caption struct {
	widget.BaseWidget
	text  string
	ink   ink
	size  float32
	bold  bool
	align fyne.TextAlign
	short string // shown where the text does not fit; empty: an ellipsis
	// yields lets the layout give the caption less room than its text needs.
	yields bool
}

func newCaption(text string, size float32, bold bool, ink ink) *caption {
	c := &caption{text: text, ink: ink, size: size, bold: bold}
	c.ExtendBaseWidget(c)
	return c
}

// SetTexts is SetText with a shorter one for where there is little room.
func (c *caption) SetTexts(text, short string) {
	if c.text == text && c.short == short {
		return
	}
	c.text, c.short = text, short
	c.Refresh()
}

// SetText shows another text, and draws nothing anew when it is the same.
func (c *caption) SetText(text string) {
	if c.text == text {
		return
	}
	c.text = text
	c.Refresh()
}

var _ fyne.Accessible = (*caption)(nil)

// AccessibilityLabel is the text, for screen readers.
func (c *caption) AccessibilityLabel() string { return c.text }

// AccessibilityRole is text.
func (c *caption) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// palette is what the running theme draws with.
func paletteOf(th fyne.Theme) look.Palette {
	return look.PaletteOf(th, fyne.CurrentApp().Settings().ThemeVariant())
}

func (k ink) of(p look.Palette) color.Color {
	switch k {
	case inkQuiet:
		return p.Quiet
	case inkAccent:
		return p.Accent
	case inkWarning:
		return p.Warning
	}
	return p.Ink
}

func (c *caption) CreateRenderer() fyne.WidgetRenderer {
	t := canvas.NewText(c.text, color.Black)
	r := &captionRenderer{c: c, text: t}
	r.Refresh()
	return r
}

type captionRenderer struct {
	c    *caption
	text *canvas.Text
}

func (r *captionRenderer) style() fyne.TextStyle { return fyne.TextStyle{Bold: r.c.bold} }

func (r *captionRenderer) Layout(size fyne.Size) {
	r.text.Resize(size)
	r.fit(size.Width)
}

// fit cuts the text to the room there is.
func (r *captionRenderer) fit(width float32) {
	text := r.c.text
	if r.c.yields && width > 0 && r.c.short != "" && fyne.MeasureText(text, r.c.size, r.style()).Width > width+0.5 {
		text = r.c.short
	}
	if r.c.yields && width > 0 {
		runes := []rune(text)
		for len(runes) > 1 && fyne.MeasureText(text, r.c.size, r.style()).Width > width+0.5 {
			runes = runes[:len(runes)-1]
			text = string(runes) + "…"
		}
	}
	if r.text.Text != text {
		r.text.Text = text
		r.text.Refresh()
	}
}

func (r *captionRenderer) MinSize() fyne.Size {
	s := fyne.MeasureText(r.c.text, r.c.size, r.style())
	if r.c.yields {
		s.Width = 0
	}
	return s
}

func (r *captionRenderer) Refresh() {
	r.text.TextSize = r.c.size
	r.text.TextStyle = r.style()
	r.text.Alignment = r.c.align
	r.text.Color = r.c.ink.of(paletteOf(r.c.Theme()))
	r.text.Text = r.c.text
	r.fit(r.c.Size().Width)
	r.text.Refresh()
}

func (r *captionRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.text} }
func (r *captionRenderer) Destroy()                     {}
