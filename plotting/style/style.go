// Package style is how every picture looks: its colours, its one typeface, sizes,
// the empty plot and the room around it. In comes nothing but lengths and texts;
// out go plots and texts in one style. It must not know what a picture shows.
package style

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
	LabelPx     = 13.0
	TickPx      = 12.0
	AxisLabelPx = 11.0

	GapPx        = 6.0  // between plot and text
	TopPx        = 8.0  // above the plot
	RightPx      = 12.0 // beside it, where nothing is named
	TickGapYPx   = 38.0 // least distance of two ticks on the upright axis
	TickGapXPx   = 18.0 // least gap between two tick labels on the level axis
	MostLabelled = 0.30 // share of the width that end labels may take
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

// Width is the advance of a text set sizePx high, in pixels.
func Width(s string, sizePx float64, bold bool) float64 {
	f := face(vg.Length(sizePx), bold)
	return float64(f.Width(s))
}

// Elide shortens a text to a width in pixels.
func Elide(s string, sizePx float64, bold bool, roomPx float64) string {
	if Width(s, sizePx, bold) <= roomPx+0.5 {
		return s
	}
	for s != "" {
		_, n := utf8.DecodeLastRuneInString(s)
		s = s[:len(s)-n]
		if Width(s+"…", sizePx, bold) <= roomPx {
			return s + "…"
		}
	}
	return ""
}

// Write puts a text with the left end of its base line at a place. It goes
// straight to the canvas: an alignment would be undone again.
func Write(c *draw.Canvas, at vg.Point, s string, sizePx float64, bold bool, ink color.Color) {
	if s != "" {
		c.SetColor(ink)
		c.FillString(face(vg.Length(sizePx)*canvas.Px, bold), at, s)
	}
}

// NewPlot is a plot in the style of all pictures: a quiet grid, no axis lines,
// numbers beside it. The ground is the canvas's.
func NewPlot(c *Palette) *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	for _, a := range [...]*plot.Axis{&p.X, &p.Y} {
		a.LineStyle.Width = 0
		a.Tick.LineStyle.Width, a.Tick.Length = 0, 0
		xAlign, yAlign := a.Tick.Label.XAlign, a.Tick.Label.YAlign
		a.Tick.Label = textStyle(TickPx, false, c.Muted)
		a.Tick.Label.XAlign, a.Tick.Label.YAlign = xAlign, yAlign
	}
	// A text is centred by its letters' whole height; digits have no descent.
	p.Y.Tick.Label.YAlign -= 0.1
	p.X.Padding = GapPx * canvas.Px
	p.X.Label.TextStyle = textStyle(AxisLabelPx, false, c.Muted)
	p.X.Label.TextStyle.XAlign = draw.XCenter
	p.X.Label.Padding = 2 * canvas.Px
	// The axis keeps a space's width from its numbers by itself.
	p.Y.Label.TextStyle = p.Y.Tick.Label
	p.Y.Padding = GapPx*canvas.Px - p.Y.Tick.Label.Width(" ")
	hair := draw.LineStyle{Color: c.Grid, Width: canvas.Px}
	p.Add(&plotter.Grid{Vertical: hair, Horizontal: hair})
	return p
}

// Room keeps space around a plot for what stands beside the data, whatever the
// ticks are: gonum/plot makes room for the boxes of a Plotter.
type Room struct{ Top, Right vg.Length }

var _ plot.GlyphBoxer = Room{}

// Plot draws nothing.
func (Room) Plot(draw.Canvas, *plot.Plot) {}

// GlyphBoxes is for plot.GlyphBoxer.
func (r Room) GlyphBoxes(*plot.Plot) []plot.GlyphBox {
	return []plot.GlyphBox{{X: 1, Y: 1, Rectangle: vg.Rectangle{Max: vg.Point{X: r.Right, Y: r.Top}}}}
}

// WithLeft crops a canvas so that the numbers of the upright axis have at least
// a width: the plot stands still while their digits change.
func WithLeft(c draw.Canvas, p *plot.Plot, leastPx float64) draw.Canvas {
	widest := 0.0
	for _, t := range p.Y.Tick.Marker.Ticks(p.Y.Min, p.Y.Max) {
		widest = max(widest, Width(t.Label, TickPx, false))
	}
	return draw.Crop(c, vg.Length(max(leastPx-widest, 0))*canvas.Px, 0, 0, 0)
}

// Scale maps data to a canvas. plot.Transforms does the same, by a copy of the
// axis for every point; all our axes are linear.
type Scale struct{ x0, x1, y0, y1 float64 }

func ScaleOf(c *draw.Canvas, p *plot.Plot) Scale {
	line := func(a *plot.Axis, from, size vg.Length) (at0, by float64) {
		low, high := a.Norm(a.Min), a.Norm(a.Max)
		by = (high - low) / (a.Max - a.Min) * float64(size)
		return float64(from) + low*float64(size) - by*a.Min, by
	}
	var s Scale
	s.x0, s.x1 = line(&p.X, c.Min.X, c.Max.X-c.Min.X)
	s.y0, s.y1 = line(&p.Y, c.Min.Y, c.Max.Y-c.Min.Y)
	return s
}

func (s *Scale) X(v float64) vg.Length { return vg.Length(s.x0 + s.x1*v) }
func (s *Scale) Y(v float64) vg.Length { return vg.Length(s.y0 + s.y1*v) }

func (s *Scale) At(x, y float64) vg.Point { return vg.Point{X: s.X(x), Y: s.Y(y)} }

// Level holds a height within a canvas.
func Level(c *draw.Canvas, y vg.Length) vg.Length { return min(max(y, c.Min.Y), c.Max.Y) }
