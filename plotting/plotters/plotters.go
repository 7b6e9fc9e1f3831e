// Package plotters is what pictures are made of: bands, lines, moments, bars, marks,
// spans and the names where lines end, each a plot.Plotter. In come curves with
// their doubt; out go strokes on a draw.Canvas. It must not know which picture it is in.
package plotters

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
	_ plot.Plotter = Band{}
	_ plot.Plotter = Line{}
	_ plot.Plotter = Moment{}
	_ plot.Plotter = Bar{}
	_ plot.Plotter = Mark{}
	_ plot.Plotter = Span{}
	_ plot.Plotter = Caption{}
)

// Band fills what lies between the ends of a curve's doubt and draws them.
type Band struct {
	*Tracer
	Of         Curve
	Tint, Edge color.Color
}

// Plot is for plot.Plotter.
func (b Band) Plot(c draw.Canvas, p *plot.Plot) {
	t := b.Tracer.On(c, p)
	b.Of.Runs(HasBand, func(from, to int) {
		t.A = t.Trace(t.A[:0], &b.Of, from, to, High)
		t.b = t.Trace(t.b[:0], &b.Of, from, to, Low)
		if len(t.A) < 2 || len(t.A) != len(t.b) {
			return
		}
		edge := draw.LineStyle{Color: b.Edge, Width: canvas.Px}
		for _, side := range [...][]vg.Point{t.A, t.b} {
			t.within(side, func(part []vg.Point) { t.Stroke(edge, part...) })
		}
		// What lies beyond the plot is flattened onto its edge.
		t.Path = t.Path[:0]
		for i, q := range t.A {
			if q.Y = style.Level(&c, q.Y); i == 0 {
				t.Path.Move(q)
			} else {
				t.Path.Line(q)
			}
		}
		for i := len(t.b) - 1; i >= 0; i-- {
			t.Path.Line(vg.Point{X: t.b[i].X, Y: style.Level(&c, t.b[i].Y)})
		}
		t.Path.Close()
		c.SetColor(b.Tint)
		c.Fill(t.Path)
	})
}

// Line draws one value of a curve.
type Line struct {
	*Tracer
	Of    Curve
	Value func(calc.Band) float64
	Style draw.LineStyle
}

// Plot is for plot.Plotter.
func (l Line) Plot(c draw.Canvas, p *plot.Plot) {
	t := l.Tracer.On(c, p)
	l.Of.Runs(func(b calc.Band) bool { return Finite(l.Value(b)) }, func(from, to int) {
		t.A = t.Trace(t.A[:0], &l.Of, from, to, l.Value)
		t.within(t.A, func(part []vg.Point) { t.Stroke(l.Style, part...) })
	})
}

// end is where the line of a curve's middle ends.
func (t *Tracer) end(p *plot.Plot, v *Curve) (end vg.Point, ok bool) {
	v.Runs(hasMid, func(from, to int) {
		if to-from < 2 || v.X[to-1] <= p.X.Min || v.X[from] >= p.X.Max {
			return
		}
		last := to - 1
		x, y := v.X[last], v.Band[last].Mid
		if x > p.X.Max {
			x = p.X.Max
			y = v.At(x).Mid
		}
		end, ok = t.To.At(x, y), true
	})
	return end, ok
}

// On makes a canvas and its plot the tracer's.
func (t *Tracer) On(c draw.Canvas, p *plot.Plot) *Tracer {
	t.C, t.To = c, style.ScaleOf(&c, p)
	return t
}

// Holds says whether a value of the level axis is within the plot.
func (t *Tracer) Holds(x float64) bool {
	at := t.To.X(x)
	return Finite(float64(at)) && t.C.Min.X <= at && at <= t.C.Max.X
}

// Moment is an upright line.
type Moment struct {
	*Tracer
	X     float64 // NaN or outside: nothing
	Style draw.LineStyle
}

// Plot is for plot.Plotter.
func (m Moment) Plot(c draw.Canvas, p *plot.Plot) {
	t := m.Tracer.On(c, p)
	if t.Holds(m.X) {
		x := t.To.X(m.X)
		t.Stroke(m.Style, vg.Point{X: x, Y: c.Min.Y}, vg.Point{X: x, Y: c.Max.Y})
	}
}

// MomentName is the name of a moment beside its line, so many rows below the top, on a
// plate that what lies below shows through faintly.
type MomentName struct {
	*Tracer
	X          float64 // NaN or outside: nothing
	Name       string
	Bold       bool
	Row        int
	Ink, Plate color.Color
	Others     []float64 // upright lines that the name keeps clear of where it can
}

