package plotting

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/calc"
	"skep/plotting/canvas"
	"skep/plotting/plotters"
	"skep/plotting/style"
)

// A picture smaller than this has no text, only its lines.
const (
	narrowPx = 130.0
	lowPx    = 84.0
)

// seriesStyle is how a series is drawn.
type seriesStyle struct {
	line       draw.LineStyle
	shape      plotters.Shape
	tint, edge color.Color
	name       color.Color
	bold       bool
}

func (s *Series) style(c *style.Palette) seriesStyle {
	switch s.Role {
	case Before:
		return seriesStyle{line: draw.LineStyle{Color: c.Ghost, Width: 1.8 * canvas.Px, Dashes: plotters.GhostDash}, name: c.Muted}
	case Strain:
		i := ((s.Index % style.Strains) + style.Strains) % style.Strains
		hue := c.Series[i]
		return seriesStyle{
			line:  draw.LineStyle{Color: hue, Width: 2 * canvas.Px, Dashes: plotters.Dashes[i]},
			shape: plotters.Shape(i) % plotters.Shapes, tint: style.Alpha(hue, 0.14), edge: style.Alpha(hue, 0.5), name: c.Ink,
		}
	default:
		return seriesStyle{line: draw.LineStyle{Color: c.Accent, Width: 2.8 * canvas.Px}, tint: c.Tint, edge: c.Edge, name: c.Accent, bold: true}
	}
}

// curve is the series without what it is called.
func (s *Series) curve() plotters.Curve { return plotters.Curve{X: s.TemperatureC, Band: s.Band} }

// at is the band at a temperature: the mark where one was given, otherwise
// read off the line.
func (s *Series) at(tempC float64) calc.Band {
	if s.Mark != (calc.Band{}) {
		return s.Mark
	}
	v := s.curve()
	return v.At(tempC)
}

func (s *Series) banded() bool { return s.Role == Now || s.Role == Strain && s.ShowBand }

// outcomePlot is a picture of one outcome as a plot. The plot itself is what
// stays while a lever moves: the grid, the axes and the room for names. What
// moves is added to it for a file; the window keeps the pixels of what stays
// and draws the rest over them.
type outcomePlot struct {
	*plot.Plot
	canvas draw.Canvas // for Draw
	text   bool        // there is room for text
	names  plotters.EndLabels
	tracer plotters.Tracer
	moving []plot.Plotter
	bars   []plotters.Bar
	marks  []plotters.Mark
}

// newOutcomePlot sets a picture out on a canvas.
func newOutcomePlot(p *Picture, c *style.Palette, on draw.Canvas) *outcomePlot {
	o := &outcomePlot{Plot: style.NewPlot(c)}
	x, y := p.X, p.Y
	x.Range, y.Range = x.Range.sound(Range{0, 1}), y.Range.sound(Range{0, 1})
	o.X.Min, o.X.Max, o.Y.Min, o.Y.Max = x.Range.Low, x.Range.High, y.Range.Low, y.Range.High
	size := on.Size()
	wide, high := float64(size.X/canvas.Px), float64(size.Y/canvas.Px)
	if wide < narrowPx || high < lowPx {
		o.HideAxes()
		edge := vg.Length(math.Min(math.Min(2, wide/4), high/4)) * canvas.Px
		o.X.Padding, o.Y.Padding = 0, 0
		o.canvas = draw.Crop(on, edge, -edge, edge, -edge)
		return o
	}
	o.text = true
	below := style.GapPx + style.TickPx
	if x.Label != "" {
		below += style.GapPx + style.AxisLabelPx
		o.X.Label.Text = style.Elide(x.Label, style.AxisLabelPx, false, 0.7*wide)
	}
	o.Y.Tick.Marker = uprightTicks(y, high-below-style.TopPx)
	least := math.Min(style.Width("0.000", style.TickPx, false)+1, 0.3*wide)
	o.canvas = style.WithLeft(draw.Crop(on, 0, 0, 2*canvas.Px, 0), o.Plot, least)
	fitNames(&o.names, p, wide)
	o.names.Page = on.Rectangle
	o.Add(o.names.Room())
	o.X.Tick.Marker = plot.ConstantTicks{{Value: x.Range.Low, Label: "0"}} // as high as all
	data := o.DataCanvas(o.canvas)
	o.X.Tick.Marker = levelTicks(x, float64((data.Max.X-data.Min.X)/canvas.Px))
	return o
}

