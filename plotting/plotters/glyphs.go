package plotters

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/plotting/canvas"
	"skep/plotting/style"
)

// Shape is that of a mark, one a strain.
type Shape int

const (
	Disc Shape = iota
	square
	Triangle
	Diamond
	Wedge // a triangle on its point
	plus
	Shapes
)

var _ draw.GlyphDrawer = Shape(0)

// DrawGlyph is for draw.GlyphDrawer.
func (s Shape) DrawGlyph(c *draw.Canvas, style draw.GlyphStyle, at vg.Point) {
	c.Fill(s.outline(nil, at, style.Radius))
}

// Glyph fills a shape, keeping the path.
func (t *Tracer) Glyph(s Shape, at vg.Point, radius vg.Length, ink color.Color) {
	t.Path = s.outline(t.Path[:0], at, radius)
	t.C.SetColor(ink)
	t.C.Fill(t.Path)
}

// outline is the shape around a centre. The radii differ so that all look
// equally heavy.
func (s Shape) outline(p vg.Path, at vg.Point, r vg.Length) vg.Path {
	corners := func(list ...vg.Length) vg.Path {
		for i := 0; i < len(list); i += 2 {
			if q := (vg.Point{X: at.X + list[i], Y: at.Y + list[i+1]}); i == 0 {
				p.Move(q)
			} else {
				p.Line(q)
			}
		}
		p.Close()
		return p
	}
	switch s {
	case square:
		r *= 0.88
		return corners(-r, -r, r, -r, r, r, -r, r)
	case Triangle:
		r *= 1.2
		return corners(0, r, 0.95*r, -0.7*r, -0.95*r, -0.7*r)
	case Wedge:
		r *= 1.2
		return corners(0, -r, 0.95*r, 0.7*r, -0.95*r, 0.7*r)
	case Diamond:
		r *= 1.25
		return corners(0, -r, r, 0, 0, r, -r, 0)
	case plus:
		r *= 1.15
		a := 0.36 * r
		return corners(-a, -r, a, -r, a, -a, r, -a, r, a, a, a, a, r, -a, r, -a, a, -r, a, -r, -a, -a, -a)
	default:
		p.Move(vg.Point{X: at.X + r, Y: at.Y})
		p.Arc(at, r, 0, 2*math.Pi)
		p.Close()
		return p
	}
}

// Dashes are the dash patterns of the strains; the first is a full line.
var Dashes = [style.Strains][]vg.Length{
	nil, {8 * canvas.Px, 4 * canvas.Px}, {2 * canvas.Px, 3 * canvas.Px}, {10 * canvas.Px, 3 * canvas.Px, 2 * canvas.Px, 3 * canvas.Px}, {5 * canvas.Px, 3 * canvas.Px},
	{12 * canvas.Px, 3 * canvas.Px, 2 * canvas.Px, 3 * canvas.Px, 2 * canvas.Px, 3 * canvas.Px},
}

// ghostDash is the earlier design's, dots the line at the design's temperature.
var (
	GhostDash = []vg.Length{6 * canvas.Px, 4 * canvas.Px}
	Dots      = []vg.Length{canvas.Px, 2 * canvas.Px}
)
