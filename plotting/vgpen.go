package plotting

import (
	"image/color"

	"gonum.org/v1/plot/vg"
)

// vgPen draws through gonum/plot's canvas interface.
type vgPen struct {
	canvas vg.Canvas
	height vg.Length // of the canvas in device pixels
	perPx  vg.Length // points in a device pixel
	path   vg.Path
}

func newVgPen(canvas vg.Canvas, size Size) *vgPen {
	return &vgPen{canvas: canvas, height: vg.Length(size.Height), perPx: vg.Length(pointsPerPx / size.Scale)}
}

// pointsPerPx: a pixel at scale 1 is 1/96 inch, a point 1/72 inch.
const pointsPerPx = 72.0 / 96

func (v *vgPen) trail(points []point) {
	for i, p := range points {
		if q := mirror(p, v.height, v.perPx); i == 0 {
			v.path.Move(q)
		} else {
			v.path.Line(q)
		}
	}
}

func (v *vgPen) strip(a, b []point, c color.NRGBA) {
	v.path = v.path[:0]
	v.trail(a)
	for i := len(b) - 1; i >= 0; i-- {
		v.path.Line(mirror(b[i], v.height, v.perPx))
	}
	v.path.Close()
	v.canvas.SetColor(c)
	v.canvas.Fill(v.path)
}

func (v *vgPen) area(path []point, c color.NRGBA) {
	v.path = v.path[:0]
	v.trail(path)
	v.path.Close()
	v.canvas.SetColor(c)
	v.canvas.Fill(v.path)
}

func (v *vgPen) line(path []point, width float64, dash []float64, c color.NRGBA) {
	v.path = v.path[:0]
	v.trail(path)
	lengths := make([]vg.Length, len(dash))
	for i, d := range dash {
		lengths[i] = vg.Length(d) * v.perPx
	}
	v.canvas.SetLineDash(lengths, 0)
	v.canvas.SetLineWidth(vg.Length(width) * v.perPx)
	v.canvas.SetColor(c)
	v.canvas.Stroke(v.path)
}

func (v *vgPen) text(x, y float64, s string, px float64, bold bool, c color.NRGBA) {
	if s == "" {
		return
	}
	v.canvas.SetColor(c)
	v.canvas.FillString(vgFace(px*float64(v.perPx), bold), mirror(at(x, y), v.height, v.perPx), s)
}
