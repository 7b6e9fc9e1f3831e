package plotters

import (
	"image/color"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/plotting/canvas"
	"skep/plotting/style"
)

// EndLabels write the names of lines where these end, moved apart until none
// overlaps.
type EndLabels struct {
	*Tracer
	Names []EndLabel
	Wide  float64      // pixels for the longest name; 0: no names
	Glyph float64      // pixels for the mark before a name
	Page  vg.Rectangle // names stay on it
	kept  []place
	short []shortened // the names as they were last written
}

// shortened is a name that fits into so many pixels.
type shortened struct {
	name string
	bold bool
	room float64
	text string
}

// fitted is [style.Elide], which measures letter by letter, with what was asked last
// kept.
func (e *EndLabels) fitted(i int, name string, bold bool) string {
	for len(e.short) <= i {
		e.short = append(e.short, shortened{})
	}
	s := &e.short[i]
	if s.name != name || s.bold != bold || s.room != e.Wide {
		*s = shortened{name, bold, e.Wide, style.Elide(name, style.LabelPx, bold, e.Wide)}
	}
	return s.text
}

// EndLabel is the name of one line.
type EndLabel struct {
	Name   string
	Of     Curve
	Bold   bool
	Ink    color.Color
	Marked bool // the line's mark stands before the name
	Shape  Shape
	Hue    color.Color
}

var _ plot.Plotter = (*EndLabels)(nil)

// Room is what the names need beside the plot.
func (e *EndLabels) Room() style.Room {
	return style.Room{Top: style.TopPx * canvas.Px, Right: vg.Length(max(style.RightPx, e.Wide+e.Glyph+style.GapPx+2)) * canvas.Px}
}

// Plot is for plot.Plotter.
func (e *EndLabels) Plot(c draw.Canvas, p *plot.Plot) {
	if e.Wide <= 0 {
		return
	}
	t := e.Tracer.On(c, p)
	e.kept = e.kept[:0]
	for i := range e.Names {
		if e.Names[i].Name == "" {
			continue
		}
		if end, ok := t.end(p, &e.Names[i].Of); ok {
			e.kept = append(e.kept, place{index: i, ends: -float64(style.Level(&c, end.Y))})
		}
	}
	half := 0.5 * style.LabelPx * canvas.Px
	spread(e.kept, float64((style.LabelPx+1)*canvas.Px), -float64(e.Page.Max.Y-half), -float64(e.Page.Min.Y+half))
	for _, k := range e.kept {
		n := &e.Names[k.index]
		x, y := c.Max.X+style.GapPx*canvas.Px, vg.Length(-k.y)
		if n.Marked {
			t.Glyph(n.Shape, vg.Point{X: x + 5*canvas.Px, Y: y}, 4*canvas.Px, n.Hue)
		}
		x += vg.Length(e.Glyph) * canvas.Px
		style.Write(&c, vg.Point{X: x, Y: y - 0.36*style.LabelPx*canvas.Px}, e.fitted(k.index, n.Name, n.Bold), style.LabelPx, n.Bold, n.Ink)
	}
}

// place is where one of several labels goes, downwards.
type place struct {
	index int
	ends  float64 // where the line ends
	y     float64 // where the name is written, its middle
}

// spread moves labels apart until none overlap, each as near to the end of
// its line as the others allow, and all between top and bottom as long as
// there is room. This is isotonic regression by pooling neighbours.
func spread(labels []place, height, top, bottom float64) {
	slices.SortStableFunc(labels, func(a, b place) int {
		switch {
		case a.ends < b.ends:
			return -1
		case a.ends > b.ends:
			return 1
		}
		return a.index - b.index
	})
	type pool struct {
		sum   float64
		count int
	}
	var store [style.Strains + 2]pool
	pools := store[:0]
	for i, l := range labels {
		p := pool{l.ends - float64(i)*height, 1}
		for n := len(pools); n > 0 && pools[n-1].sum/float64(pools[n-1].count) > p.sum/float64(p.count); n = len(pools) {
			p = pool{p.sum + pools[n-1].sum, p.count + pools[n-1].count}
			pools = pools[:n-1]
		}
		pools = append(pools, p)
	}
	room := bottom - float64(len(labels)-1)*height
	i := 0
	for _, p := range pools {
		base := max(top, min(p.sum/float64(p.count), room))
		for range p.count {
			labels[i].y = base + float64(i)*height
			i++
		}
	}
}
