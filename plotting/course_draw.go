package plotting

import (
	"image/color"
	"math"

	"skep/calc"
)

// courseScene is one drawing of a course.
type courseScene struct {
	c *Course
	p *Palette
	g pen
	l CourseLayout
	k float64
}

func (s *courseScene) draw() {
	s.window()
	s.axes()
	if s.c.Before != nil {
		s.outline(s.c.Before)
	}
	s.line(&s.c.After)
	s.moments()
	for i := range s.c.Points {
		s.point(&s.c.Points[i])
	}
	for i := range s.c.Foam {
		s.foam(&s.c.Foam[i])
	}
}

// x is an hour's place, kept within the plot.
func (s *courseScene) x(hour float64) float64 {
	return math.Min(math.Max(s.l.PixelX(hour), s.l.Left), s.l.Right)
}

func (s *courseScene) shown(hour float64) bool {
	return finite(hour) && hour >= s.l.Hours.Low && hour <= s.l.Hours.High
}

func (s *courseScene) box(x0, y0, x1, y1 float64, c color.NRGBA) {
	if x1 > x0 && y1 > y0 {
		s.g.area([]point{at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}, c)
	}
}

// window shades the honey window: faint where it may be open, stronger where
// it most likely is.
func (s *courseScene) window() {
	c := s.c
	if c.Names.Window == "" || !finite(c.Window[0].Mid) {
		return
	}
	for _, span := range [][2]float64{{c.Window[0].Low, c.Window[1].High}, {c.Window[0].Mid, c.Window[1].Mid}} {
		x0, x1 := s.x(span[0]), s.x(span[1])
		s.box(x0, s.l.GravityTop, x1, s.l.GravityBottom, alpha(c.Honey, 0.10))
		s.box(x0, s.l.RateTop, x1, s.l.RateBottom, alpha(c.Honey, 0.10))
	}
	x0, x1 := s.x(c.Window[0].Mid), s.x(c.Window[1].Mid)
	s.box(x0, s.l.GravityTop-3*s.k, x1, s.l.GravityTop, c.Honey)
	text := elide(c.Names.Window, labelPx, true, (s.l.Right-x0)/s.k)
	s.g.text(x0, s.l.GravityTop-8*s.k, text, labelPx*s.k, true, c.Honey)
}

func (s *courseScene) axes() {
	l, k, p := &s.l, s.k, s.p
	upright := func(top, bottom float64, r Range, u Unit, y func(float64) float64, label string, apart float64) {
		for _, t := range ticks(Axis{Range: r, Unit: u}, max(int((bottom-top)/k/apart), 1)) {
			at0 := y(t.at)
			s.g.line([]point{at(l.Left, at0), at(l.Right, at0)}, k, nil, p.Grid)
			s.g.text(l.Left-gapPx*k-width(t.label, tickPx*k, false), at0+0.36*tickPx*k, t.label, tickPx*k, false, p.Muted)
		}
		if label != "" {
			s.g.text(l.Left, top-8*k, label, axisLabelPx*k, false, p.Muted)
		}
	}
	upright(l.GravityTop, l.GravityBottom, l.GravitySG, s.c.Gravity, l.GravityY, "", tickGapYPx)
	upright(l.RateTop, l.RateBottom, l.RateGPLH, s.c.Rate, l.rateY, s.c.RateLabel, 30)
	s.g.text(l.Left, 12*k, s.c.GravityLabel, axisLabelPx*k, false, p.Muted)

	hourly := Unit{Steps: []float64{1, 2, 5}}
	step := hourStep((l.Hours.High - l.Hours.Low) / math.Max((l.Right-l.Left)/k/64, 1))
	y := l.RateBottom + (gapPx+0.8*tickPx)*k
	for h := math.Ceil(l.Hours.Low/step) * step; h <= l.Hours.High+1e-9; h += step {
		x := l.PixelX(h)
		for _, span := range [][2]float64{{l.GravityTop, l.GravityBottom}, {l.RateTop, l.RateBottom}} {
			s.g.line([]point{at(x, span[0]), at(x, span[1])}, k, nil, p.Grid)
		}
		text := hourly.label(h, step)
		s.centred(x, y, text, p.Muted)
		if s.c.HourNote != nil {
			s.centred(x, y+(tickPx+3)*k, s.c.HourNote(h), p.Muted)
		}
	}
	if s.c.HoursLabel != "" {
		w := width(s.c.HoursLabel, axisLabelPx*k, false)
		s.g.text(l.Right-w, float64(l.Size.Height)-4*k, s.c.HoursLabel, axisLabelPx*k, false, p.Muted)
	}
}

