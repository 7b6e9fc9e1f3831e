package sheet

import (
	"math"
	"slices"

	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/quantity"
	"skep/plotting"
	"skep/plotting/style"
)

// courseHigh is the height of the fermentation curve, in body sizes.
const courseHigh = 8.8

// course is the fermentation curve with the honey window shaded, as one row.
func (s setter) course() []row {
	co := s.c.Course
	if len(co.Hours) < 2 {
		return nil
	}
	last := s.c.courseEnd()
	n := 0
	for n < len(co.Hours) && co.Hours[n] <= last {
		n++
	}
	bands := untilHoney(co.GravitySG[:n])
	gravities := plotting.Range{Low: math.Inf(1), High: math.Inf(-1)}
	for _, b := range co.GravitySG[:n] {
		gravities.Low, gravities.High = math.Min(gravities.Low, b.Low), math.Max(gravities.High, b.High)
	}
	margin := 0.05 * (gravities.High - gravities.Low)
	hours := s.c.Format.Axis(quantity.WholeHours)
	hours.Steps = []float64{1, 2.4, 4.8}
	pic := plotting.Picture{
		X:   plotting.Axis{Range: plotting.Range{Low: 0, High: last}, Label: s.c.text("hours since pitching"), Unit: hours},
		Y:   plotting.Axis{Range: plotting.Range{Low: gravities.Low - margin, High: gravities.High + margin}, Unit: s.c.Format.Axis(quantity.Gravity)},
		AtC: math.NaN(),
		Series: []plotting.Series{{
			Role: plotting.Now, TemperatureC: co.Hours[:n], Band: bands,
		}},
	}
	high := courseHigh * s.em
	return []row{{high: high + 0.3*s.em, draw: func(x, y float64) {
		at := plotting.Place{X: x, Y: y, Width: s.wide, Height: high, PointsPerPx: pictureScale}
		l := plotting.LayoutOn(&pic, at)
		s.window(at, l)
		plotting.OnPDF(s.doc).Draw(&pic, at, paperPalette())
		s.honeys(at, l)
		s.temperatures(at, l, n)
	}}}
}

// untilHoney leaves the doubt out from where the gravity first may rise: beyond
// it the band would be of a honey added on the yeast's clock, while on the day
// it goes in when the brewer says so.
func untilHoney(bands []calc.Band) []calc.Band {
	out := slices.Clone(bands)
	for i := 1; i < len(out); i++ {
		if bands[i].Low > bands[i-1].Low || bands[i].High > bands[i-1].High {
			for ; i < len(out); i++ {
				out[i].Low, out[i].High = math.NaN(), math.NaN()
			}
		}
	}
	return out
}

// courseEnd is where the curve ends, hours: a little after all is over, and after the
// last step of the temperature programme.
func (c *Content) courseEnd() float64 {
	p := &c.Prediction
	end := math.Max(p.FinishedHours.Mid*1.15, p.HoneyWindowHours[1].Mid*1.3)
	for _, k := range c.Design.Temperature {
		end = math.Max(end, k.AtHours*1.1)
	}
	if len(c.Course.Hours) > 0 {
		end = math.Min(end, c.Course.Hours[len(c.Course.Hours)-1])
	}
	return math.Max(end, 24)
}

// window shades the honey window.
func (s setter) window(at plotting.Place, l plotting.Layout) {
	if _, ok := s.c.Day.Step(brewday.Honey); !ok {
		return
	}
	w := s.c.Prediction.HoneyWindowHours
	x0, y0 := at.Point(within(l, w[0].Mid), l.Top)
	x1, y1 := at.Point(within(l, w[1].Mid), l.Bottom)
	if x1 > x0 {
		s.doc.SetFillColor(226, 226, 226)
		s.doc.Rect(x0, y0, x1-x0, y1-y0, "F")
	}
}

// within is where an hour lies on the curve, held to its ends.
func within(l plotting.Layout, hour float64) float64 {
	return math.Min(math.Max(l.PixelX(hour), l.Left), l.Right)
}

// honeys marks when the honey goes in, and names the shaded window.
func (s setter) honeys(at plotting.Place, l plotting.Layout) {
	if _, ok := s.c.Day.Step(brewday.Honey); !ok {
		return
	}
	w := s.c.Prediction.HoneyWindowHours
	left, y0 := at.Point(within(l, w[0].Mid), l.Top)
	right, _ := at.Point(within(l, w[1].Mid), l.Top)
	end, y1 := at.Point(l.Right, l.Bottom)
	label := left
	for _, h := range s.c.Design.Honey {
		if h.Moment != design.MomentFermenting || !(h.MassKg > 0) {
			continue
		}
		x, _ := at.Point(within(l, s.c.Prediction.HeightHours.Mid+h.HoursAfterHeight), 0)
		s.line(x, y0, x, y1, 1.4, black)
		if left <= x && x <= right { // the name stands clear of the line
			label = max(label, x)
		}
	}
	name, size := s.c.text("honey window"), 0.8*s.em
	label = min(label+3, end-s.width(name, size, true))
	s.text(label, y0+0.85*s.em, name, size, true, black)
}

// temperatures draws the programme of the fermentation as a thin line of steps over
// the curve's upper half, each with its temperature, under the honey window's name.
func (s setter) temperatures(at plotting.Place, l plotting.Layout, n int) {
	steps := plotting.StretchesOf(s.c.Course.Hours[:n], s.c.Course.TemperatureC)
	if len(steps) < 2 {
		return
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, k := range steps {
		low, high = math.Min(low, k.TemperatureC), math.Max(high, k.TemperatureC)
	}
	_, top := at.Point(l.Left, l.Top)
	_, bottom := at.Point(l.Left, l.Bottom)
	size := 0.72 * s.em
	y := func(v float64) float64 {
		return top + (0.36+0.35*(high-v)/math.Max(high-low, 4))*(bottom-top)
	}
	end, _ := at.Point(l.Right, l.Top)
	clear := 0.0
	for i, k := range steps {
		from, _ := at.Point(within(l, k.FromHours), l.Top)
		to, _ := at.Point(within(l, k.ToHours), l.Top)
		if i > 0 {
			s.line(from, y(steps[i-1].TemperatureC), from, y(k.TemperatureC), 0.6, black)
		}
		s.line(from, y(k.TemperatureC), to, y(k.TemperatureC), 0.6, black)
		name := s.c.Format.Quantity(quantity.Of(quantity.Temperature, k.TemperatureC))
		left := math.Min(from+2, end-s.width(name, size, false))
		if left < clear { // the step before is too short for both names
			continue
		}
		clear = left + s.width(name, size, false) + 3
		s.text(left, y(k.TemperatureC)-0.25*size, name, size, false, black)
	}
}

// paperPalette is the palette of print without colour: what says something by
// its hue on the screen says it by weight here.
func paperPalette() style.Palette {
	p := style.Print()
	p.Accent = p.Ink
	p.Tint = p.Ink
	p.Tint.A = 0x22
	p.Edge = p.Ink
	p.Edge.A = 0x88
	for i := range p.Series {
		p.Series[i] = p.Ink
	}
	return p
}

// pictureScale is how many points make a pixel of the pictures: their 12 px
// numbers come out at 7.9 points.
const pictureScale = 0.66
