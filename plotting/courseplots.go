package plotting

import (
	"image"
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/calc"
	"skep/plotting/canvas"
	"skep/plotting/plotters"
	"skep/plotting/style"
)

// CourseDrawer draws course pictures. It belongs to one goroutine and keeps
// the letters; each drawing is an image of its own.
type CourseDrawer struct{ canvas *canvas.Window }

// NewCourseDrawer makes one.
func NewCourseDrawer() *CourseDrawer { return &CourseDrawer{canvas.NewWindow()} }

// Draw draws a course.
func (d *CourseDrawer) Draw(c *Course, size Size, p *style.Palette) (*image.RGBA, CourseLayout) {
	size = size.sound()
	img := image.NewRGBA(image.Rect(0, 0, size.Width, size.Height))
	d.canvas.On(img, size.Scale).Clear(p.Ground)
	plots := c.drawOn(draw.NewCanvas(d.canvas, size.wide(), size.high()), p)
	d.canvas.Release()
	return img, plots.layout(size)
}

// DrawOn draws a course on any of vg's canvases.
func (c *Course) DrawOn(on draw.Canvas, p *style.Palette) { c.drawOn(on, p) }

func (c *Course) drawOn(on draw.Canvas, p *style.Palette) *coursePlots {
	plots := newCoursePlots(c, p, on)
	plots.gravity.Draw(plots.gravityOn)
	plots.rate.Draw(plots.rateOn)
	return plots
}

// coursePlots are the two plots of a course, one above the other over the same
// hours.
type coursePlots struct {
	gravity, rate     *plot.Plot
	gravityOn, rateOn draw.Canvas
	tracer            plotters.Tracer
}

const (
	courseGravityShare = 0.68 // of the height
	courseHeadPx       = 38.0 // for the words above the gravity
	courseBetweenPx    = 26.0 // and above the rate
	courseLeftPx       = 4.0
)

func newCoursePlots(c *Course, p *style.Palette, on draw.Canvas) *coursePlots {
	s := &coursePlots{gravity: style.NewPlot(p), rate: style.NewPlot(p)}
	hours := c.Hours.sound(Range{0, 168})
	gravity, rate := c.ranges(hours)
	for _, q := range [...]struct {
		*plot.Plot
		y Range
	}{{s.gravity, gravity}, {s.rate, rate}} {
		q.X.Min, q.X.Max, q.Y.Min, q.Y.Max = hours.Low, hours.High, q.y.Low, q.y.High
	}
	wide, high := float64(on.Size().X/canvas.Px), float64(on.Size().Y/canvas.Px)
	on = draw.Crop(on, atMost(courseLeftPx, wide), 0, atMost(3, high), 0)
	s.rate.X.Label.Text = c.HoursLabel
	s.rate.X.Label.Position = draw.PosRight
	below := math.Min(2*style.GapPx+2*style.TickPx+style.AxisLabelPx+16, high/3)
	plots := math.Max(high-courseHeadPx-courseBetweenPx-below, 3)
	split := on.Max.Y - vg.Length(math.Min(courseHeadPx+plots*courseGravityShare, high-2))*canvas.Px
	s.gravityOn = draw.Crop(on, 0, 0, split-on.Min.Y, 0)
	s.rateOn = draw.Crop(on, 0, 0, 0, split-on.Max.Y)
	s.gravity.Y.Tick.Marker = uprightTicks(Axis{Range: gravity, Unit: c.Gravity}, plots*courseGravityShare)
	s.rate.Y.Tick.Marker = ticker{unit: c.Rate, most: max(int(plots*(1-courseGravityShare)/30), 1)}
	least := style.Width("1.000", style.TickPx, false)
	for _, t := range s.gravity.Y.Tick.Marker.Ticks(gravity.Low, gravity.High) {
		least = math.Max(least, style.Width(t.Label, style.TickPx, false))
	}
	s.gravityOn, s.rateOn = style.WithLeft(s.gravityOn, s.gravity, least), style.WithLeft(s.rateOn, s.rate, least)
	s.gravity.Add(style.Room{Top: courseHeadPx * canvas.Px, Right: 14 * canvas.Px})
	s.rate.Add(style.Room{Top: courseBetweenPx * canvas.Px, Right: 14 * canvas.Px})
	// The hours stand below the rate; a text of no size is not drawn.
	s.gravity.X.Tick.Label.Font.Size, s.gravity.X.Padding = 0, 0
	marks := c.hourTicks(hours, wide-least)
	s.gravity.X.Tick.Marker, s.rate.X.Tick.Marker = marks, marks
	s.fill(c, p)
	return s
}