// hourStep is the smallest step of a clock that is not below want.
func hourStep(want float64) float64 {
	for _, step := range []float64{1, 2, 3, 6, 12, 24, 48, 96, 168, 336} {
		if step >= want {
			return step
		}
	}
	return 168 * math.Ceil(want/168)
}

// centred keeps a text below a place, within the picture.
func (s *courseScene) centred(x, y float64, text string, c color.NRGBA) {
	w := width(text, tickPx*s.k, false)
	x = math.Min(x-w/2, float64(s.l.Size.Width)-w-1)
	s.g.text(x, y, text, tickPx*s.k, false, c)
}

// paths are a line's low, middle and high in pixels, cut at the picture's edge.
func (s *courseScene) paths(line *CourseLine, band []calc.Band, y func(float64) float64, top, bottom float64) (low, mid, high []point) {
	fit := func(v float64) float64 { return math.Min(math.Max(y(v), top), bottom) }
	for i, h := range line.Hours {
		if i >= len(band) || h > s.l.Hours.High {
			break
		}
		if h < s.l.Hours.Low || !finite(band[i].Low) || !finite(band[i].Mid) || !finite(band[i].High) {
			continue
		}
		x := s.l.PixelX(h)
		low = append(low, at(x, fit(band[i].Low)))
		mid = append(mid, at(x, fit(band[i].Mid)))
		high = append(high, at(x, fit(band[i].High)))
	}
	return low, mid, high
}

// both does one thing in the two plots.
func (s *courseScene) both(line *CourseLine, do func(low, mid, high []point)) {
	do(s.paths(line, line.GravitySG, s.l.GravityY, s.l.GravityTop, s.l.GravityBottom))
	do(s.paths(line, line.CO2RateGPerLH, s.l.rateY, s.l.RateTop, s.l.RateBottom))
}

// outline is the band as it was before the readings.
func (s *courseScene) outline(line *CourseLine) {
	dash := scaled(nil, ghostDash, s.k)
	first := true
	s.both(line, func(low, _, high []point) {
		s.g.line(low, 1.3*s.k, dash, s.p.Ghost)
		s.g.line(high, 1.3*s.k, dash, s.p.Ghost)
		if n := len(high); first && n > 4 && s.c.Names.Before != "" {
			// Where the outline has fallen there is room above it.
			at := high[n*2/3]
			x := math.Min(float64(at.X)+6*s.k, s.l.Right-width(s.c.Names.Before, labelPx*s.k, false))
			s.g.text(x, float64(at.Y)-8*s.k, s.c.Names.Before, labelPx*s.k, false, s.p.Ghost)
		}
		first = false
	})
}

func (s *courseScene) line(line *CourseLine) {
	s.both(line, func(low, mid, high []point) {
		s.g.strip(high, low, s.p.Tint)
		s.g.line(low, s.k, nil, s.p.Edge)
		s.g.line(high, s.k, nil, s.p.Edge)
		s.g.line(mid, 2.5*s.k, nil, s.p.Accent)
	})
}

