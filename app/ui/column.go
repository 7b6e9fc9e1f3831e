package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/ui/layouts"
)

// Column is parts below each other, in a scroll where they are too high. They are put by
// hand: a part knows its height only at a width, which Fyne's box does not tell it.
type Column struct {
	Parts  []Part
	box    *fyne.Container
	Scroll *container.Scroll
	Tall   float32
}

func NewColumn(parts ...Part) *Column {
	c := &Column{Parts: parts}
	c.box = container.New(&layouts.ByHand{Tall: &c.Tall})
	c.Scroll = container.NewVScroll(c.box)
	return c
}

// scrollRoom is kept free at the right for the scroll bar.
const scrollRoom = 8

// TallAt is how high the parts are at a width.
func (c *Column) TallAt(width float32) float32 {
	c.Scroll.Resize(fyne.NewSize(width, c.Scroll.Size().Height))
	c.Relayout()
	return c.Tall
}

// Relayout puts the parts anew, after one of them has changed.
func (c *Column) Relayout() {
	width := c.Scroll.Size().Width - scrollRoom
	if width <= 0 {
		return
	}
	var objects []fyne.CanvasObject
	y, shown := float32(0), false
	for _, p := range c.Parts {
		o := p.Objects()
		if len(o) == 0 {
			continue
		}
		if _, ok := p.(*Head); ok && shown {
			y += 10
		}
		objects = append(objects, o...)
		y += p.Lay(0, y, width) + 6
		shown = true
	}
	c.Tall = y
	same := len(objects) == len(c.box.Objects)
	for i := 0; same && i < len(objects); i++ {
		same = objects[i] == c.box.Objects[i]
	}
	if !same {
		c.box.Objects = objects
		for _, o := range objects {
			if s, ok := o.(interface{ SetSeen(func(fyne.CanvasObject)) }); ok {
				s.SetSeen(c.Reveal)
			}
		}
		c.box.Refresh()
	}
	c.Scroll.Refresh()
}

// Reveal scrolls one of the column's objects into view: what has the keyboard, or a
// remark.
func (c *Column) Reveal(o fyne.CanvasObject) {
	const around = 8
	Reveal(c.Scroll, o.Position().Y, o.Size().Height, c.Tall, around)
}

// columnFit makes a column lay itself out when it gets another size, which Fyne's
// containers keep to themselves.
type columnFit struct{ c *Column }

func (*columnFit) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(80, 60) }

func (l *columnFit) Layout(o []fyne.CanvasObject, size fyne.Size) {
	Put(o[0], 0, 0, size.Width, size.Height)
	l.c.Relayout()
}

// Panel is the column in a panel.
func (c *Column) Panel() fyne.CanvasObject { return NewPanel(c.Object(), 13) }

// Object is the column without a panel of its own.
func (c *Column) Object() fyne.CanvasObject { return container.New(&columnFit{c}, c.Scroll) }

// Head is a heading; hidden with what it stands over.
type Head struct {
	Text *Caption
	Off  bool
}

func NewHead(text string) *Head {
	return &Head{Text: NewCaption(text, look.TitleSize, true, InkFull)}
}

func (h *Head) Objects() []fyne.CanvasObject {
	if h.Off {
		return nil
	}
	return []fyne.CanvasObject{h.Text}
}

func (h *Head) Lay(x, y, width float32) float32 {
	high := h.Text.MinSize().Height
	Put(h.Text, x, y, width, high)
	return high
}

// Flow is words and fields in a row, which breaks where it must. In Fyne's wrapping row
// no field gives way before the row breaks.
type Flow struct {
	Items  []fyne.CanvasObject
	widths map[fyne.CanvasObject]float32 // of fields
	Lead   float32                       // least width of the first item, so that rows line up
	Off    bool
}

func NewFlow(items ...fyne.CanvasObject) *Flow {
	return &Flow{Items: items, widths: map[fyne.CanvasObject]float32{}}
}

// Wide gives a field its width.
func (f *Flow) Wide(o fyne.CanvasObject, w float32) *Flow {
	f.widths[o] = w
	return f
}

func (f *Flow) Objects() []fyne.CanvasObject {
	if f.Off {
		return nil
	}
	var shown []fyne.CanvasObject
	for _, o := range f.Items {
		if o.Visible() {
			shown = append(shown, o)
		}
	}
	return shown
}

func (f *Flow) Lay(x, y, width float32) float32 {
	high := FieldHeight()
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
			size.Width = max(size.Width, f.Lead)
		}
		if at > x && at+size.Width > x+width+1 {
			at, h = x, h+high+3
		}
		Put(o, at, y+h+(high-size.Height)/2, size.Width, size.Height)
		at += size.Width + 5
	}
	return h + high
}

// Grid is a small table: a name at the left, figures at the right. Fyne's table scrolls in
// a window of its own and its grid has columns of one width.
type Grid struct {
	Columns int       // with the name
	Shares  []float32 // of the width, by column; nil: the first as its texts need, the rest even
	cells   []*Caption
	long    []string // of each cell, its text where there is room for it
	n       int
}