// atMost is so many pixels, but no more than a quarter of what there is.
func atMost(want, of float64) vg.Length { return vg.Length(math.Min(want, of/4)) * canvas.Px }

// hourTicks are steps of a clock, with the note below each.
func (c *Course) hourTicks(hours Range, wide float64) plot.ConstantTicks {
	step := hourStep((hours.High - hours.Low) / math.Max(wide/64, 1))
	var list plot.ConstantTicks
	for h := math.Ceil(hours.Low/step) * step; h <= hours.High+1e-9 && len(list) < mostTicks; h += step {
		label := strconv.FormatFloat(h, 'f', -1, 64)
		if c.HourNote != nil {
			label += "\n" + c.HourNote(h)
		}
		list = append(list, plot.Tick{Value: h, Label: label})
	}
	return list
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

// momentRows are the moments of a course, the name of each in a row of its own.
const momentRows = 3

// fill adds what is drawn, first to last.
func (s *coursePlots) fill(c *Course, p *style.Palette) {
	t, plate := &s.tracer, style.Alpha(p.Ground, 0.5)
	s.window(c)
	s.gravity.Add(plotters.Caption{Text: c.GravityLabel, Ink: p.Muted, Up: (courseHeadPx - 12) * canvas.Px})
	s.rate.Add(plotters.Caption{Text: c.RateLabel, Ink: p.Muted, Up: 8 * canvas.Px})
	if b := c.Before; b != nil {
		stroke := draw.LineStyle{Color: p.Ghost, Width: 1.3 * canvas.Px, Dashes: plotters.GhostDash}
		for _, value := range []func(calc.Band) float64{plotters.Low, plotters.High} {
			s.gravity.Add(plotters.Line{Tracer: t, Of: plotters.Curve{X: b.Hours, Band: b.GravitySG}, Value: value, Style: stroke})
			s.rate.Add(plotters.Line{Tracer: t, Of: plotters.Curve{X: b.Hours, Band: b.CO2RateGPerLH}, Value: value, Style: stroke})
		}
	}
	stroke := draw.LineStyle{Color: p.Accent, Width: 2.5 * canvas.Px}
	gravity, rate := plotters.Curve{X: c.After.Hours, Band: c.After.GravitySG}, plotters.Curve{X: c.After.Hours, Band: c.After.CO2RateGPerLH}
	s.gravity.Add(plotters.Band{Tracer: t, Of: gravity, Tint: p.Tint, Edge: p.Edge}, plotters.Line{Tracer: t, Of: gravity, Value: plotters.Mid, Style: stroke})
	s.rate.Add(plotters.Band{Tracer: t, Of: rate, Tint: p.Tint, Edge: p.Edge}, plotters.Line{Tracer: t, Of: rate, Value: plotters.Mid, Style: stroke})
	moments := [momentRows]plotters.MomentName{
		{X: c.Height.Mid, Name: c.Names.Height, Row: 1, Ink: p.Muted},
		{X: c.Finished.High, Name: c.Names.Finished, Row: 2, Ink: p.Muted},
		{X: c.Now, Name: c.Names.Now, Ink: p.Ink, Bold: true},
	}
	dotted := draw.LineStyle{Color: p.Muted, Width: 1.3 * canvas.Px, Dashes: plotters.Dots}
	styles := [momentRows]draw.LineStyle{dotted, dotted, {Color: p.Ink, Width: 1.6 * canvas.Px}}
	var lines []float64
	for i, m := range moments {
		if m.Name != "" {
			line := plotters.Moment{Tracer: t, X: m.X, Style: styles[i]}
			s.gravity.Add(line)
			s.rate.Add(line)
			lines = append(lines, m.X)
		}
	}
	if b := c.Before; b != nil {
		s.gravity.Add(ghostName{t, plotters.Curve{X: b.Hours, Band: b.GravitySG}, c.Names.Before, momentRows, p.Ghost, plate, lines})
	}
	for _, m := range moments {
		m.Tracer, m.Plate, m.Others = t, plate, lines
		s.gravity.Add(m)
	}
	for _, q := range c.Points {
		s.gravity.Add(reading{t, q, p, c})
	}
	s.rate.Add(temperatures{t, c, p})
	for _, q := range c.Foam {
		s.rate.Add(foam{t, q, p})
	}
}

// window shades the honey window: faint where it may be open, stronger where
// it most likely is.
func (s *coursePlots) window(c *Course) {
	w, t := &c.Window, &s.tracer
	if c.Names.Window == "" || !plotters.Finite(w[0].Mid) {
		return
	}
	veil := style.Alpha(c.Honey, 0.10)
	for _, q := range []plotters.Span{{Tracer: t, From: w[0].Low, To: w[1].High, Ink: veil}, {Tracer: t, From: w[0].Mid, To: w[1].Mid, Ink: veil}} {
		s.gravity.Add(q)
		s.rate.Add(q)
	}
	s.gravity.Add(lid{t, w[0].Mid, w[1].Mid, c.Names.Window, c.Honey})
}

func (s *coursePlots) layout(size Size) CourseLayout {
	l := CourseLayout{Size: size, Hours: Range{s.gravity.X.Min, s.gravity.X.Max},
		GravitySG: Range{s.gravity.Y.Min, s.gravity.Y.Max}, RateGPLH: Range{s.rate.Y.Min, s.rate.Y.Max}}
	l.Left, l.GravityTop, l.Right, l.GravityBottom = size.pixels(s.gravity.DataCanvas(s.gravityOn))
	_, l.RateTop, _, l.RateBottom = size.pixels(s.rate.DataCanvas(s.rateOn))
	return l
}

// lid is a thick line over the plot where a span most likely is, named.
type lid struct {
	*plotters.Tracer
	from, to float64
	name     string
	ink      color.Color
}

// Plot is for plot.Plotter.
func (s lid) Plot(c draw.Canvas, p *plot.Plot) {
	t := s.Tracer.On(c, p)
	x0, x1 := t.Held(s.from), t.Held(s.to)
	c.SetColor(s.ink)
	if x1 > x0 {
		t.Box(vg.Rectangle{Min: vg.Point{X: x0, Y: c.Max.Y}, Max: vg.Point{X: x1, Y: c.Max.Y + 3*canvas.Px}})
	}
	// A window near the end has its name end with the plot.
	name := style.Elide(s.name, style.LabelPx, true, float64((c.Max.X-c.Min.X)/canvas.Px))
	x0 = max(min(x0, c.Max.X-vg.Length(style.Width(name, style.LabelPx, true))*canvas.Px), c.Min.X)
	style.Write(&c, vg.Point{X: x0, Y: c.Max.Y + 8*canvas.Px}, name, style.LabelPx, true, s.ink)
}

// ghostName names the outline of what was: where it has fallen there is room
// above it.
type ghostName struct {
	*plotters.Tracer
	of         plotters.Curve
	name       string
	below      int // this many rows of names of moments
	ink, plate color.Color
	lines      []float64 // upright lines that the name keeps clear of where it can
}

// Plot is for plot.Plotter.
func (g ghostName) Plot(c draw.Canvas, p *plot.Plot) {
	t := g.Tracer.On(c, p)
	done := false
	g.of.Runs(plotters.HasBand, func(from, to int) {
		t.A = t.Trace(t.A[:0], &g.of, from, to, plotters.High)
		if n := len(t.A); n > 4 && !done {
			done = true
			i := n * 2 / 3
			free := c.Max.Y - plotters.RowsHigh(g.below)
			for i < n-1 && t.A[i].Y+8*canvas.Px > free {
				i++
			}
			at := t.A[i]
			wide := vg.Length(style.Width(g.name, style.LabelPx, false)) * canvas.Px
			x := min(at.X+6*canvas.Px, c.Max.X-wide)
			for _, line := range g.lines {
				if l := t.To.X(line); x-6*canvas.Px < l && l < x+wide+6*canvas.Px && l-6*canvas.Px-wide > c.Min.X {
					x = l - 6*canvas.Px - wide
				}
			}
			t.Written(vg.Point{X: x, Y: min(style.Level(&c, at.Y)+8*canvas.Px, free)}, g.name, false, g.ink, g.plate)
		}
	})
}

// reading is something seen in the fermenter, on the gravity.
type reading struct {
	*plotters.Tracer
	CoursePoint
	palette *style.Palette
	course  *Course
}

// Plot is for plot.Plotter.
func (r reading) Plot(c draw.Canvas, p *plot.Plot) {
	t := r.Tracer.On(c, p)
	if !t.Holds(r.Hours) {
		return
	}
	x, honey := t.To.X(r.Hours), r.course.Honey
	switch r.Kind {
	case HoneyPlanned:
		t.Glyph(plotters.Wedge, vg.Point{X: x, Y: c.Min.Y + 7*canvas.Px}, 5.5*canvas.Px, honey)
		t.Glyph(plotters.Wedge, vg.Point{X: x, Y: c.Min.Y + 7.4*canvas.Px}, 3.2*canvas.Px, r.palette.Ground)
		return
	case HoneyAdds:
		t.Glyph(plotters.Wedge, vg.Point{X: x, Y: c.Min.Y + 7*canvas.Px}, 5.5*canvas.Px, honey)
		t.Stroke(draw.LineStyle{Color: honey, Width: 1.3 * canvas.Px, Dashes: []vg.Length{3 * canvas.Px, 3 * canvas.Px}},
			vg.Point{X: x, Y: c.Max.Y}, vg.Point{X: x, Y: c.Min.Y + 8*canvas.Px})
		return
	}
	if !plotters.Finite(r.SG) {
		return
	}
	at := vg.Point{X: x, Y: style.Level(&c, t.To.Y(r.SG))}
	ink, ground := r.palette.Ink, r.palette.Ground
	if up, down := t.To.Y(r.SG+r.SD), t.To.Y(r.SG-r.SD); r.Kind != Unused && r.SD > 0 && up-down > 10*canvas.Px {
		t.Stroke(draw.LineStyle{Color: ink, Width: 1.5 * canvas.Px}, vg.Point{X: x, Y: style.Level(&c, down)}, vg.Point{X: x, Y: style.Level(&c, up)})
	}
	switch r.Kind {
	case Unused:
		t.Glyph(plotters.Disc, at, 5*canvas.Px, r.palette.Muted)
		t.Glyph(plotters.Disc, at, 3.6*canvas.Px, ground)
		t.Stroke(draw.LineStyle{Color: r.palette.Muted, Width: 1.4 * canvas.Px},
			at.Add(vg.Point{X: -6 * canvas.Px, Y: -6 * canvas.Px}), at.Add(vg.Point{X: 6 * canvas.Px, Y: 6 * canvas.Px}))
	case Doubted:
		t.Glyph(plotters.Disc, at, 9*canvas.Px, r.course.Warn)
		t.Glyph(plotters.Disc, at, 7.2*canvas.Px, ground)
		t.Glyph(plotters.Disc, at, 4.6*canvas.Px, ink)
	default:
		t.Glyph(plotters.Disc, at, 6*canvas.Px, ground)
		t.Glyph(plotters.Disc, at, 4.6*canvas.Px, ink)
	}
}

// foam stands at the foot of the rate: pointing up while it rises, down when
// it falls.
type foam struct {
	*plotters.Tracer
	CoursePoint
	palette *style.Palette
}

// Plot is for plot.Plotter.
func (f foam) Plot(c draw.Canvas, p *plot.Plot) {
	t := f.Tracer.On(c, p)
	if !t.Holds(f.Hours) {
		return
	}
	ink, at := f.palette.Ink, vg.Point{X: t.To.X(f.Hours), Y: c.Min.Y + 9*canvas.Px}
	if f.Kind == Unused {
		ink = f.palette.Muted
	}
	sign := [...]plotters.Shape{plotters.Disc, plotters.Triangle, plotters.Diamond, plotters.Wedge}[min(max(f.Foam, 0), 3)]
	t.Glyph(sign, at, 6.6*canvas.Px, f.palette.Ground)
	t.Glyph(sign, at, 5*canvas.Px, ink)
	if f.Foam == 0 || f.Kind == Unused {
		t.Glyph(plotters.Disc, at, 3.4*canvas.Px, f.palette.Ground)
	}
}
