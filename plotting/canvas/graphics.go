package canvas

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
)

// graphics is the half of a vg.Canvas that is the same for the window's pixels
// and a page of PDF: the state that is set, kept and brought back, and paths
// turned into straight lines where the device wants them, y downwards.
type graphics struct {
	graphicsState
	kept []graphicsState

	points []vg.Point // of the path at hand, in the device's unit
	lines  []polyline
}

type graphicsState struct {
	width  vg.Length
	dashes []vg.Length
	offset vg.Length
	ink    color.NRGBA
	matrix matrix
}

// polyline is a stretch of graphics.points.
type polyline struct {
	from, to int
	closed   bool
}

// Begin forgets all and sets a device: perPoint is how many of its units a
// point is long, left and bottom where the origin lies.
func (g *graphics) Begin(perPoint, left, bottom float64) {
	g.kept = g.kept[:0]
	g.graphicsState = graphicsState{
		width: 1, ink: color.NRGBA{A: 0xFF}, dashes: g.dashes[:0],
		matrix: matrix{perPoint, 0, 0, -perPoint, left, bottom},
	}
}

// SetLineWidth is for vg.Canvas.
func (g *graphics) SetLineWidth(w vg.Length) { g.width = w }

// SetLineDash is for vg.Canvas.
func (g *graphics) SetLineDash(dashes []vg.Length, offset vg.Length) {
	g.dashes, g.offset = append(g.dashes[:0], dashes...), offset
}

// SetColor is for vg.Canvas.
func (g *graphics) SetColor(c color.Color) {
	switch c := c.(type) {
	case nil:
		g.ink = color.NRGBA{A: 0xFF}
	case color.NRGBA:
		g.ink = c
	default:
		g.ink = color.NRGBAModel.Convert(c).(color.NRGBA)
	}
}

// Rotate is for vg.Canvas.
func (g *graphics) Rotate(radians float64) {
	sin, cos := math.Sincos(radians)
	g.matrix = g.matrix.times(matrix{cos, sin, -sin, cos, 0, 0})
}

// Translate is for vg.Canvas.
func (g *graphics) Translate(by vg.Point) {
	g.matrix = g.matrix.times(matrix{1, 0, 0, 1, float64(by.X), float64(by.Y)})
}

// Scale is for vg.Canvas.
func (g *graphics) Scale(x, y float64) { g.matrix = g.matrix.times(matrix{x, 0, 0, y, 0, 0}) }

// Push is for vg.Canvas.
func (g *graphics) Push() {
	g.kept = append(g.kept, g.graphicsState)
	g.dashes = append([]vg.Length(nil), g.dashes...)
}

// Pop is for vg.Canvas.
func (g *graphics) Pop() {
	n := len(g.kept) - 1
	g.graphicsState, g.kept = g.kept[n], g.kept[:n]
}

// matrix maps x, y to a x + c y + e, b x + d y + f.
type matrix struct{ a, b, c, d, e, f float64 }

func (m matrix) times(n matrix) matrix {
	return matrix{
		m.a*n.a + m.c*n.b, m.b*n.a + m.d*n.b,
		m.a*n.c + m.c*n.d, m.b*n.c + m.d*n.d,
		m.a*n.e + m.c*n.f + m.e, m.b*n.e + m.d*n.f + m.f,
	}
}

func (m *matrix) of(p vg.Point) vg.Point {
	x, y := float64(p.X), float64(p.Y)
	return vg.Point{X: vg.Length(m.a*x + m.c*y + m.e), Y: vg.Length(m.b*x + m.d*y + m.f)}
}

// stretch is how much longer lengths become.
func (m *matrix) stretch() float64 { return math.Sqrt(math.Abs(m.a*m.d - m.b*m.c)) }

// upright says that letters stand upright and unmirrored: y only runs down.
func (m *matrix) upright() bool { return m.b == 0 && m.c == 0 && m.a > 0 && m.a == -m.d }

// farthest keeps wild numbers from the rasteriser, which counts in fixed
// point: beyond any picture, so that nothing that can be seen moves.
const farthest = 1 << 15

func (g *graphics) add(p vg.Point) {
	if p.X != p.X || p.Y != p.Y {
		return
	}
	g.points = append(g.points, vg.Point{X: min(max(p.X, -farthest), farthest), Y: min(max(p.Y, -farthest), farthest)})
}

func (g *graphics) end(closed bool) {
	from := 0
	if n := len(g.lines); n > 0 {
		from = g.lines[n-1].to
	}
	if len(g.points) > from {
		g.lines = append(g.lines, polyline{from, len(g.points), closed})
	}
}

// flatten turns a path into straight lines, left in g.points and g.lines. A
// corner of an arc is flatness units off at most.
func (g *graphics) flatten(path vg.Path, flatness float64) {
	g.points, g.lines = g.points[:0], g.lines[:0]
	for i := range path {
		c := &path[i]
		switch c.Type {
		case vg.MoveComp:
			g.end(false)
			g.add(g.matrix.of(c.Pos))
		case vg.LineComp:
			g.add(g.matrix.of(c.Pos))
		case vg.ArcComp:
			g.arc(c, flatness)
		case vg.CurveComp:
			g.curve(c)
		case vg.CloseComp:
			g.end(true)
		}
	}
	g.end(false)
}

func (g *graphics) arc(c *vg.PathComp, flatness float64) {
	radius := float64(c.Radius) * g.matrix.stretch()
	pieces := math.Max(1, math.Ceil(math.Abs(c.Angle)/2/math.Acos(math.Max(1-flatness/math.Max(radius, flatness), 0))))
	for i := 0.0; i <= pieces; i++ {
		sin, cos := math.Sincos(c.Start + c.Angle*i/pieces)
		g.add(g.matrix.of(vg.Point{X: c.Pos.X + c.Radius*vg.Length(cos), Y: c.Pos.Y + c.Radius*vg.Length(sin)}))
	}
}

// curve draws a quadratic or cubic Bézier curve in sixteen pieces, enough for
// letters; our own curves come as lines.
func (g *graphics) curve(c *vg.PathComp) {
	n := len(g.points)
	if n == 0 || len(c.Control) == 0 {
		return
	}
	from, to := g.points[n-1], g.matrix.of(c.Pos)
	a := g.matrix.of(c.Control[0])
	b := a
	if len(c.Control) > 1 {
		b = g.matrix.of(c.Control[1])
	} else { // the same curve as a cubic
		a, b = from.Add(a.Sub(from).Scale(2./3)), to.Add(a.Sub(to).Scale(2./3))
	}
	const pieces = 16
	for i := vg.Length(1); i <= pieces; i++ {
		t := i / pieces
		u := 1 - t
		g.add(from.Scale(u * u * u).Add(a.Scale(3 * u * u * t)).Add(b.Scale(3 * u * t * t)).Add(to.Scale(t * t * t)))
	}
}
