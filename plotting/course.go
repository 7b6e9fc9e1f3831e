package plotting

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"skep/calc"
)

// Course is a picture of a fermentation: gravity above, the rate of carbon
// dioxide below, over the same hours after pitching.
type Course struct {
	Hours      Range // what the level axis shows, hours after pitching
	HoursLabel string
	HourNote   func(hour float64) string // written below a tick, such as its day; nil: nothing

	Gravity, Rate           Unit // SG; grams of CO2 per litre and hour
	GravityLabel, RateLabel string

	After  CourseLine  // with the readings
	Before *CourseLine // as it was without them, a quiet outline; nil: nothing

	Window   [2]calc.Band // the honey window opens and closes; Names.Window empty: not shown
	Height   calc.Band
	Finished calc.Band
	Now      float64 // NaN: not shown

	Points []CoursePoint
	Foam   []CoursePoint // SG is not used
	Names  CourseNames
	Honey  color.NRGBA // of the window and of honey going in, 3:1 on the ground or better
	Warn   color.NRGBA // of a reading that does not fit
}

// CourseLine is a course hour by hour; the slices are of one length.
type CourseLine struct {
	Hours         []float64
	GravitySG     []calc.Band
	CO2RateGPerLH []calc.Band
}

// CoursePoint is something seen in the fermenter.
type CoursePoint struct {
	Hours, SG, SD float64
	Kind          PointKind
	Foam          int // for foam: 0 none, 1 rising, 2 at its height, 3 falling
}

// PointKind is how far a reading is trusted; each has a shape of its own.
type PointKind int

// The kinds.
const (
	Trusted      PointKind = iota // a filled disc
	Unused                        // an empty one, crossed out
	Doubted                       // a disc in a ring
	HoneyAdds                     // honey went in: a wedge, no reading
	HoneyPlanned                  // it is planned: a hollow wedge
)

// CourseNames are the words in the picture.
type CourseNames struct {
	Before, Height, Window, Finished, Now string
}

// CourseLayout maps a course picture between hours and pixels.
type CourseLayout struct {
	Size                       Size
	Left, Right                float64
	GravityTop, GravityBottom  float64
	RateTop, RateBottom        float64
	Hours, GravitySG, RateGPLH Range
}

// PixelX is where an hour lies.
func (l *CourseLayout) PixelX(hour float64) float64 {
	return l.Left + (hour-l.Hours.Low)/(l.Hours.High-l.Hours.Low)*(l.Right-l.Left)
}

// HourAt is the hour at a pixel, also beyond the plot.
func (l *CourseLayout) HourAt(x float64) float64 {
	if l.Right <= l.Left {
		return l.Hours.Low
	}
	return l.Hours.Low + (x-l.Left)/(l.Right-l.Left)*(l.Hours.High-l.Hours.Low)
}

// GravityY is where a gravity lies.
func (l *CourseLayout) GravityY(sg float64) float64 {
	return l.GravityBottom - (sg-l.GravitySG.Low)/(l.GravitySG.High-l.GravitySG.Low)*(l.GravityBottom-l.GravityTop)
}

func (l *CourseLayout) rateY(rate float64) float64 {
	return l.RateBottom - (rate-l.RateGPLH.Low)/(l.RateGPLH.High-l.RateGPLH.Low)*(l.RateBottom-l.RateTop)
}

// CourseDrawer draws course pictures. It belongs to one goroutine and keeps
// the letters; each drawing is an image of its own.
type CourseDrawer struct{ pen *rasterPen }

// NewCourseDrawer makes one.
func NewCourseDrawer() *CourseDrawer { return &CourseDrawer{newRasterPen()} }

// Draw draws a course.
func (d *CourseDrawer) Draw(c *Course, size Size, p *Palette) (*image.RGBA, CourseLayout) {
	size = size.sound()
	img := image.NewRGBA(image.Rect(0, 0, size.Width, size.Height))
	draw.Draw(img, img.Rect, image.NewUniform(color.RGBAModel.Convert(p.Ground)), image.Point{}, draw.Src)
	d.pen.dst = img
	s := courseScene{c: c, p: p, g: d.pen, l: c.layout(size), k: size.Scale}
	s.draw()
	d.pen.dst = nil
	return img, s.l
}

// layout finds the room for the two plots and the ranges that hold all.
func (c *Course) layout(size Size) CourseLayout {
	k := size.Scale
	w, h := float64(size.Width), float64(size.Height)
	l := CourseLayout{Size: size, Hours: c.Hours.sound(Range{0, 168})}
	l.GravitySG, l.RateGPLH = c.ranges(l.Hours)
	below := gapPx + tickPx
	if c.HourNote != nil {
		below += tickPx + 3
	}
	if c.HoursLabel != "" {
		below += 5 + axisLabelPx
	}
	left := width("1.000", tickPx, false)
	l.Left = math.Min(math.Round((left+gapPx+4)*k), 0.4*w)
	l.Right = math.Max(w-math.Round(14*k), l.Left+1)
	l.GravityTop = math.Round(courseHeadPx * k)
	l.RateBottom = math.Max(h-math.Round((below+4)*k), l.GravityTop+3)
	plots := l.RateBottom - l.GravityTop
	between := math.Min(34*k, 0.2*plots)
	l.GravityBottom = math.Round(l.GravityTop + (plots-between)*courseGravityShare)
	l.RateTop = math.Round(l.GravityBottom + between)
	return l
}

const (
	courseHeadPx       = 38.0 // for the words over the lines
	courseGravityShare = 0.68
)

// ranges hold the bands within the hours and all points.
func (c *Course) ranges(hours Range) (gravity, rate Range) {
	gravity, rate = Range{math.Inf(1), math.Inf(-1)}, Range{0, 0.2}
	see := func(r *Range, v float64) {
		if finite(v) {
			r.Low, r.High = math.Min(r.Low, v), math.Max(r.High, v)
		}
	}
	for _, line := range []*CourseLine{&c.After, c.Before} {
		if line == nil {
			continue
		}
		for i, t := range line.Hours {
			if t > hours.High {
				break
			}
			see(&gravity, line.GravitySG[i].Low)
			see(&gravity, line.GravitySG[i].High)
			see(&rate, line.CO2RateGPerLH[i].High)
		}
	}
	for _, p := range c.Points {
		// One that can't be would squeeze all others flat.
		if p.Kind != HoneyAdds && p.Kind != HoneyPlanned && (p.Kind != Unused || p.SG > 0.98 && p.SG < 1.2) {
			see(&gravity, p.SG)
		}
	}
	gravity = gravity.sound(Range{1, 1.06})
	air := math.Max(0.002, 0.04*(gravity.High-gravity.Low))
	gravity.Low, gravity.High = gravity.Low-air, gravity.High+air
	rate.High *= 1.06
	return gravity, rate.sound(Range{0, 1})
}
