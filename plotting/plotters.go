package plotting

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/calc"

	"skep/plotting/canvas"

	"skep/plotting/style"
)

// The Plotters that pictures are made of; the names at the ends of lines are in
// endlabels.go, the shapes of marks in glyphs.go. Each holds the tracer of its
// picture.
var (
	_ plot.Plotter = band{}
	_ plot.Plotter = line{}
	_ plot.Plotter = moment{}
	_ plot.Plotter = bar{}
	_ plot.Plotter = mark{}
	_ plot.Plotter = span{}
	_ plot.Plotter = caption{}
)

// band fills what lies between the ends of a curve's doubt and draws them.
type band struct {
	*tracer
	of         curve
	tint, edge color.Color
}

// Plot is for plot.Plotter.
func (b band) Plot(c draw.Canvas, p *plot.Plot) {
	t := b.tracer.on(c, p)
	b.of.runs(hasBand, func(from, to int) {
		t.a = t.trace(t.a[:0], &b.of, from, to, high)
		t.b = t.trace(t.b[:0], &b.of, from, to, low)
		if len(t.a) < 2 || len(t.a) != len(t.b) {
			return
		}
		edge := draw.LineStyle{Color: b.edge, Width: canvas.Px}
		for _, side := range [...][]vg.Point{t.a, t.b} {
			t.within(side, func(part []vg.Point) { t.stroke(edge, part...) })
		}
		// What lies beyond the plot is flattened onto its edge.
		t.path = t.path[:0]
		for i, q := range t.a {
			if q.Y = style.Level(&c, q.Y); i == 0 {
				t.path.Move(q)
			} else {
				t.path.Line(q)
			}
		}
		for i := len(t.b) - 1; i >= 0; i-- {
			t.path.Line(vg.Point{X: t.b[i].X, Y: style.Level(&c, t.b[i].Y)})
		}
		t.path.Close()
		c.SetColor(b.tint)
		c.Fill(t.path)
	})
}

// line draws one value of a curve.
type line struct {
	*tracer
	of    curve
	value func(calc.Band) float64
	style draw.LineStyle
}

// Plot is for plot.Plotter.
func (l line) Plot(c draw.Canvas, p *plot.Plot) {
	t := l.tracer.on(c, p)
	l.of.runs(func(b calc.Band) bool { return finite(l.value(b)) }, func(from, to int) {
		t.a = t.trace(t.a[:0], &l.of, from, to, l.value)
		t.within(t.a, func(part []vg.Point) { t.stroke(l.style, part...) })
	})
}

// end is where the line of a curve's middle ends.
func (t *tracer) end(p *plot.Plot, v *curve) (end vg.Point, ok bool) {
	v.runs(hasMid, func(from, to int) {
		if to-from < 2 || v.x[to-1] <= p.X.Min || v.x[from] >= p.X.Max {
			return
		}
		last := to - 1
		x, y := v.x[last], v.band[last].Mid
		if x > p.X.Max {
			x = p.X.Max
			y = v.at(x).Mid
		}
		end, ok = t.to.At(x, y), true
	})
	return end, ok
}

// on makes a canvas and its plot the tracer's.
func (t *tracer) on(c draw.Canvas, p *plot.Plot) *tracer {
	t.c, t.to = c, style.ScaleOf(&c, p)
	return t
}

// holds says whether a value of the level axis is within the plot.
func (t *tracer) holds(x float64) bool {
	at := t.to.X(x)
	return finite(float64(at)) && t.c.Min.X <= at && at <= t.c.Max.X
}

// moment is an upright line, with its name beside it so many rows below the top.
type moment struct {
	*tracer
	x     float64 // NaN or outside: nothing
	style draw.LineStyle
	name  string
	bold  bool
	row   int
}

// Plot is for plot.Plotter.
func (m moment) Plot(c draw.Canvas, p *plot.Plot) {
	t := m.tracer.on(c, p)
	if !t.holds(m.x) {
		return
	}
	x := t.to.X(m.x)
	t.stroke(m.style, vg.Point{X: x, Y: c.Min.Y}, vg.Point{X: x, Y: c.Max.Y})
	if m.name == "" {
		return
	}
	wide := vg.Length(style.Width(m.name, style.LabelPx, m.bold)) * canvas.Px
	left := x + 5*canvas.Px
	if left+wide > c.Max.X {
		left = x - 5*canvas.Px - wide
	}
	style.Write(&c, vg.Point{X: left, Y: c.Max.Y - vg.Length(m.row*17+14)*canvas.Px}, m.name, style.LabelPx, m.bold, m.style.Color)
}

// bar draws a band at one place as an upright bar, moved aside so that several
// stand beside each other.
type bar struct {
	*tracer
	x     float64
	band  calc.Band
	aside vg.Length
	style draw.LineStyle
}

// Plot is for plot.Plotter.
func (b bar) Plot(c draw.Canvas, p *plot.Plot) {
	t := b.tracer.on(c, p)
	if !t.holds(b.x) || !hasBand(b.band) {
		return
	}
	x := t.to.X(b.x) + b.aside
	foot, top := style.Level(&c, t.to.Y(b.band.Low)), style.Level(&c, t.to.Y(b.band.High))
	if top > foot {
		t.stroke(b.style, vg.Point{X: x, Y: foot}, vg.Point{X: x, Y: top})
	}
}

// mark is a point in a shape, set off by a ring of the ground.
type mark struct {
	*tracer
	x, y         float64
	shape        shape
	radius, ring vg.Length
	ink, ground  color.Color
}

// Plot is for plot.Plotter.
func (m mark) Plot(c draw.Canvas, p *plot.Plot) {
	t := m.tracer.on(c, p)
	at := t.to.At(m.x, m.y)
	if !t.holds(m.x) || !finite(float64(at.Y)) || at.Y < c.Min.Y-canvas.Px/2 || at.Y > c.Max.Y+canvas.Px/2 {
		return
	}
	t.glyph(m.shape, at, m.radius+m.ring, m.ground)
	t.glyph(m.shape, at, m.radius, m.ink)
}

// span shades a stretch of the level axis from foot to top.
type span struct {
	*tracer
	from, to float64
	ink      color.Color
}

// Plot is for plot.Plotter.
func (s span) Plot(c draw.Canvas, p *plot.Plot) {
	t := s.tracer.on(c, p)
	x0, x1 := t.held(s.from), t.held(s.to)
	if x1 > x0 {
		c.SetColor(s.ink)
		t.box(vg.Rectangle{Min: vg.Point{X: x0, Y: c.Min.Y}, Max: vg.Point{X: x1, Y: c.Max.Y}})
	}
}

// held is the place of a value, held to the plot's sides.
func (t *tracer) held(x float64) vg.Length {
	return min(max(t.to.X(x), t.c.Min.X), t.c.Max.X)
}

// caption is a text above the plot's upper left corner.
type caption struct {
	text string
	ink  color.Color
	up   vg.Length // base line above the plot
}

// Plot is for plot.Plotter.
func (t caption) Plot(c draw.Canvas, _ *plot.Plot) {
	style.Write(&c, vg.Point{X: c.Min.X, Y: c.Max.Y + t.up}, t.text, style.AxisLabelPx, false, t.ink)
}
