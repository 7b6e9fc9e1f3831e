package app

import (
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/quantity"
	"skep/app/ui"
	"skep/app/words"
)

// course is the mash over time: its temperature as a stepped line, and how
// much of the grist has become extract and sugar.
type course struct {
	widget.BaseWidget
	p      *brewPlace
	points []mashPoint
}

func newCourse(p *brewPlace) *course {
	c := &course{p: p}
	c.ExtendBaseWidget(c)
	return c
}

func (c *course) show(f *brewFrame) {
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
	say := c.p.b.Say()
	return words.T("after {{.Time}} {{.Extract}} of the grain's extract is made, {{.Sugar}} of it sugar", map[string]any{
		"Time": say.Format(quantity.Minutes, c.points[n-1].minute), "Extract": say.Format(quantity.Percent, math.Round(100*c.points[n-1].extract)),
		"Sugar": say.Format(quantity.Percent, math.Round(100*c.points[n-1].sugars))})
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

func (c *course) wide() float32 { return 0 }

func (c *course) Lay(x, y, width float32) float32 {
	if len(c.points) < 2 {
		return 0
	}
	ui.Put(c, x, y, width, courseHigh)
	return courseHigh
}

func (c *course) MinSize() fyne.Size { return fyne.NewSize(240, courseHigh) }

func (c *course) CreateRenderer() fyne.WidgetRenderer {
	r := &courseRenderer{c: c}
	r.Refresh()
	return r
}

// courseRenderer draws three lines of straight pieces, a frame and their
// names at the ends.
type courseRenderer struct {
	c     *course
	lines []*canvas.Line
	used  int
	texts []*canvas.Text
	said  int
}

func (r *courseRenderer) MinSize() fyne.Size { return r.c.MinSize() }
func (r *courseRenderer) Destroy()           {}

func (r *courseRenderer) line(x1, y1, x2, y2 float32, c color.Color, w float32) {
	if r.used == len(r.lines) {
		r.lines = append(r.lines, canvas.NewLine(c))
	}
	l := r.lines[r.used]
	r.used++
	l.StrokeColor, l.StrokeWidth = c, w
	l.Position1, l.Position2 = fyne.NewPos(x1, y1), fyne.NewPos(x2, y2)
}

// text writes one; at says where its point is: -1 right of it, 0 centred
// below, 1 left of it.
func (r *courseRenderer) text(s string, x, y float32, at int, c color.Color, bold bool) {
	if r.said == len(r.texts) {
		r.texts = append(r.texts, canvas.NewText("", c))
	}
	t := r.texts[r.said]
	r.said++
	t.Text, t.Color, t.TextSize, t.TextStyle = s, c, look.CaptionSize-0.5, fyne.TextStyle{Bold: bold}
	m := t.MinSize()
	switch at {
	case 0:
		x -= m.Width / 2
	case 1:
		x -= m.Width
	}
	if at != 0 {
		y -= m.Height / 2
	}
	ui.Put(t, x, y, m.Width, m.Height)
}

func (r *courseRenderer) Layout(size fyne.Size) {
	r.used, r.said = 0, 0
	pts := r.c.points
	if len(pts) < 2 || size.Width < 160 {
		return
	}
	p := ui.PaletteOf(r.c.Theme())
	say := r.c.p.b.Say()
	const left, right, top, foot = 40, 96, 10, 34
	w, h := size.Width-left-right, size.Height-top-foot
	end := pts[len(pts)-1].minute
	x := func(m float64) float32 { return left + w*float32(m/end) }
	y := func(share float64) float32 { return top + h*float32(1-min(max(share, 0), 1)) }
	for _, share := range []float64{0, 0.5, 1} {
		r.line(left, y(share), left+w, y(share), p.Grid, 1)
		r.text(say.Format(quantity.Percent, 100*share), left-6, y(share), 1, p.Quiet, false)
	}
	step := 15.0
	for end/step > 6 {
		step *= 2
	}
	for m := 0.0; m <= end+1e-9; m += step {
		r.line(x(m), top, x(m), top+h, p.Grid, 1)
		r.text(say.Number(quantity.Minutes, m), x(m), top+h+3, 0, p.Quiet, false)
	}
	r.text(words.T("minutes since mash-in"), left+w/2, top+h+18, 0, p.Quiet, false)

	// The temperature has its own scale, from the coolest to the hottest, in
	// the upper half where it says something; its values stand at the rests.
	low, high := pts[0].temperatureC, pts[0].temperatureC
	for _, q := range pts {
		low, high = min(low, q.temperatureC), max(high, q.temperatureC)
	}
	warm := func(t float64) float32 {
		if high-low < 0.5 {
			return y(0.5)
		}
		return y(0.3 + 0.4*(t-low)/(high-low))
	}
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		r.line(x(a.minute), y(a.extract), x(b.minute), y(b.extract), p.Accent, 2)
		r.line(x(a.minute), y(a.sugars), x(b.minute), y(b.sugars), p.AccentEdge, 1.6)
		if i%3 != 0 { // dashes
			r.line(x(a.minute), warm(a.temperatureC), x(b.minute), warm(b.temperatureC), p.Ghost, 1.4)
		}
	}
	last := pts[len(pts)-1]
	ends := []float32{y(last.extract), y(last.sugars), warm(last.temperatureC)}
	for i := 1; i < 3; i++ { // names do not stand on each other
		for j := range i {
			if d := ends[i] - ends[j]; d > -14 && d < 14 {
				ends[i] = ends[j] + 14
			}
		}
	}
	r.text(words.T("extract"), left+w+6, ends[0], -1, p.Accent, true)
	r.text(words.T("of it sugar"), left+w+6, ends[1], -1, p.Accent, false)
	r.text(say.Format(quantity.Temperature, last.temperatureC), left+w+6, ends[2], -1, p.Ghost, false)
}

func (r *courseRenderer) Refresh() {
	r.Layout(r.c.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *courseRenderer) Objects() []fyne.CanvasObject {
	o := make([]fyne.CanvasObject, 0, r.used+r.said)
	for _, l := range r.lines[:r.used] {
		o = append(o, l)
	}
	for _, t := range r.texts[:r.said] {
		o = append(o, t)
	}
	return o
}
