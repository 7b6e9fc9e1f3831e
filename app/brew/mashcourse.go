package brew

import (
	"image"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc/quantity"
	"skep/plotting"
)

// course is the mash over time: its temperature as a stepped line, and how
// much of the grist has become extract and sugar.
type course struct {
	widget.BaseWidget
	p      *Place
	points []mashPoint
	raster *canvas.Raster
	drawer *plotting.MashDrawer
}

func newCourse(p *Place) *course {
	c := &course{p: p, drawer: plotting.NewMashDrawer()}
	c.ExtendBaseWidget(c)
	return c
}

func (c *course) show(f *dayFrame) {
	if !slices.Equal(c.points, f.mash) {
		c.points = f.mash
		c.Refresh()
	}
}

var _ fyne.Accessible = (*course)(nil)

// AccessibilityLabel says what is drawn.
func (c *course) AccessibilityLabel() string {
	n := len(c.points)
	if n == 0 {
		return words.T("no mash to draw")
	}
	say := c.p.host.Say()
	return words.T("after {time} {extract} of the grain's extract is made, {sugar} of it sugar", say.Format(quantity.Minutes, c.points[n-1].minute), say.Format(quantity.Percent, math.Round(100*c.points[n-1].extract)), say.Format(quantity.Percent, math.Round(100*c.points[n-1].sugars)))
}

// AccessibilityRole is text.
func (c *course) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

const courseHigh = 170

func (c *course) Objects() []fyne.CanvasObject {
	if len(c.points) < 2 {
		return nil
	}
	return []fyne.CanvasObject{c}
}

// Wide is as much as there is.
func (c *course) Wide() float32 { return 0 }

func (c *course) Lay(x, y, width float32) float32 {
	if len(c.points) < 2 {
		return 0
	}
	ui.Put(c, x, y, width, courseHigh)
	return courseHigh
}

func (c *course) MinSize() fyne.Size { return fyne.NewSize(240, courseHigh) }

// CreateRenderer is for Fyne.
func (c *course) CreateRenderer() fyne.WidgetRenderer {
	c.raster = canvas.NewRaster(c.image)
	return widget.NewSimpleRenderer(c.raster)
}

// image is drawn when the canvas asks for it: what is drawn is small.
func (c *course) image(w, h int) image.Image {
	say, m := c.p.host.Say(), plotting.Mash{MinuteLabel: words.T("minutes since mash-in")}
	for _, q := range c.points {
		m.Minutes, m.TemperatureC = append(m.Minutes, q.minute), append(m.TemperatureC, q.temperatureC)
		m.Extract, m.Sugars = append(m.Extract, q.extract), append(m.Sugars, q.sugars)
	}
	m.Minute = plotting.Unit{Steps: []float64{1, 1.5, 3, 6}, Tick: func(v, _ float64) string { return say.Number(quantity.Minutes, v) }}
	m.Share = plotting.Unit{ToShown: func(v float64) float64 { return 100 * v }, FromShown: func(v float64) float64 { return v / 100 },
		Tick: func(v, _ float64) string { return say.Format(quantity.Percent, v) }}
	m.Names = plotting.MashNames{Extract: words.T("extract"), Sugars: words.T("of it sugar")}
	if n := len(c.points); n > 0 {
		m.Names.Temperature = say.Format(quantity.Temperature, c.points[n-1].temperatureC)
	}
	scale := float64(w) / max(1, float64(c.raster.Size().Width))
	palette := c.p.host.Palette()
	return c.drawer.Draw(&m, plotting.Size{Width: w, Height: h, Scale: scale}, &palette)
}
