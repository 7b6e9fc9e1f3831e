package plotting

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/plotting/canvas"
	"skep/plotting/plotters"
	"skep/plotting/style"
)

// KeptAt is a stretch of a fermentation at one temperature.
type KeptAt struct{ FromHours, ToHours, TemperatureC float64 }

// leastStepC is the smallest change that is a step and not rounding, K.
const leastStepC = 0.05

// StretchesOf are the stretches of temperatures by the hour; fewer than two say that
// nothing changes.
func StretchesOf(hours, temperatureC []float64) []KeptAt {
	var out []KeptAt
	for i := range min(len(hours), len(temperatureC)) {
		h, c := hours[i], temperatureC[i]
		if !plotters.Finite(h) || !plotters.Finite(c) {
			continue
		}
		if n := len(out); n > 0 {
			out[n-1].ToHours = h
			if math.Abs(out[n-1].TemperatureC-c) < leastStepC {
				continue
			}
		}
		out = append(out, KeptAt{h, h, c})
	}
	return out
}

// temperatures is the programme of a fermentation as a thin line of steps, each with
// its temperature written on it, and the temperatures that were measured as small
// diamonds. It has a scale of its own, from the coldest to the warmest.
type temperatures struct {
	*plotters.Tracer
	course  *Course
	palette *style.Palette
}

// Plot is for plot.Plotter.
func (s temperatures) Plot(c draw.Canvas, p *plot.Plot) {
	t := s.Tracer.On(c, p)
	stretches := StretchesOf(s.course.After.Hours, s.course.After.TemperatureC)
	if len(stretches) == 0 || len(stretches) < 2 && len(s.course.Measured) == 0 {
		return
	}
	low, high := math.Inf(1), math.Inf(-1)
	see := func(v float64) { low, high = math.Min(low, v), math.Max(high, v) }
	for _, k := range stretches {
		see(k.TemperatureC)
	}
	for _, m := range s.course.Measured {
		see(m.TemperatureC)
	}
	if high-low < 4 { // a kelvin must not look like a leap
		mid := (low + high) / 2
		low, high = mid-2, mid+2
	}
	foot, room := c.Min.Y+16*canvas.Px, c.Max.Y-c.Min.Y-34*canvas.Px
	if room < 8*canvas.Px {
		return
	}
	y := func(v float64) vg.Length { return foot + vg.Length((v-low)/(high-low))*room }
	stroke := draw.LineStyle{Color: s.palette.Muted, Width: 1.4 * canvas.Px, Dashes: []vg.Length{5 * canvas.Px, 2 * canvas.Px}}
	last := c.Min.X - canvas.Px
	for i, k := range stretches {
		from, to := t.Held(k.FromHours), t.Held(k.ToHours)
		if i > 0 && t.Holds(k.FromHours) {
			t.Stroke(stroke, vg.Point{X: from, Y: y(stretches[i-1].TemperatureC)}, vg.Point{X: from, Y: y(k.TemperatureC)})
		}
		if to <= from {
			continue
		}
		t.Stroke(stroke, vg.Point{X: from, Y: y(k.TemperatureC)}, vg.Point{X: to, Y: y(k.TemperatureC)})
		if s.course.TemperatureText == nil {
			continue
		}
		name := s.course.TemperatureText(k.TemperatureC)
		wide := vg.Length(style.Width(name, style.LabelPx, false)) * canvas.Px
		left := min(from+5*canvas.Px, c.Max.X-wide)
		if left < last { // the step before is too short for both names
			continue
		}
		last = left + wide + 6*canvas.Px
		style.Write(&c, vg.Point{X: left, Y: y(k.TemperatureC) + 5*canvas.Px}, name, style.LabelPx, false, s.palette.Muted)
	}
	for _, m := range s.course.Measured {
		if t.Holds(m.FromHours) {
			at := vg.Point{X: t.To.X(m.FromHours), Y: y(m.TemperatureC)}
			t.Glyph(plotters.Diamond, at, 5*canvas.Px, s.palette.Ground)
			t.Glyph(plotters.Diamond, at, 3.6*canvas.Px, s.palette.Muted)
		}
	}
}
