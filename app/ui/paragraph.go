package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
)

// Paragraph is a text that wraps. Unlike Fyne's label and rich text it says how high it
// is at a width before it is laid out, so that a long column can be put together in one
// go.
type Paragraph struct {
	widget.BaseWidget
	Text     string
	Ink      Ink
	TextSize float32
	Bold     bool
	MayBold  bool   // it breaks as if bold, so that nothing moves when it becomes so
	Mark     string // hangs before the first line
	Bar      bool   // a bar at the left: this is not to be overlooked

	width float32
	Lines []string
}

// NewParagraph makes a text that wraps.
func NewParagraph(text string, size float32, ink Ink) *Paragraph {
	p := &Paragraph{Text: text, TextSize: size, Ink: ink}
	p.ExtendBaseWidget(p)
	return p
}

var _ fyne.Accessible = (*Paragraph)(nil)

// AccessibilityLabel is the text.
func (p *Paragraph) AccessibilityLabel() string { return p.Text }

// AccessibilityRole is text.
func (p *Paragraph) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// SetText shows another text; it is laid out at the next lay.
func (p *Paragraph) SetText(text string) {
	if p.Text != text {
		p.Text, p.width = text, 0
	}
}

// Style is what the text is measured with.
func (p *Paragraph) Style() fyne.TextStyle { return fyne.TextStyle{Bold: p.Bold} }

// LineHeight is that of one line.
func (p *Paragraph) LineHeight() float32 { return p.TextSize * 1.4 }

// Indent is the room that a bar or a mark takes.
func (p *Paragraph) Indent() float32 {
	switch {
	case p.Bar:
		return 12
	case p.Mark != "":
		return 16
	}
	return 0
}

// HeightFor wraps the text to a width.
func (p *Paragraph) HeightFor(width float32) float32 {
	if p.Text == "" {
		p.Lines, p.width = nil, width
		return 0
	}
	if p.width != width {
		p.Lines, p.width = look.Wrapped(p.Text, width-p.Indent(), 0, look.Widths(p.TextSize, p.Bold || p.MayBold)), width
		p.Refresh()
	}
	return float32(len(p.Lines)) * p.LineHeight()
}

// Lay puts the text at a place and says how high it is there.
func (p *Paragraph) Lay(x, y, width float32) float32 {
	h := p.HeightFor(width)
	p.Move(fyne.NewPos(x, y))
	p.Resize(fyne.NewSize(width, h))
	return h
}

func (p *Paragraph) MinSize() fyne.Size {
	return fyne.NewSize(40, float32(max(len(p.Lines), 1))*p.LineHeight())
}

func (p *Paragraph) CreateRenderer() fyne.WidgetRenderer {
	r := &paraRenderer{p: p, mark: canvas.NewText("", color.Black), bar: canvas.NewRectangle(color.Transparent)}
	r.bar.CornerRadius = 1.5
	r.Refresh()
	return r
}

type paraRenderer struct {
	p     *Paragraph
	mark  *canvas.Text
	bar   *canvas.Rectangle
	lines []*canvas.Text
}

func (r *paraRenderer) MinSize() fyne.Size { return r.p.MinSize() }

func (r *paraRenderer) Layout(size fyne.Size) {
	h := r.p.LineHeight()
	for i, t := range r.lines {
		t.Move(fyne.NewPos(r.p.Indent(), float32(i)*h+(h-t.MinSize().Height)/2))
		t.Resize(t.MinSize())
	}
	r.mark.Move(fyne.NewPos(2, (h-r.mark.MinSize().Height)/2))
	r.mark.Resize(r.mark.MinSize())
	r.bar.Move(fyne.NewPos(0, 1))
	r.bar.Resize(fyne.NewSize(3, max(size.Height-2, 0)))
}

func (r *paraRenderer) Refresh() {
	palette := PaletteOf(r.p.Theme())
	c := r.p.Ink.of(palette)
	for len(r.lines) < len(r.p.Lines) {
		r.lines = append(r.lines, canvas.NewText("", c))
	}
	r.lines = r.lines[:len(r.p.Lines)]
	for i, t := range r.lines {
		t.Text, t.Color, t.TextSize, t.TextStyle = r.p.Lines[i], c, r.p.TextSize, r.p.Style()
		t.Refresh()
	}
	r.mark.Text, r.mark.Color, r.mark.TextSize = "", palette.Quiet, r.p.TextSize
	if r.p.Ink == InkWarning {
		r.mark.Color, r.mark.TextStyle.Bold = c, true
	}
	if len(r.p.Lines) > 0 {
		r.mark.Text = r.p.Mark
	}
	r.bar.FillColor = color.Transparent
	if r.p.Bar && len(r.p.Lines) > 0 {
		r.bar.FillColor = c
	}
	r.mark.Refresh()
	r.bar.Refresh()
	r.Layout(r.p.Size())
}

func (r *paraRenderer) Objects() []fyne.CanvasObject {
	o := []fyne.CanvasObject{r.bar, r.mark}
	for _, t := range r.lines {
		o = append(o, t)
	}
	return o
}
func (r *paraRenderer) Destroy() {}

// Part is a piece of a step: it holds its own objects, puts them at a place and
// says how high it came out; nothing to show is no height and no objects.
type Part interface {
	Objects() []fyne.CanvasObject
	Lay(x, y, width float32) float32
}

// Put moves and sizes an object.
func Put(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

// Texts is a list of paragraphs, as many as there is to say.
type Texts struct {
	Make  func() *Paragraph
	Paras []*Paragraph
	N     int
	Gap   float32
}

// Set shows these texts.
func (t *Texts) Set(list []string) {
	for len(t.Paras) < len(list) {
		t.Paras = append(t.Paras, t.Make())
	}
	t.N = len(list)
	for i, s := range list {
		t.Paras[i].SetText(s)
	}
}

// SetOne shows a text, or none where it is empty.
func (t *Texts) SetOne(text string) {
	if text == "" {
		t.Set(nil)
		return
	}
	t.Set([]string{text})
}

// Objects are the paragraphs shown.
func (t *Texts) Objects() []fyne.CanvasObject {
	var o []fyne.CanvasObject
	for _, p := range t.Paras[:t.N] {
		o = append(o, p)
	}
	return o
}

// Lay puts them below each other.
func (t *Texts) Lay(x, y, width float32) float32 {
	h := float32(0)
	for i, p := range t.Paras[:t.N] {
		if i > 0 {
			h += t.Gap
		}
		h += p.Lay(x, y+h, width)
	}
	return h
}

// Heading is a small bold line over a part.
func Heading(text string) *Caption { return NewCaption(text, look.CaptionSize+1, true, InkFull) }
