package brew

import (
	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/brewday"
)

// stepNumbers are the numbers of a step: the leading ones large, the others in
// even columns below.
type stepNumbers struct {
	p     *Place
	cells []*numberCell
	n     int
}

// numberCell is one number, its band and what it is.
type numberCell struct {
	value, band, label *ui.Caption
	lead               bool
}

const leadSize = 21

func newNumberCell() *numberCell {
	return &numberCell{
		value: ui.NewCaption("", look.TextSize, true, ui.InkFull),
		band:  ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet),
		label: ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet),
	}
}

func (n *stepNumbers) set(step brewday.Key, list []brewday.Number) {
	for len(n.cells) < len(list) {
		n.cells = append(n.cells, newNumberCell())
	}
	n.n = len(list)
	for i, num := range list {
		c := n.cells[i]
		c.lead = num.Lead
		if size := numberSize(num.Lead); c.value.TextSize != size {
			c.value.TextSize = size
			c.value.Refresh()
		}
		c.value.SetText(n.p.format.Quantity(num.Quantity))
		band := ""
		if num.Banded() {
			if r := n.p.format.Range(num.Quantity); r != c.value.Text {
				band = words.T("({range})", r)
			}
		}
		c.band.SetText(band)
		c.label.SetText(numberLabel(step, num.Label))
	}
}

func numberSize(lead bool) float32 {
	if lead {
		return leadSize
	}
	return look.TextSize
}

func (n *stepNumbers) Objects() []fyne.CanvasObject {
	var o []fyne.CanvasObject
	for _, c := range n.cells[:n.n] {
		o = append(o, c.label, c.value, c.band)
	}
	return o
}

func (c *numberCell) width() float32 {
	w := c.value.MinSize().Width
	if c.band.Text != "" {
		w += 6 + c.band.MinSize().Width
	}
	return max(w, c.label.MinSize().Width)
}

// Lay flows the leading numbers, then the others in columns of one width.
func (n *stepNumbers) Lay(x, y, width float32) float32 {
	const between = 22
	h := float32(0)
	at := x
	row := float32(0)
	for _, c := range n.cells[:n.n] {
		if !c.lead {
			continue
		}
		w := c.width()
		if at > x && at+w > x+width {
			at, h = x, h+row+10
		}
		row = c.lay(at, y+h, w)
		at += w + between + 8
	}
	h += row
	rest, widest := 0, float32(0)
	for _, c := range n.cells[:n.n] {
		if !c.lead {
			rest++
			widest = max(widest, c.width())
		}
	}
	if rest == 0 {
		return h
	}
	if h > 0 {
		h += 12
	}
	columns := max(1, int((width+between)/(widest+between)))
	pitch := min((width+between)/float32(columns), widest+2*between)
	i := 0
	for _, c := range n.cells[:n.n] {
		if c.lead {
			continue
		}
		if i > 0 && i%columns == 0 {
			h += row + 8
		}
		row = c.lay(x+float32(i%columns)*pitch, y+h, min(widest, width))
		i++
	}
	return h + row
}

func (c *numberCell) lay(x, y, w float32) float32 {
	v, b, l := c.value.MinSize(), c.band.MinSize(), c.label.MinSize()
	ui.Put(c.value, x, y, min(v.Width, w), v.Height)
	ui.Put(c.band, x+v.Width+6, y+(v.Height-b.Height)*0.8, b.Width, b.Height)
	ui.Put(c.label, x, y+v.Height+1, min(l.Width, w), l.Height)
	return v.Height + 1 + l.Height
}
