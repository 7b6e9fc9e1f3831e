package plotting

import (
	"image"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg/draw"

	"skep/calc"
	"skep/plotting/canvas"
	"skep/plotting/plotters"
	"skep/plotting/style"
)

// Mash is a picture of a mash by the minute: how much of the grain's extract is
// made, how much of that is sugar, and the temperature beside them.
type Mash struct {
	Minutes      []float64
	TemperatureC []float64
	Extract      []float64 // shares of the grist's extract, 0 to 1
	Sugars       []float64

	Share, Minute Unit
	MinuteLabel   string
	Names         MashNames
}

// MashNames are the words where the lines end.
type MashNames struct{ Extract, Sugars, Temperature string }

// MashDrawer draws mashes. It belongs to one goroutine and keeps the letters;
// each drawing is an image of its own.
type MashDrawer struct{ canvas *canvas.Window }

// NewMashDrawer makes one.
func NewMashDrawer() *MashDrawer { return &MashDrawer{canvas.NewWindow()} }

// Draw draws a mash.
func (d *MashDrawer) Draw(m *Mash, size Size, c *style.Palette) *image.RGBA {
	size = size.sound()
	img := image.NewRGBA(image.Rect(0, 0, size.Width, size.Height))
	d.canvas.On(img, size.Scale).Clear(c.Ground)
	m.DrawOn(draw.NewCanvas(d.canvas, size.wide(), size.high()), c)
	d.canvas.Release()
	return img
}

// DrawOn draws a mash on any of vg's canvases.
func (m *Mash) DrawOn(on draw.Canvas, c *style.Palette) {
	on = draw.Crop(on, 2*canvas.Px, 0, 0, 0)
	m.plot(c, on).Draw(on)
}

// plot sets a mash out on a canvas.
func (m *Mash) plot(c *style.Palette, on draw.Canvas) *plot.Plot {
	p := style.NewPlot(c)
	minutes := Range{0, 60}
	if n := len(m.Minutes); n > 0 {
		minutes = Range{m.Minutes[0], m.Minutes[n-1]}.sound(minutes)
	}
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = minutes.Low, minutes.High, 0, 1
	wide, high := float64(on.Size().X/canvas.Px), float64(on.Size().Y/canvas.Px)
	if wide < narrowPx || high < lowPx {
		p.HideAxes()
	} else {
		p.Y.Tick.Marker = ticker{unit: m.Share, most: 2}
		p.X.Tick.Marker = levelTicks(Axis{Range: minutes, Unit: m.Minute}, 0.6*wide)
		p.X.Label.Text = style.Elide(m.MinuteLabel, style.AxisLabelPx, false, 0.6*wide)
	}
	t := &plotters.Tracer{}
	names := plotters.EndLabels{Tracer: t, Page: on.Rectangle}
	for _, q := range []struct {
		of    plotters.Curve
		style draw.LineStyle
		name  string
		bold  bool
	}{
		{m.warmth(), draw.LineStyle{Color: c.Ghost, Width: 1.4 * canvas.Px, Dashes: plotters.GhostDash}, m.Names.Temperature, false},
		{m.curve(m.Sugars), draw.LineStyle{Color: c.Edge, Width: 1.6 * canvas.Px}, m.Names.Sugars, false},
		{m.curve(m.Extract), draw.LineStyle{Color: c.Accent, Width: 2 * canvas.Px}, m.Names.Extract, true},
	} {
		names.Wide = math.Max(names.Wide, math.Ceil(style.Width(q.name, style.LabelPx, q.bold)))
		ink := q.style.Color
		switch ink { // thin lines may be faint, words not
		case c.Edge:
			ink = c.Accent
		case c.Ghost:
			ink = c.Muted
		}
		names.Names = append(names.Names, plotters.EndLabel{Name: q.name, Of: q.of, Bold: q.bold, Ink: ink})
		p.Add(plotters.Line{Tracer: t, Of: q.of, Value: plotters.Mid, Style: q.style})
	}
	names.Wide = math.Min(names.Wide, style.MostLabelled*wide)
	p.Add(names.Room(), &names)
	return p
}

// curve is a share by the minute.
func (m *Mash) curve(shares []float64) plotters.Curve {
	none := math.NaN()
	band := make([]calc.Band, len(shares))
	for i, v := range shares {
		band[i] = calc.Band{Low: none, Mid: v, High: none}
	}
	return plotters.Curve{X: m.Minutes, Band: band}
}

// warmth is the temperature on the shares' axis. It has its own scale, from the
// coolest to the hottest, in the middle where it says something.
func (m *Mash) warmth() plotters.Curve {
	reach := empty()
	for _, t := range m.TemperatureC {
		reach = reach.with(t)
	}
	shares := make([]float64, len(m.TemperatureC))
	for i, t := range m.TemperatureC {
		shares[i] = 0.5
		if reach.High-reach.Low > 0.5 {
			shares[i] = 0.3 + 0.4*(t-reach.Low)/(reach.High-reach.Low)
		}
	}
	return m.curve(shares)
}
