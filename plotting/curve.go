package plotting

import (
	"math"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/plot/vg"

	"skep/calc"
)

// tracer turns a series into lines on the page. It keeps its slices, so that
// a moving picture allocates little.
type tracer struct {
	xs, ys  []float64
	cutter  []point
	a, b    []point
	dash    []float64
	outline []point
}

// runs calls yield for each stretch without a gap: every value usable and the
// temperatures rising.
func runs(s *Series, usable func(calc.Band) bool, yield func(from, to int)) {
	n, from := s.length(), -1
	for i := 0; i < n; i++ {
		good := finite(s.TemperatureC[i]) && usable(s.Band[i])
		if good && from >= 0 && s.TemperatureC[i] <= s.TemperatureC[i-1] {
			yield(from, i)
			from = i
		}
		switch {
		case good && from < 0:
			from = i
		case !good && from >= 0:
			yield(from, i)
			from = -1
		}
	}
	if from >= 0 {
		yield(from, n)
	}
}

// smoothOver is the spacing in pixels above which straight pieces show as
// corners; between such points a monotone cubic is drawn instead, which puts
// in no hump of its own. smoothStep is the spacing of what is drawn then.
const (
	smoothOver = 4.0
	smoothStep = 3.0
)

// trace appends the line of one value of a run to dst, thinned to no more
// than a point a pixel, or filled in where points stand far apart. Called for
// two values of one run it gives equally many points at the same x.
func (t *tracer) trace(dst []point, l *Layout, s *Series, from, to int, value func(calc.Band) float64) []point {
	t.xs, t.ys = t.xs[:0], t.ys[:0]
	last := math.Inf(-1)
	for i := from; i < to; i++ {
		x := l.PixelX(s.TemperatureC[i])
		if x-last < 1 {
			if i < to-1 || x <= last {
				continue
			}
			if n := len(t.xs); n > 1 {
				t.xs, t.ys = t.xs[:n-1], t.ys[:n-1] // the end matters more than its neighbour
			}
		}
		t.xs, t.ys = append(t.xs, x), append(t.ys, l.PixelY(value(s.Band[i])))
		last = x
	}
	n := len(t.xs)
	if n < 2 {
		return dst
	}
	first := len(dst)
	if k := l.Size.Scale; n > 2 && (t.xs[n-1]-t.xs[0])/float64(n-1) > smoothOver*k {
		dst = t.smooth(dst, l, smoothStep*k)
	} else {
		for i, x := range t.xs {
			dst = append(dst, at(x, t.ys[i]))
		}
	}
	return trim(dst, first, l.Left, l.Right)
}

// smooth appends a monotone cubic (Fritsch and Butland 1984) through xs, ys.
func (t *tracer) smooth(dst []point, l *Layout, step float64) []point {
	var cubic interp.FritschButland
	if err := cubic.Fit(t.xs, t.ys); err != nil {
		return dst
	}
	for i := 1; i < len(t.xs); i++ {
		x0, x1 := t.xs[i-1], t.xs[i]
		dst = append(dst, at(x0, t.ys[i-1]))
		if x1 < l.Left || x0 > l.Right {
			continue
		}
		pieces := math.Min(math.Ceil((x1-x0)/step), mostPx)
		for j := 1.0; j < pieces; j++ {
			x := x0 + (x1-x0)*j/pieces
			dst = append(dst, at(x, cubic.Predict(x)))
		}
	}
	n := len(t.xs) - 1
	return append(dst, at(t.xs[n], t.ys[n]))
}

// trim cuts the line dst[first:], which runs left to right, to a stretch of x.
func trim(dst []point, first int, left, right float64) []point {
	line := dst[first:]
	lo, hi := 0, len(line)-1
	for lo < hi && float64(line[lo+1].X) <= left {
		lo++
	}
	for hi > lo && float64(line[hi-1].X) >= right {
		hi--
	}
	if hi <= lo || float64(line[hi].X) <= left || float64(line[lo].X) >= right {
		return dst[:first]
	}
	if float64(line[lo].X) < left {
		line[lo] = crossing(line[lo], line[lo+1], left)
	}
	if float64(line[hi].X) > right {
		line[hi] = crossing(line[hi-1], line[hi], right)
	}
	n := copy(line, line[lo:hi+1])
	return dst[:first+n]
}

func crossing(a, b point, x float64) point {
	f := (vg.Length(x) - a.X) / (b.X - a.X)
	return point{X: vg.Length(x), Y: a.Y + f*(b.Y-a.Y)}
}

// within yields the parts of a line between two heights.
func (t *tracer) within(line []point, top, bottom float64, yield func([]point)) {
	lo, hi := vg.Length(top), vg.Length(bottom)
	inside := true
	for _, p := range line {
		inside = inside && lo <= p.Y && p.Y <= hi
	}
	if inside {
		yield(line)
		return
	}
	part := t.cutter[:0]
	for i := 1; i < len(line); i++ {
		a, b, ok := clipSegment(line[i-1], line[i], lo, hi)
		if ok && len(part) > 0 && part[len(part)-1] != a {
			yield(part)
			part = part[:0]
		}
		if ok {
			if len(part) == 0 {
				part = append(part, a)
			}
			part = append(part, b)
		}
	}
	if len(part) > 1 {
		yield(part)
	}
	t.cutter = part[:0]
}

func clipSegment(a, b point, lo, hi vg.Length) (point, point, bool) {
	if (a.Y < lo && b.Y < lo) || (a.Y > hi && b.Y > hi) {
		return a, b, false
	}
	cut := func(p, q point) point { // p moved onto the edge it lies beyond
		edge := min(max(p.Y, lo), hi)
		if edge == p.Y {
			return p
		}
		return point{X: p.X + (edge-p.Y)/(q.Y-p.Y)*(q.X-p.X), Y: edge}
	}
	return cut(a, b), cut(b, a), true
}

// squeeze keeps a line between two heights by flattening what lies beyond, as
// the edge of a filled band wants it.
func squeeze(line []point, top, bottom float64) {
	for i := range line {
		line[i].Y = min(max(line[i].Y, vg.Length(top)), vg.Length(bottom))
	}
}
