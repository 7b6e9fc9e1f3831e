package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
)

// Ink is what a caption's colour means.
type Ink int

const (
	InkFull Ink = iota
	InkQuiet
	InkAccent
	InkWarning
)

// Caption is one line of text. Fyne's label brings padding and the theme's one size,
// and where there is too little room cuts a text that this sets smaller or shorter first.
type Caption struct {
	widget.BaseWidget
	Text     string
	Ink      Ink
	TextSize float32
	Bold     bool
	Align    fyne.TextAlign
	Short    string // shown where the text does not fit; empty: an ellipsis
	// yields lets the layout give the caption less room than its text needs.
	Yields bool
}

// NewCaption makes a line of text.
func NewCaption(text string, size float32, bold bool, ink Ink) *Caption {
	c := &Caption{Text: text, Ink: ink, TextSize: size, Bold: bold}
	c.ExtendBaseWidget(c)
	return c
}

// Cell is a text of a table in a dialog.
func Cell(text string, right bool) *Caption {
	c := NewCaption(text, look.CaptionSize+1, false, InkQuiet)
	if right {
		c.Ink, c.Align = InkFull, fyne.TextAlignTrailing
	}
	c.Yields = true
	return c
}

// SetTexts is SetText with a shorter one for where there is little room.
func (c *Caption) SetTexts(text, short string) {
	if c.Text == text && c.Short == short {
		return
	}
	c.Text, c.Short = text, short
	c.Refresh()
}

// SetText shows another text, and draws nothing anew when it is the same.
func (c *Caption) SetText(text string) {
	if c.Text == text {
		return
	}
	c.Text = text
	c.Refresh()
}

var _ fyne.Accessible = (*Caption)(nil)

// AccessibilityLabel is the text, for screen readers.
func (c *Caption) AccessibilityLabel() string { return c.Text }

// AccessibilityRole is text.
func (c *Caption) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// PaletteOf is what the running theme draws with.
func PaletteOf(th fyne.Theme) look.Palette {
	return look.PaletteOf(th, fyne.CurrentApp().Settings().ThemeVariant())
}

func (k Ink) of(p look.Palette) color.Color {
	switch k {
	case InkQuiet:
		return p.Quiet
	case InkAccent:
		return p.Accent
	case InkWarning:
		return p.Warning
	}
	return p.Ink
}

func (c *Caption) CreateRenderer() fyne.WidgetRenderer {
	t := canvas.NewText(c.Text, color.Black)
	r := &captionRenderer{c: c, text: t}
	r.Refresh()
	return r
}

type captionRenderer struct {
	c    *Caption
	text *canvas.Text
}

func (r *captionRenderer) style() fyne.TextStyle { return fyne.TextStyle{Bold: r.c.Bold} }

func (r *captionRenderer) Layout(size fyne.Size) {
	r.text.Resize(size)
	r.fit(size.Width)
}

// smaller are the shares of its size at which a text that has too little room is
// tried before anything of it is left out, and least what is still read.
var smaller = []float32{1, 0.92, 0.85, 0.8}

const least = 10

// fit sets the text into the room there is: smaller, then shorter, and cut only where
// neither helps.
func (r *captionRenderer) fit(width float32) {
	text, size := r.c.Text, r.c.TextSize
	if r.c.Yields && width > 0 && !r.fits(text, size, width) {
		text, size = r.fitting(width)
	}
	if r.text.Text != text || r.text.TextSize != size {
		r.text.Text, r.text.TextSize = text, size
		r.text.Refresh()
	}
}

func (r *captionRenderer) fits(text string, size, width float32) bool {
	return look.Widths(size, r.c.Bold)(text) <= width+0.5
}

// fitting is the text, and its size, for too little room.
func (r *captionRenderer) fitting(width float32) (string, float32) {
	small := r.c.TextSize
	for _, text := range []string{r.c.Text, r.c.Short} {
		for _, share := range smaller {
			if size := max(r.c.TextSize*share, min(least, r.c.TextSize)); text != "" {
				if small = min(small, size); r.fits(text, size, width) {
					return text, size
				}
			}
		}
	}
	text := r.c.Text
	if r.c.Short != "" {
		text = r.c.Short
	}
	return look.Shortened(text, width+0.5, look.Widths(small, r.c.Bold)), small
}

// LeastWidth is the room that the caption needs for nothing of it to be cut: of its
// shorter text, where it has one, as small as it is still read.
func (c *Caption) LeastWidth() float32 {
	text := c.Text
	if c.Short != "" {
		text = c.Short
	}
	size := max(c.TextSize*smaller[len(smaller)-1], min(least, c.TextSize))
	return fyne.MeasureText(text, size, fyne.TextStyle{Bold: c.Bold}).Width
}

// TextWidth is how wide the whole text is at its own size.
func (c *Caption) TextWidth() float32 {
	return fyne.MeasureText(c.Text, c.TextSize, fyne.TextStyle{Bold: c.Bold}).Width
}

func (r *captionRenderer) MinSize() fyne.Size {
	s := fyne.MeasureText(r.c.Text, r.c.TextSize, r.style())
	if r.c.Yields {
		s.Width = 0
	}
	return s
}

func (r *captionRenderer) Refresh() {
	r.text.TextStyle = r.style()
	r.text.Alignment = r.c.Align
	r.text.Color = r.c.Ink.of(PaletteOf(r.c.Theme()))
	r.text.Text, r.text.TextSize = r.c.Text, r.c.TextSize
	r.fit(r.c.Size().Width)
	r.text.Refresh()
}

func (r *captionRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.text} }
func (r *captionRenderer) Destroy()                     {}
