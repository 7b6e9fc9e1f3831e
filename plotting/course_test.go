package plotting

import (
	"image"
	"image/color"
	"math"
	"testing"

	"skep/calc"
	"skep/plotting/style"
)

// sampleCourse is an invented fermentation: 1.045 to 1.008 in a week.
func sampleCourse() Course {
	c := Course{
		Hours: Range{0, 168}, HoursLabel: "hours after pitching", GravityLabel: "gravity", RateLabel: "CO2",
		Gravity: Unit{Tick: Decimals(3)}, Now: 60,
		Height: calc.Band{Low: 30, Mid: 36, High: 44}, Finished: calc.Band{Low: 110, Mid: 125, High: 140},
		Window: [2]calc.Band{{Low: 40, Mid: 48, High: 56}, {Low: 66, Mid: 78, High: 90}},
		Names:  CourseNames{Before: "as planned", Height: "height", Window: "honey window", Finished: "finished by", Now: "now"},
		Honey:  color.NRGBA{0x8A, 0x5A, 0x00, 0xFF}, Warn: color.NRGBA{0xA8, 0x32, 0x1A, 0xFF},
		Points: []CoursePoint{{Hours: 24, SG: 1.038}, {Hours: 100, SG: 1.030, Kind: Doubted}, {Hours: 130, SG: 1.5, Kind: Unused}, {Hours: 54, Kind: HoneyAdds}},
		Foam:   []CoursePoint{{Hours: 20, Foam: 1}},
	}
	for h := range 169 {
		done := 1 / (1 + math.Exp(-0.08*(float64(h)-42)))
		sg, rate := 1.045-0.037*done, 1.2*4*done*(1-done)
		c.After.Hours = append(c.After.Hours, float64(h))
		c.After.GravitySG = append(c.After.GravitySG, calc.Band{Low: sg - 0.001, Mid: sg, High: sg + 0.001})
		c.After.CO2RateGPerLH = append(c.After.CO2RateGPerLH, calc.Band{Low: 0.8 * rate, Mid: rate, High: 1.2 * rate})
	}
	return c
}

func near(img *image.RGBA, x, y float64, c color.NRGBA, within int) bool {
	for dx := -within; dx <= within; dx++ {
		for dy := -within; dy <= within; dy++ {
			p := img.RGBAAt(int(x)+dx, int(y)+dy)
			far := func(a, b uint8) bool { return a > b+12 || b > a+12 }
			if !far(p.R, c.R) && !far(p.G, c.G) && !far(p.B, c.B) {
				return true
			}
		}
	}
	return false
}

func TestACourseIsDrawnWhereItsLayoutSays(t *testing.T) {
	t.Parallel()
	p, c := style.Light(), sampleCourse()
	for _, size := range []Size{{600, 640, 1}, {440, 500, 1}, {1200, 1280, 2}} {
		img, l := NewCourseDrawer().Draw(&c, size, &p)
		if img.Rect.Dx() != size.Width || img.Rect.Dy() != size.Height {
			t.Fatalf("%v: drawn %v", size, img.Rect)
		}
		if !(l.Left < l.Right && l.GravityTop < l.GravityBottom && l.GravityBottom < l.RateTop && l.RateTop < l.RateBottom) {
			t.Fatalf("%v: layout %+v", size, l)
		}
		for _, h := range []int{10, 90, 150} {
			if x, y := l.PixelX(float64(h)), l.GravityY(c.After.GravitySG[h].Mid); !near(img, x, y, p.Accent, 1) {
				t.Errorf("%v: no line at %d h", size, h)
			}
		}
		if !near(img, l.PixelX(24), l.GravityY(1.038), p.Ink, 0) {
			t.Errorf("%v: the reading is not where it belongs", size)
		}
		if r := 8.1 * size.Scale; !near(img, l.PixelX(100)+r, l.GravityY(1.030), c.Warn, 1) {
			t.Errorf("%v: the reading in doubt has no ring", size)
		}
		if !near(img, l.PixelX(60), l.GravityTop+40*size.Scale, p.Ink, 1) {
			t.Errorf("%v: no line for now", size)
		}
		if h := l.HourAt(l.PixelX(77)); math.Abs(h-77) > 1e-9 {
			t.Errorf("%v: hour 77 reads back as %v", size, h)
		}
	}
}

