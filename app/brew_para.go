package app

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
)

// para is a text that wraps. Unlike a label it says how high it is at a width
// before it is laid out, so that a long column can be put together in one go.
type para struct {
	widget.BaseWidget
	text string
	ink  ink
	size float32
	bold bool
	mark string // hangs before the first line
	bar  bool   // a bar at the left: this is not to be overlooked

	width float32
	lines []string
}

func newPara(text string, size float32, ink ink) *para {
	p := &para{text: text, size: size, ink: ink}
	p.ExtendBaseWidget(p)
	return p
}

var _ fyne.Accessible = (*para)(nil)

// AccessibilityLabel is the text.
func (p *para) AccessibilityLabel() string { return p.text }

// AccessibilityRole is text.
func (p *para) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// SetText shows another text; it is laid out at the next lay.
func (p *para) SetText(text string) {
	if p.text != text {
		p.text, p.width = text, 0
	}
}

func (p *para) style() fyne.TextStyle { return fyne.TextStyle{Bold: p.bold} }
func (p *para) lineHeight() float32   { return p.size * 1.4 }

func (p *para) indent() float32 {
	switch {
	case p.bar:
		return 12
	case p.mark != "":
		return 16
	}
	return 0
}

// heightFor wraps the text to a width.
func (p *para) heightFor(width float32) float32 {
	if p.text == "" {
		p.lines, p.width = nil, width
		return 0
	}
	if p.width != width {
		p.lines, p.width = wrap(p.text, width-p.indent(), p.size, p.style()), width
		p.Refresh()
	}
	return float32(len(p.lines)) * p.lineHeight()
}

// lay puts the text at a place and says how high it is there.
func (p *para) lay(x, y, width float32) float32 {
	h := p.heightFor(width)
	p.Move(fyne.NewPos(x, y))
	p.Resize(fyne.NewSize(width, h))
	return h
}

// wrap breaks a text into lines at its spaces. A word too long for a line is
// broken where it must be.
func wrap(text string, width, size float32, style fyne.TextStyle) []string {
	measure := func(s string) float32 { return fyne.MeasureText(s, size, style).Width }
	space := measure("a a") - measure("aa")
	var lines []string
	for _, block := range strings.Split(text, "\n") {
		line, used := "", float32(0)
		for _, word := range strings.Fields(block) {
			w := measure(word)
			if line != "" && used+space+w > width {
				lines = append(lines, line)
				line, used = "", 0
			}
			for r := []rune(word); line == "" && w > width && len(r) > 1; {
				n := len(r)
				for n > 1 && measure(string(r[:n])) > width {
					n--
				}
				lines = append(lines, string(r[:n]))
				r = r[n:]
				word = string(r)
				w = measure(word)
			}
			if line == "" {
				line, used = word, w
			} else {
				line, used = line+" "+word, used+space+w
			}
		}
		lines = append(lines, line)
	}
	return lines
}

func (p *para) MinSize() fyne.Size {
	return fyne.NewSize(40, float32(max(len(p.lines), 1))*p.lineHeight())
}

func (p *para) CreateRenderer() fyne.WidgetRenderer {
	r := &paraRenderer{p: p, mark: canvas.NewText("", color.Black), bar: canvas.NewRectangle(color.Transparent)}
	r.bar.CornerRadius = 1.5
	r.Refresh()
	return r
}

type paraRenderer struct {
	p     *para
	mark  *canvas.Text
	bar   *canvas.Rectangle
	lines []*canvas.Text
}

func (r *paraRenderer) MinSize() fyne.Size { return r.p.MinSize() }

func (r *paraRenderer) Layout(size fyne.Size) {
	h := r.p.lineHeight()
	for i, t := range r.lines {
		t.Move(fyne.NewPos(r.p.indent(), float32(i)*h+(h-t.MinSize().Height)/2))
		t.Resize(t.MinSize())
	}
	r.mark.Move(fyne.NewPos(2, (h-r.mark.MinSize().Height)/2))
	r.mark.Resize(r.mark.MinSize())
	r.bar.Move(fyne.NewPos(0, 1))
	r.bar.Resize(fyne.NewSize(3, max(size.Height-2, 0)))
}

func (r *paraRenderer) Refresh() {
	palette := paletteOf(r.p.Theme())
	c := r.p.ink.of(palette)
	for len(r.lines) < len(r.p.lines) {
		r.lines = append(r.lines, canvas.NewText("", c))
	}
	r.lines = r.lines[:len(r.p.lines)]
	for i, t := range r.lines {
		t.Text, t.Color, t.TextSize, t.TextStyle = r.p.lines[i], c, r.p.size, r.p.style()
		t.Refresh()
	}
	r.mark.Text, r.mark.Color, r.mark.TextSize = "", palette.Quiet, r.p.size
	if r.p.ink == inkWarning {
		r.mark.Color, r.mark.TextStyle.Bold = c, true
	}
	if len(r.p.lines) > 0 {
		r.mark.Text = r.p.mark
	}
	r.bar.FillColor = color.Transparent
	if r.p.bar && len(r.p.lines) > 0 {
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

// part is a piece of a step: it holds its own objects, puts them at a place and
// says how high it came out; nothing to show is no height and no objects.
type part interface {
	objects() []fyne.CanvasObject
	lay(x, y, width float32) float32
}

// put moves and sizes an object.
func put(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

// texts is a list of paragraphs, as many as there is to say.
type texts struct {
	make  func() *para
	paras []*para
	n     int
	gap   float32
}

func (t *texts) set(list []string) {
	for len(t.paras) < len(list) {
		t.paras = append(t.paras, t.make())
	}
	t.n = len(list)
	for i, s := range list {
		t.paras[i].SetText(s)
	}
}

func (t *texts) objects() []fyne.CanvasObject {
	var o []fyne.CanvasObject
	for _, p := range t.paras[:t.n] {
		o = append(o, p)
	}
	return o
}

func (t *texts) lay(x, y, width float32) float32 {
	h := float32(0)
	for i, p := range t.paras[:t.n] {
		if i > 0 {
			h += t.gap
		}
		h += p.lay(x, y+h, width)
	}
	return h
}

// heading is a small bold line over a part.
func heading(text string) *caption { return newCaption(text, look.CaptionSize+1, true, inkFull) }