// moments are the upright lines: the height, finished by, now.
func (s *courseScene) moments() {
	l, k, n := &s.l, s.k, &s.c.Names
	upright := func(hour float64, name string, wide float64, dash []float64, c color.NRGBA, row int, bold bool) {
		if name == "" || !s.shown(hour) {
			return
		}
		x := math.Floor(l.PixelX(hour)) + 0.5 // the middle of a pixel: crisp
		s.g.line([]point{at(x, l.GravityTop), at(x, l.GravityBottom)}, wide*k, dash, c)
		s.g.line([]point{at(x, l.RateTop), at(x, l.RateBottom)}, wide*k, dash, c)
		w := width(name, labelPx*k, bold)
		left := x + 5*k
		if left+w > l.Right {
			left = x - 5*k - w
		}
		s.g.text(left, l.GravityTop+(float64(row)*17+14)*k, name, labelPx*k, bold, c)
	}
	dotted := scaled(nil, dots, k)
	upright(s.c.Height.Mid, n.Height, 1.3, dotted, s.p.Muted, 1, false)
	upright(s.c.Finished.High, n.Finished, 1.3, dotted, s.p.Muted, 2, false)
	upright(s.c.Now, n.Now, 1.6, nil, s.p.Ink, 0, true)
}

func (s *courseScene) point(p *CoursePoint) {
	if !s.shown(p.Hours) {
		return
	}
	k, l := s.k, &s.l
	x := l.PixelX(p.Hours)
	if p.Kind == HoneyPlanned {
		s.g.area(wedge.outline(nil, x, l.GravityBottom-7*k, 5.5*k), s.c.Honey)
		s.g.area(wedge.outline(nil, x, l.GravityBottom-7.4*k, 3.2*k), s.p.Ground)
		return
	}
	if p.Kind == HoneyAdds {
		s.g.area(wedge.outline(nil, x, l.GravityBottom-7*k, 5.5*k), s.c.Honey)
		s.g.line([]point{at(x, l.GravityTop), at(x, l.GravityBottom-8*k)}, 1.3*k, scaled(nil, []float64{3, 3}, k), s.c.Honey)
		return
	}
	y := math.Min(math.Max(l.GravityY(p.SG), l.GravityTop), l.GravityBottom)
	if up, down := l.GravityY(p.SG+p.SD), l.GravityY(p.SG-p.SD); p.Kind != Unused && p.SD > 0 && down-up > 10*k {
		s.g.line([]point{at(x, math.Max(up, l.GravityTop)), at(x, math.Min(down, l.GravityBottom))}, 1.5*k, nil, s.p.Ink)
	}
	ring := func(r float64, c color.NRGBA) { s.g.area(disc.outline(nil, x, y, r*k), c) }
	switch p.Kind {
	case Unused:
		ring(5, s.p.Muted)
		ring(3.6, s.p.Ground)
		s.g.line([]point{at(x-6*k, y+6*k), at(x+6*k, y-6*k)}, 1.4*k, nil, s.p.Muted)
	case Doubted:
		ring(9, s.c.Warn)
		ring(7.2, s.p.Ground)
		ring(4.6, s.p.Ink)
	default:
		ring(6, s.p.Ground)
		ring(4.6, s.p.Ink)
	}
}

// foam stands at the foot of the rate: pointing up while it rises, down when
// it falls.
func (s *courseScene) foam(p *CoursePoint) {
	if !s.shown(p.Hours) {
		return
	}
	x, y, r := s.l.PixelX(p.Hours), s.l.RateBottom-9*s.k, 5*s.k
	c := s.p.Ink
	if p.Kind == Unused {
		c = s.p.Muted
	}
	sign := [...]shape{disc, triangle, diamond, wedge}[min(max(p.Foam, 0), 3)]
	s.g.area(sign.outline(nil, x, y, r+1.6*s.k), s.p.Ground)
	s.g.area(sign.outline(nil, x, y, r), c)
	if p.Foam == 0 || p.Kind == Unused {
		s.g.area(disc.outline(nil, x, y, r-1.6*s.k), s.p.Ground)
	}
}
