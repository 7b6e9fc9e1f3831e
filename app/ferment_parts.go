package app

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/ui"
)

// partColumn is parts below each other, in a scroll where they are too high.
// Like the steps of the Brew place they are put by hand: a part knows its
// height only at a width.
type partColumn struct {
	parts  []ui.Part
	box    *fyne.Container
	scroll *container.Scroll
	tall   float32
}

func newPartColumn(parts ...ui.Part) *partColumn {
	c := &partColumn{parts: parts}
	c.box = container.New(&partColumnLayout{c})
	c.scroll = container.NewVScroll(c.box)
	return c
}

// scrollRoom is kept free at the right for the scroll bar.
const scrollRoom = 8

// relayout puts the parts anew, after one of them has changed.
func (c *partColumn) relayout() {
	width := c.scroll.Size().Width - scrollRoom
	if width <= 0 {
		return
	}
	var objects []fyne.CanvasObject
	y, shown := float32(0), false
	for _, p := range c.parts {
		o := p.Objects()
		if len(o) == 0 {
			continue
		}
		if _, ok := p.(*headPart); ok && shown {
			y += 10
		}
		objects = append(objects, o...)
		y += p.Lay(0, y, width) + 6
		shown = true
	}
	c.tall = y
	same := len(objects) == len(c.box.Objects)
	for i := 0; same && i < len(objects); i++ {
		same = objects[i] == c.box.Objects[i]
	}
	if !same {
		c.box.Objects = objects
		c.box.Refresh()
	}
	c.scroll.Refresh()
}

type partColumnLayout struct{ c *partColumn }

func (l *partColumnLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(10, l.c.tall)
}
func (*partColumnLayout) Layout([]fyne.CanvasObject, fyne.Size) {}

// columnFit makes a column lay itself out when it gets another size.
type columnFit struct{ c *partColumn }

func (*columnFit) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(80, 60) }

func (l *columnFit) Layout(o []fyne.CanvasObject, size fyne.Size) {
	ui.Put(o[0], 0, 0, size.Width, size.Height)
	l.c.relayout()
}

// panel is the column in a panel.
func (c *partColumn) panel() fyne.CanvasObject {
	return ui.NewPanel(container.New(&columnFit{c}, c.scroll), 13)
}

// headPart is a heading; hidden with what it stands over.
type headPart struct {
	text *ui.Caption
	off  bool
}

func newHeadPart(text string) *headPart {
	return &headPart{text: ui.NewCaption(text, look.TitleSize, true, ui.InkFull)}
}

func (h *headPart) Objects() []fyne.CanvasObject {
	if h.off {
		return nil
	}
	return []fyne.CanvasObject{h.text}
}

func (h *headPart) Lay(x, y, width float32) float32 {
	high := h.text.MinSize().Height
	ui.Put(h.text, x, y, width, high)
	return high
}

// flowPart is words and fields in a row, which breaks where it must.
type flowPart struct {
	items  []fyne.CanvasObject
	widths map[fyne.CanvasObject]float32 // of fields
	lead   float32                       // least width of the first item, so that rows line up
	off    bool
}

func newFlowPart(items ...fyne.CanvasObject) *flowPart {
	return &flowPart{items: items, widths: map[fyne.CanvasObject]float32{}}
}

// wide gives a field its width.
func (f *flowPart) wide(o fyne.CanvasObject, w float32) *flowPart {
	f.widths[o] = w
	return f
}

func (f *flowPart) Objects() []fyne.CanvasObject {
	if f.off {
		return nil
	}
	var shown []fyne.CanvasObject
	for _, o := range f.items {
		if o.Visible() {
			shown = append(shown, o)
		}
	}
	return shown
}

func (f *flowPart) Lay(x, y, width float32) float32 {
	high := fieldHeight()
	all, fields := float32(-5), float32(0)
	for _, o := range f.Objects() {
		w, field := f.widths[o]
		if field {
			fields += w
		} else {
			w = o.MinSize().Width
		}
		all += w + 5
	}
	// Fields give way a little before the row breaks.
	const least = 0.7
	share := float32(1)
	if all > width && fields > 0 && all-fields*(1-least) <= width {
		share = (fields - (all - width)) / fields
	}
	at, h := x, float32(0)
	for _, o := range f.Objects() {
		size := o.MinSize()
		w, field := f.widths[o]
		if field {
			size = fyne.NewSize(min(w*share, width), high)
		}
		if at == x && h == 0 {
			size.Width = max(size.Width, f.lead)
		}
		if at > x && at+size.Width > x+width+1 {
			at, h = x, h+high+3
		}
		ui.Put(o, at, y+h+(high-size.Height)/2, size.Width, size.Height)
		at += size.Width + 5
	}
	return h + high
}

// gridPart is a small table: a name at the left, figures at the right.
type gridPart struct {
	columns int       // with the name
	shares  []float32 // of the width, by column; nil: the name 0.28, the rest even
	cells   []*ui.Caption
	n       int
}

// set fills the table row by row; the first row is its heading.
func (g *gridPart) set(rows [][]string) {
	g.n = 0
	for r, row := range rows {
		for c := range g.columns {
			if g.n == len(g.cells) {
				k := ui.NewCaption("", look.CaptionSize+1, false, ui.InkFull)
				k.Yields = true
				g.cells = append(g.cells, k)
			}
			k := g.cells[g.n]
			k.Align, k.Ink, k.TextSize = fyne.TextAlignTrailing, ui.InkFull, look.CaptionSize
			if c == 0 {
				k.Align = fyne.TextAlignLeading
			}
			if c == 0 || r == 0 || c < g.columns-1 {
				k.Ink = ui.InkQuiet
			}
			text := ""
			if c < len(row) {
				text = row[c]
			}
			// A shorter one for where there is little room stands after a tab.
			k.Text, k.Short, _ = strings.Cut(text, "\t")
			k.Refresh()
			g.n++
		}
	}
}

func (g *gridPart) Objects() []fyne.CanvasObject {
	var o []fyne.CanvasObject
	for _, c := range g.cells[:g.n] {
		o = append(o, c)
	}
	return o
}

const gridRow = 20

func (g *gridPart) Lay(x, y, width float32) float32 {
	const name = float32(0.28)
	at := float32(0)
	for i, c := range g.cells[:g.n] {
		k := i % g.columns
		share := (1 - name) / float32(g.columns-1)
		switch {
		case g.shares != nil:
			share = g.shares[k]
		case k == 0:
			share = name
		}
		if k == 0 {
			at = x
		}
		ui.Put(c, at, y+float32(i/g.columns)*gridRow, share*width-4, gridRow)
		at += share * width
	}
	return float32(g.n/g.columns) * gridRow
}