func TestAnAbsurdReadingDoesNotFlattenTheCourse(t *testing.T) {
	t.Parallel()
	c := sampleCourse()
	_, l := NewCourseDrawer().Draw(&c, Size{600, 640, 1}, &style.Palette{})
	if l.GravitySG.High > 1.06 || l.GravitySG.Low > 1.007 {
		t.Errorf("gravity runs from %.3f to %.3f", l.GravitySG.Low, l.GravitySG.High)
	}
}

func TestCoursesOfNothing(t *testing.T) {
	t.Parallel()
	p := style.Dark()
	for name, c := range map[string]Course{
		"empty":    {Now: math.NaN()},
		"one hour": {After: CourseLine{Hours: []float64{0}, GravitySG: []calc.Band{{Low: 1, Mid: 1, High: 1}}, CO2RateGPerLH: []calc.Band{{}}}},
		"NaN": {Hours: Range{math.NaN(), math.Inf(1)}, Now: math.NaN(), Height: calc.Band{Mid: math.NaN()}, Names: CourseNames{Height: "height", Window: "w"},
			Window: [2]calc.Band{{Mid: math.NaN()}, {Mid: math.NaN()}},
			After:  CourseLine{Hours: []float64{0, 1}, GravitySG: []calc.Band{{Low: math.NaN()}, {Low: 1, Mid: 1, High: 1}}, CO2RateGPerLH: make([]calc.Band, 2)},
			Points: []CoursePoint{{Hours: math.NaN(), SG: math.NaN()}, {Hours: 3, SG: math.NaN()}}},
	} {
		for _, size := range []Size{{600, 640, 1}, {30, 20, 1}, {1, 1, 1}} {
			if img, _ := NewCourseDrawer().Draw(&c, size, &p); img.Rect.Dx() != size.Width {
				t.Errorf("%s at %v: %v", name, size, img.Rect)
			}
		}
	}
}

// The programme's steps stand at their hours in the lower picture, whatever its size,
// and a course that is kept at one temperature has none.
func TestTemperatureSteps(t *testing.T) {
	t.Parallel()
	p, c := style.Light(), sampleCourse()
	p.Muted = color.NRGBA{0xD0, 0x10, 0xD0, 0xFF} // nothing else is of this colour
	c.Names = CourseNames{}
	c.TemperatureText = func(v float64) string { return "20 °C" }
	for h := range c.After.Hours {
		at := 19.0
		if h >= 96 {
			at = 22
		}
		if h >= 144 {
			at = 4
		}
		c.After.TemperatureC = append(c.After.TemperatureC, at)
	}
	if got := StretchesOf(c.After.Hours, c.After.TemperatureC); len(got) != 3 || got[1] != (KeptAt{96, 144, 22}) {
		t.Fatalf("stretches %+v", got)
	}
	// column is how many pixels of an upright line stand at an hour of the rate.
	column := func(img *image.RGBA, l *CourseLayout, hour float64) (best int) {
		for dx := -2; dx <= 2; dx++ {
			n := 0
			for y := int(l.RateTop) + 1; y < int(l.RateBottom); y++ {
				if near(img, l.PixelX(hour)+float64(dx), float64(y), p.Muted, 0) {
					n++
				}
			}
			best = max(best, n)
		}
		return best
	}
	for _, size := range []Size{{600, 640, 1}, {440, 500, 1}, {1200, 1280, 2}} {
		img, l := NewCourseDrawer().Draw(&c, size, &p)
		least := int((l.RateBottom - l.RateTop) / 4) // 18 K of 18, dashed
		if a, b := column(img, &l, 144), column(img, &l, 120); a < least || b >= least {
			t.Errorf("%v: %d pixels stand at the crash, %d before it; wanted %d", size, a, b, least)
		}
		plain := c
		plain.After.TemperatureC = nil
		if img, l := NewCourseDrawer().Draw(&plain, size, &p); column(img, &l, 144) >= least {
			t.Errorf("%v: a step without a programme", size)
		}
	}
}