// RowsHigh is how far below the top the base line stands of a text that has so many
// rows of moments' names above it.
func RowsHigh(rows int) vg.Length { return vg.Length(rows*17+14) * canvas.Px }

// Plot is for plot.Plotter.
func (m MomentName) Plot(c draw.Canvas, p *plot.Plot) {
	t := m.Tracer.On(c, p)
	if m.Name == "" || !t.Holds(m.X) {
		return
	}
	const gap = 5 * canvas.Px
	x, wide := t.To.X(m.X), vg.Length(style.Width(m.Name, style.LabelPx, m.Bold))*canvas.Px
	free := func(left vg.Length) bool {
		for _, other := range m.Others {
			if at := t.To.X(other); left-gap < at && at < left+wide+gap && at != x {
				return false
			}
		}
		return c.Min.X <= left && left+wide <= c.Max.X
	}
	right, left := x+gap, x-gap-wide
	if right+wide > c.Max.X || !free(right) && free(left) {
		right = left
	}
	t.Written(vg.Point{X: right, Y: c.Max.Y - RowsHigh(m.Row)}, m.Name, m.Bold, m.Ink, m.Plate)
}

// Written writes a name on a plate.
func (t *Tracer) Written(at vg.Point, name string, bold bool, ink, plate color.Color) {
	wide := vg.Length(style.Width(name, style.LabelPx, bold)) * canvas.Px
	t.C.SetColor(plate)
	t.Box(vg.Rectangle{Min: vg.Point{X: at.X - 2*canvas.Px, Y: at.Y - 3*canvas.Px}, Max: vg.Point{X: at.X + wide + 2*canvas.Px, Y: at.Y + 11*canvas.Px}})
	style.Write(&t.C, at, name, style.LabelPx, bold, ink)
}

// Bar draws a band at one place as an upright bar, moved aside so that several
// stand beside each other.
type Bar struct {
	*Tracer
	X     float64
	Band  calc.Band
	Aside vg.Length
	Style draw.LineStyle
}

// Plot is for plot.Plotter.
func (b Bar) Plot(c draw.Canvas, p *plot.Plot) {
	t := b.Tracer.On(c, p)
	if !t.Holds(b.X) || !HasBand(b.Band) {
		return
	}
	x := t.To.X(b.X) + b.Aside
	foot, top := style.Level(&c, t.To.Y(b.Band.Low)), style.Level(&c, t.To.Y(b.Band.High))
	if top > foot {
		t.Stroke(b.Style, vg.Point{X: x, Y: foot}, vg.Point{X: x, Y: top})
	}
}

// Mark is a point in a shape, set off by a ring of the ground.
type Mark struct {
	*Tracer
	X, Y         float64
	Shape        Shape
	Radius, Ring vg.Length
	Ink, Ground  color.Color
}

// Plot is for plot.Plotter.
func (m Mark) Plot(c draw.Canvas, p *plot.Plot) {
	t := m.Tracer.On(c, p)
	at := t.To.At(m.X, m.Y)
	if !t.Holds(m.X) || !Finite(float64(at.Y)) || at.Y < c.Min.Y-canvas.Px/2 || at.Y > c.Max.Y+canvas.Px/2 {
		return
	}
	t.Glyph(m.Shape, at, m.Radius+m.Ring, m.Ground)
	t.Glyph(m.Shape, at, m.Radius, m.Ink)
}

// Span shades a stretch of the level axis from foot to top.
type Span struct {
	*Tracer
	From, To float64
	Ink      color.Color
}

// Plot is for plot.Plotter.
func (s Span) Plot(c draw.Canvas, p *plot.Plot) {
	t := s.Tracer.On(c, p)
	x0, x1 := t.Held(s.From), t.Held(s.To)
	if x1 > x0 {
		c.SetColor(s.Ink)
		t.Box(vg.Rectangle{Min: vg.Point{X: x0, Y: c.Min.Y}, Max: vg.Point{X: x1, Y: c.Max.Y}})
	}
}

// Held is the place of a value, held to the plot's sides.
func (t *Tracer) Held(x float64) vg.Length {
	return min(max(t.To.X(x), t.C.Min.X), t.C.Max.X)
}

// Caption is a text above the plot's upper left corner.
type Caption struct {
	Text string
	Ink  color.Color
	Up   vg.Length // base line above the plot
}

// Plot is for plot.Plotter.
func (t Caption) Plot(c draw.Canvas, _ *plot.Plot) {
	style.Write(&c, vg.Point{X: c.Min.X, Y: c.Max.Y + t.Up}, t.Text, style.AxisLabelPx, false, t.Ink)
}