// fitNames finds how wide the names are. The room for "before" is kept even without
// a ghost, so that pinning one doesn't move the picture.
func fitNames(e *plotters.EndLabels, p *Picture, wide float64) {
	for i := range p.Series {
		s := &p.Series[i]
		if s.Name == "" {
			continue
		}
		e.Wide = math.Max(e.Wide, style.Width(s.Name, style.LabelPx, s.Role == Now))
		if s.Than != "" { // as wide whatever it is, so that a lever leaves the picture still
			e.Wide = math.Max(e.Wide, style.Width("(+0.000)", style.LabelPx, s.Role == Now))
		}
		if s.Role == Strain {
			e.Glyph = 14
		}
	}
	if e.Wide > 0 {
		e.Wide = math.Max(e.Wide, style.Width("before", style.LabelPx, false))
	}
	e.Wide = math.Ceil(math.Min(e.Wide, style.MostLabelled*wide))
}

// plotters are what moves with a lever: bands below, then lines, the marked
// points, and the names.
func (o *outcomePlot) plotters(p *Picture, c *style.Palette) []plot.Plotter {
	t, list, weight := &o.tracer, o.moving[:0], canvas.Px
	if !o.text {
		weight *= 0.6
	}
	o.names.Tracer, o.names.Names = t, o.names.Names[:0]
	bars, marks := o.bars[:0], o.marks[:0]
	for i := range p.Series {
		if s := &p.Series[i]; s.banded() {
			stroke := s.style(c)
			list = append(list, plotters.Band{Tracer: t, Of: s.curve(), Tint: stroke.tint, Edge: stroke.edge})
		}
	}
	list = append(list, plotters.Moment{Tracer: t, X: p.AtC, Style: draw.LineStyle{Color: c.Muted, Width: canvas.Px, Dashes: plotters.Dots}})
	for i := range p.Series {
		s := &p.Series[i]
		stroke := s.style(c)
		stroke.line.Width *= weight / canvas.Px
		list = append(list, plotters.Line{Tracer: t, Of: s.curve(), Value: plotters.Mid, Style: stroke.line})
		name := s.Name
		if s.Than != "" {
			name = s.Than
		}
		o.names.Names = append(o.names.Names, plotters.EndLabel{Name: name, Of: s.curve(), Bold: stroke.bold, Ink: stroke.name,
			Marked: o.names.Glyph > 0 && s.Role == Strain, Shape: stroke.shape, Hue: stroke.line.Color})
		if s.Role == Before {
			continue
		}
		ink := stroke.line.Color
		b := plotters.Bar{Tracer: t, X: p.AtC, Band: s.at(p.AtC), Style: draw.LineStyle{Color: ink, Width: 3 * weight}}
		m := plotters.Mark{Tracer: t, X: p.AtC, Y: b.Band.Mid, Shape: stroke.shape, Radius: 5.5 * weight, Ring: 2.5 * weight, Ink: ink, Ground: c.Ground}
		if s.Role == Strain {
			b.Style.Width, m.Radius, m.Ring = 2*weight, 4*weight, 1.5*weight
			b.Aside = vg.Length(float64(i)-float64(len(p.Series)-1)/2) * 3 * weight
		}
		bars, marks = append(bars, b), append(marks, m)
	}
	for i := range bars {
		list = append(list, &bars[i])
	}
	for i := range marks {
		list = append(list, &marks[i])
	}
	if o.text {
		list = append(list, &o.names)
	}
	o.moving, o.bars, o.marks = list, bars, marks
	return list
}

// draw draws all of a picture.
func (o *outcomePlot) draw(p *Picture, c *style.Palette) {
	o.Add(o.plotters(p, c)...)
	o.Draw(o.canvas)
}
