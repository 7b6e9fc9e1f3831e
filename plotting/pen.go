package plotting

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
)

// point is a place in device pixels, y downwards.
type point = vg.Point

func at(x, y float64) point { return point{X: vg.Length(x), Y: vg.Length(y)} }

// pen draws the few things pictures are made of.
type pen interface {
	// strip fills between two lines of equally many points, both running the
	// same way.
	strip(a, b []point, c color.NRGBA)
	// line strokes a line with butt ends. dash alternates ink and gap.
	line(path []point, width float64, dash []float64, c color.NRGBA)
	// area fills a closed outline.
	area(path []point, c color.NRGBA)
	// text writes from the left end of its base line. px is in device pixels.
	text(x, y float64, s string, px float64, bold bool, c color.NRGBA)
}

// marker shapes, one a strain.
type shape int

const (
	disc shape = iota
	square
	triangle
	diamond
	wedge // a triangle on its point
	plus
	shapes
)

// outline is the shape around a centre. The radii differ so that all look
// equally heavy.
func (s shape) outline(dst []point, x, y, r float64) []point {
	switch s {
	case square:
		r *= 0.88
		return append(dst, at(x-r, y-r), at(x+r, y-r), at(x+r, y+r), at(x-r, y+r))
	case triangle:
		r *= 1.2
		return append(dst, at(x, y-r), at(x+0.95*r, y+0.7*r), at(x-0.95*r, y+0.7*r))
	case wedge:
		r *= 1.2
		return append(dst, at(x, y+r), at(x-0.95*r, y-0.7*r), at(x+0.95*r, y-0.7*r))
	case diamond:
		r *= 1.25
		return append(dst, at(x, y-r), at(x+r, y), at(x, y+r), at(x-r, y))
	case plus:
		r *= 1.15
		a := 0.36 * r
		return append(dst,
			at(x-a, y-r), at(x+a, y-r), at(x+a, y-a), at(x+r, y-a), at(x+r, y+a), at(x+a, y+a),
			at(x+a, y+r), at(x-a, y+r), at(x-a, y+a), at(x-r, y+a), at(x-r, y-a), at(x-a, y-a))
	default:
		const corners = 40 // round to a tenth of a pixel up to 16 px radius
		for i := range corners {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
			dst = append(dst, at(x+r*cos, y+r*sin))
		}
		return dst
	}
}

// dashes are the dash patterns of the strains at scale 1, in pixels; the
// first is a full line.
var dashes = [Strains][]float64{
	nil, {8, 4}, {2, 3}, {10, 3, 2, 3}, {5, 3}, {12, 3, 2, 3, 2, 3},
}

// ghostDash is the earlier design's, dots the line at the design's temperature.
var (
	ghostDash = []float64{6, 4}
	dots      = []float64{1, 2}
)

// scaled appends a dash pattern at a scale.
func scaled(dst, dash []float64, k float64) []float64 {
	for _, d := range dash {
		dst = append(dst, d*k)
	}
	return dst
}
