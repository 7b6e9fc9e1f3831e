package plotting

import (
	"image/color"
	"math"

	"skep/calc"
	"skep/plotting/plotters"
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

	Measured        []KeptAt                          // temperatures of the beer; ToHours is not used
	TemperatureText func(temperatureC float64) string // as it is written on a step

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
	TemperatureC  []float64 // that the beer is kept at; none: not shown
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
func (l *CourseLayout) HourAt(xPx float64) float64 {
	if l.Right <= l.Left {
		return l.Hours.Low
	}
	return l.Hours.Low + (xPx-l.Left)/(l.Right-l.Left)*(l.Hours.High-l.Hours.Low)
}

// GravityY is where a gravity lies.
func (l *CourseLayout) GravityY(sg float64) float64 {
	return l.GravityBottom - (sg-l.GravitySG.Low)/(l.GravitySG.High-l.GravitySG.Low)*(l.GravityBottom-l.GravityTop)
}

// ranges hold the bands within the hours and all points.
func (c *Course) ranges(hours Range) (gravity, rate Range) {
	gravity, rate = Range{math.Inf(1), math.Inf(-1)}, Range{0, 0.2}
	see := func(r *Range, v float64) {
		if plotters.Finite(v) {
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