// Set fills the table row by row; the first row is its heading.
func (g *Grid) Set(rows [][]string) {
	g.n = 0
	for r, row := range rows {
		for c := range g.Columns {
			if g.n == len(g.cells) {
				k := NewCaption("", look.CaptionSize+1, false, InkFull)
				k.Yields = true
				g.cells, g.long = append(g.cells, k), append(g.long, "")
			}
			k := g.cells[g.n]
			k.Align, k.Ink, k.TextSize = fyne.TextAlignTrailing, InkFull, look.CaptionSize
			if c == 0 {
				k.Align = fyne.TextAlignLeading
			}
			if c == 0 || r == 0 || c < g.Columns-1 {
				k.Ink = InkQuiet
			}
			text := ""
			if c < len(row) {
				text = row[c]
			}
			// A shorter one for where there is little room stands after a tab.
			k.Text, k.Short, _ = strings.Cut(text, "\t")
			g.long[g.n] = k.Text
			k.Refresh()
			g.n++
		}
	}
}

func (g *Grid) Objects() []fyne.CanvasObject {
	var o []fyne.CanvasObject
	for _, c := range g.cells[:g.n] {
		o = append(o, c)
	}
	return o
}

const gridRow, gridGap = 20, 4

// nameShare is the share of the width that the first column's texts need, within
// bounds that leave the numbers their room.
func (g *Grid) nameShare(width float32) float32 {
	need := float32(0)
	for i, c := range g.cells[:g.n] {
		if i%g.Columns == 0 {
			need = max(need, fyne.MeasureText(c.Text, c.TextSize, fyne.TextStyle{}).Width+8)
		}
	}
	return min(max(need/width, 0.24), 0.4)
}

func (g *Grid) Lay(x, y, width float32) float32 {
	shares := g.Shares
	if shares == nil {
		name := g.nameShare(width)
		shares = []float32{name}
		for range g.Columns - 1 {
			shares = append(shares, (1-name)/float32(g.Columns-1))
		}
	}
	for i, c := range g.cells[:g.n] {
		if c.LeastWidth() > shares[i%g.Columns]*width-gridGap {
			return g.layStacked(x, y, width)
		}
	}
	g.fit(shares, width)
	for i, c := range g.cells[:g.n] {
		k := i % g.Columns
		at := x
		for _, s := range shares[:k] {
			at += s * width
		}
		Put(c, at, y+float32(i/g.Columns)*gridRow, shares[k]*width-gridGap, gridRow)
	}
	return float32(g.n/g.Columns) * gridRow
}

// fit gives all texts one size, and all that have a shorter form the same of the two: the
// largest with which each has room. A table of several sizes is hard to read down.
func (g *Grid) fit(shares []float32, width float32) {
	for _, short := range []bool{false, true} {
		for _, share := range smaller {
			size, all := max(look.CaptionSize*share, least), true
			for i, c := range g.cells[:g.n] {
				text := g.long[i]
				if short && c.Short != "" {
					text = c.Short
				}
				all = all && look.Widths(size, c.Bold)(text) <= shares[i%g.Columns]*width-gridGap+0.5
			}
			if !all && !(short && share == smaller[len(smaller)-1]) {
				continue
			}
			for i, c := range g.cells[:g.n] {
				text := g.long[i]
				if short && c.Short != "" {
					text = c.Short
				}
				if c.Text != text || c.TextSize != size {
					c.Text, c.TextSize = text, size
					c.Refresh()
				}
			}
			return
		}
	}
}

// layStacked puts each name over its numbers, in a language whose words are too long
// to stand beside them.
func (g *Grid) layStacked(x, y, width float32) float32 {
	h := float32(0)
	cell := width / float32(g.Columns-1)
	// Headings too long to stand beside each other stand in two lines, by turns.
	turns := false
	for _, c := range g.cells[1:min(g.n, g.Columns)] {
		turns = turns || c.LeastWidth() > cell-4
	}
	for i, c := range g.cells[:g.n] {
		if c.Text != g.long[i] {
			c.Text, c.TextSize = g.long[i], look.CaptionSize
			c.Refresh()
		}
		k := i % g.Columns
		switch {
		case k > 0 && i < g.Columns && turns:
			from := max(0, float32(k-2)*cell)
			Put(c, x+from, y+h+float32((k+1)%2)*(gridRow-5), float32(k)*cell-4-from, gridRow)
		case k > 0:
			Put(c, x+float32(k-1)*cell, y+h, cell-4, gridRow)
		case c.Text != "":
			Put(c, x, y+h, width, gridRow)
			h += gridRow - 3
		default:
			Put(c, x, y+h, 0, gridRow)
		}
		if k == g.Columns-1 {
			h += gridRow
			if i < g.Columns && turns {
				h += gridRow - 5
			}
		}
	}
	return h
}
