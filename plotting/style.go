package plotting

import (
	"image/color"
	"unicode/utf8"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/plotting/canvas"
)

// Sizes in pixels at scale 1. The window writes 13 px text, so the labels do
// too; the axes stand back a little.
const (
	labelPx     = 13.0
	tickPx      = 12.0
	axisLabelPx = 11.0

	gapPx        = 6.0  // between plot and text
	topPx        = 8.0  // above the plot
	rightPx      = 12.0 // beside it, where nothing is named
	tickGapYPx   = 38.0 // least distance of two ticks on the upright axis
	tickGapXPx   = 18.0 // least gap between two tick labels on the level axis
	mostLabelled = 0.30 // share of the width that end labels may take
)

// face is the one typeface, that of the window, from the collection that
// gonum/plot has parsed already.
func face(size vg.Length, bold bool) font.Face {
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: size}
	if bold {
		f.Weight = xfont.WeightBold
	}
	return font.DefaultCache.Lookup(f, size)
}

// textStyle is a text as the pictures write it: from the left end of its base
// line, sized in pixels.
func textStyle(sizePx float64, bold bool, c color.Color) text.Style {
	return text.Style{
		Color: c, Font: face(vg.Length(sizePx)*canvas.Px, bold).Font,
		XAlign: draw.XLeft, YAlign: draw.YBottom, Handler: plot.DefaultTextHandler,
	}
}

// width is the advance of a text set sizePx high, in pixels.
func width(s string, sizePx float64, bold bool) float64 {
	f := face(vg.Length(sizePx), bold)
	return float64(f.Width(s))
}

// elide shortens a text to a width in pixels.
func elide(s string, sizePx float64, bold bool, room float64) string {
	if width(s, sizePx, bold) <= room+0.5 {
		return s
	}
	for s != "" {
		_, n := utf8.DecodeLastRuneInString(s)
		s = s[:len(s)-n]
		if width(s+"…", sizePx, bold) <= room {
			return s + "…"
		}
	}
	return ""
}

// write puts a text with the left end of its base line at a place. It goes
// straight to the canvas: an alignment would be undone again.
func write(c *draw.Canvas, at vg.Point, s string, sizePx float64, bold bool, ink color.Color) {
	if s != "" {
		c.SetColor(ink)
		c.FillString(face(vg.Length(sizePx)*canvas.Px, bold), at, s)
	}
}

// newPlot is a plot in the style of all pictures: a quiet grid, no axis lines,
// numbers beside it. The ground is the canvas's.
func newPlot(c *Palette) *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	for _, a := range [...]*plot.Axis{&p.X, &p.Y} {
		a.LineStyle.Width = 0
		a.Tick.LineStyle.Width, a.Tick.Length = 0, 0
		xAlign, yAlign := a.Tick.Label.XAlign, a.Tick.Label.YAlign
		a.Tick.Label = textStyle(tickPx, false, c.Muted)
		a.Tick.Label.XAlign, a.Tick.Label.YAlign = xAlign, yAlign
	}
	// A text is centred by its letters' whole height; digits have no descent.
	p.Y.Tick.Label.YAlign -= 0.1
	p.X.Padding = gapPx * canvas.Px
	p.X.Label.TextStyle = textStyle(axisLabelPx, false, c.Muted)
	p.X.Label.TextStyle.XAlign = draw.XCenter
	p.X.Label.Padding = 2 * canvas.Px
	// The axis keeps a space's width from its numbers by itself.
	p.Y.Label.TextStyle = p.Y.Tick.Label
	p.Y.Padding = gapPx*canvas.Px - p.Y.Tick.Label.Width(" ")
	hair := draw.LineStyle{Color: c.Grid, Width: canvas.Px}
	p.Add(&plotter.Grid{Vertical: hair, Horizontal: hair})
	return p
}

// room keeps space around a plot for what stands beside the data, whatever the
// ticks are: gonum/plot makes room for the boxes of a Plotter.
type room struct{ top, right vg.Length }

var _ plot.GlyphBoxer = room{}

// Plot draws nothing.
func (room) Plot(draw.Canvas, *plot.Plot) {}

// GlyphBoxes is for plot.GlyphBoxer.
func (r room) GlyphBoxes(*plot.Plot) []plot.GlyphBox {
	return []plot.GlyphBox{{X: 1, Y: 1, Rectangle: vg.Rectangle{Max: vg.Point{X: r.right, Y: r.top}}}}
}

// withLeft crops a canvas so that the numbers of the upright axis have at least
// a width: the plot stands still while their digits change.
func withLeft(c draw.Canvas, p *plot.Plot, least float64) draw.Canvas {
	widest := 0.0
	for _, t := range p.Y.Tick.Marker.Ticks(p.Y.Min, p.Y.Max) {
		widest = max(widest, width(t.Label, tickPx, false))
	}
	return draw.Crop(c, vg.Length(max(least-widest, 0))*canvas.Px, 0, 0, 0)
}

// scale maps data to a canvas. plot.Transforms does the same, by a copy of the
// axis for every point; all our axes are linear.
type scale struct{ x0, x1, y0, y1 float64 }

func scaleOf(c *draw.Canvas, p *plot.Plot) scale {
	line := func(a *plot.Axis, from, size vg.Length) (at0, by float64) {
		low, high := a.Norm(a.Min), a.Norm(a.Max)
		by = (high - low) / (a.Max - a.Min) * float64(size)
		return float64(from) + low*float64(size) - by*a.Min, by
	}
	var s scale
	s.x0, s.x1 = line(&p.X, c.Min.X, c.Max.X-c.Min.X)
	s.y0, s.y1 = line(&p.Y, c.Min.Y, c.Max.Y-c.Min.Y)
	return s
}

func (s *scale) x(v float64) vg.Length { return vg.Length(s.x0 + s.x1*v) }
func (s *scale) y(v float64) vg.Length { return vg.Length(s.y0 + s.y1*v) }

func (s *scale) at(x, y float64) vg.Point { return vg.Point{X: s.x(x), Y: s.y(y)} }

// level holds a height within a canvas.
func level(c *draw.Canvas, y vg.Length) vg.Length { return min(max(y, c.Min.Y), c.Max.Y) }
