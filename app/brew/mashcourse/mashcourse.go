// Package mashcourse is the mash minute by minute, and its picture in the Brew place. A
// design comes in; out goes what the grain has given by then. It must not know the day.
package mashcourse

import (
	"image"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/mash"
	"skep/calc/quantity"
	"skep/calc/recipe"
	"skep/plotting"
)

// Course is the mash over time: its temperature as a stepped line, and how
// much of the grist has become extract and sugar: Fyne's raster in the size that it is
// asked for.
type Course struct {
	widget.BaseWidget
	host   ui.Host
	points []Point
	raster *canvas.Raster
	drawer *plotting.MashDrawer
}

// New is one that shows nothing yet.
func New(host ui.Host) *Course {
	c := &Course{host: host, drawer: plotting.NewMashDrawer()}
	c.ExtendBaseWidget(c)
	return c
}

// Fill shows a mash; of none nothing is drawn.
func (c *Course) Fill(points []Point) {
	if !slices.Equal(c.points, points) {
		c.points = points
		c.Refresh()
	}
}

var _ fyne.Accessible = (*Course)(nil)

// AccessibilityLabel says what is drawn.
func (c *Course) AccessibilityLabel() string {
	n := len(c.points)
	if n == 0 {
		return words.T("no mash to draw")
	}
	say := c.host.Say()
	return words.T("after {time} {extract} of the grain's extract is made, {sugar} of it sugar", say.Format(quantity.Minutes, c.points[n-1].minute), say.Format(quantity.Percent, math.Round(100*c.points[n-1].extract)), say.Format(quantity.Percent, math.Round(100*c.points[n-1].sugars)))
}

// AccessibilityRole is text.
func (c *Course) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

const courseHigh = 170

// Objects is itself, where there is a mash to draw.
func (c *Course) Objects() []fyne.CanvasObject {
	if len(c.points) < 2 {
		return nil
	}
	return []fyne.CanvasObject{c}
}

// Wide is as much as there is.
func (c *Course) Wide() float32 { return 0 }

// Lay puts it somewhere and says how high it is.
func (c *Course) Lay(x, y, width float32) float32 {
	if len(c.points) < 2 {
		return 0
	}
	ui.Put(c, x, y, width, courseHigh)
	return courseHigh
}

func (c *Course) MinSize() fyne.Size { return fyne.NewSize(240, courseHigh) }

// CreateRenderer is for Fyne.
func (c *Course) CreateRenderer() fyne.WidgetRenderer {
	c.raster = canvas.NewRaster(c.image)
	return widget.NewSimpleRenderer(c.raster)
}

// image is drawn when the canvas asks for it: what is drawn is small.
func (c *Course) image(w, h int) image.Image {
	m := c.picture()
	scale := float64(w) / max(1, float64(c.raster.Size().Width))
	palette := c.host.Palette()
	return c.drawer.Draw(&m, plotting.Size{Width: w, Height: h, Scale: scale}, &palette)
}

// picture is the mash with the person's words and units.
func (c *Course) picture() plotting.Mash {
	say, m := c.host.Say(), plotting.Mash{MinuteLabel: words.T("minutes since mash-in")}
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
	return m
}

// Point is the mash on its way: shares of the grist's extract.
type Point struct {
	minute, temperatureC float64
	extract, sugars      float64
}

// courseEveryMin is how finely the mash is drawn.
const courseEveryMin = 1

// Of is the mash minute by minute, at rests as much warmer as the
// ledger has found the thermometer off; nothing where there is none.
func Of(d design.Design, shiftC float64) []Point {
	points, err := mash.Course(recipe.MashInput(d, shiftC), courseEveryMin)
	all := recipe.Grist(d).LaboratoryKg // what the shares are of
	if err != nil || !(all > 0) {
		return nil
	}
	out := make([]Point, 0, len(points))
	for _, p := range points {
		extract := p.ExtractKg / all
		out = append(out, Point{p.Minute, p.TemperatureC, extract, extract * p.Wort.Sugars()})
	}
	return out
}
