package plotters

import (
	"math"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/calc"
	"skep/plotting/canvas"
	"skep/plotting/style"
)

// Curve is a quantity with its doubt against another; a NaN leaves a gap.
type Curve struct {
	X    []float64
	Band []calc.Band
}

func Low(b calc.Band) float64  { return b.Low }
func Mid(b calc.Band) float64  { return b.Mid }
func High(b calc.Band) float64 { return b.High }

func hasMid(b calc.Band) bool  { return Finite(b.Mid) }
func HasBand(b calc.Band) bool { return Finite(b.Low) && Finite(b.High) }

// length is how many points can be used.
func (v *Curve) length() int { return min(len(v.X), len(v.Band)) }

// At is the band at x, read off the line between its neighbours; NaN outside.
func (v *Curve) At(x float64) calc.Band {
	nan := calc.Band{Low: math.NaN(), Mid: math.NaN(), High: math.NaN()}
	if !Finite(x) {
		return nan
	}
	for i := 1; i < v.length(); i++ {
		x0, x1 := v.X[i-1], v.X[i]
		if !(x0 <= x && x <= x1 && x0 < x1) {
			continue
		}
		f := (x - x0) / (x1 - x0)
		a, b := v.Band[i-1], v.Band[i]
		return calc.Band{
			Low:  a.Low + f*(b.Low-a.Low),
			Mid:  a.Mid + f*(b.Mid-a.Mid),
			High: a.High + f*(b.High-a.High),
		}
	}
	return nan
}

// Runs calls yield for each stretch without a gap: every value usable and x
// rising.
func (v *Curve) Runs(usable func(calc.Band) bool, yield func(from, to int)) {
	n, from := v.length(), -1
	for i := 0; i < n; i++ {
		good := Finite(v.X[i]) && usable(v.Band[i])
		if good && from >= 0 && v.X[i] <= v.X[i-1] {
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

// Tracer turns curves into lines on a canvas. It keeps its slices, so that a
// moving picture allocates little; one goroutine uses it at a time.
type Tracer struct {
	C  draw.Canvas
	To style.Scale

	xs, ys []float64
	cubic  interp.FritschButland
	cutter []vg.Point
	A, b   []vg.Point
	Path   vg.Path
	Dash   []vg.Length
}

// smoothOver is the spacing above which straight pieces show as corners;
// between such points a monotone cubic is drawn instead, which puts in no hump
// of its own. smoothStep is the spacing of what is drawn then.
const (
	smoothOver = 4 * canvas.Px
	smoothStep = 3 * canvas.Px
	mostPieces = 8192 // of one such stretch, wider than any picture
)

// Trace appends the line of one value of a run to dst, thinned to no more
// than a point a pixel, or filled in where points stand far apart. Called for
// two values of one run it gives equally many points at the same x.
func (t *Tracer) Trace(dst []vg.Point, v *Curve, from, to int, value func(calc.Band) float64) []vg.Point {
	t.xs, t.ys = t.xs[:0], t.ys[:0]
	last := math.Inf(-1)
	for i := from; i < to; i++ {
		x := float64(t.To.X(v.X[i]))
		if x-last < float64(canvas.Px) {
			if i < to-1 || x <= last {
				continue
			}
			if n := len(t.xs); n > 1 {
				t.xs, t.ys = t.xs[:n-1], t.ys[:n-1] // the end matters more than its neighbour
			}
		}
		t.xs, t.ys = append(t.xs, x), append(t.ys, float64(t.To.Y(value(v.Band[i]))))
		last = x
	}
	n := len(t.xs)
	if n < 2 {
		return dst
	}
	first := len(dst)
	if n > 2 && (t.xs[n-1]-t.xs[0])/float64(n-1) > float64(smoothOver) {
		dst = t.smooth(dst)
	} else {
		for i, x := range t.xs {
			dst = append(dst, canvas.Point(x, t.ys[i]))
		}
	}
	return trim(dst, first, float64(t.C.Min.X), float64(t.C.Max.X))
}

// smooth appends a monotone cubic (Fritsch and Butland 1984) through xs, ys.
func (t *Tracer) smooth(dst []vg.Point) []vg.Point {
	if err := t.cubic.Fit(t.xs, t.ys); err != nil {
		return dst
	}
	for i := 1; i < len(t.xs); i++ {
		x0, x1 := t.xs[i-1], t.xs[i]
		dst = append(dst, canvas.Point(x0, t.ys[i-1]))
		if x1 < float64(t.C.Min.X) || x0 > float64(t.C.Max.X) {
			continue
		}
		pieces := math.Min(math.Ceil((x1-x0)/float64(smoothStep)), mostPieces)
		for j := 1.0; j < pieces; j++ {
			x := x0 + (x1-x0)*j/pieces
			dst = append(dst, canvas.Point(x, t.cubic.Predict(x)))
		}
	}
	n := len(t.xs) - 1
	return append(dst, canvas.Point(t.xs[n], t.ys[n]))
}

// trim cuts the line dst[first:], which runs left to right, to a stretch of x.
func trim(dst []vg.Point, first int, left, right float64) []vg.Point {
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

func crossing(a, b vg.Point, x float64) vg.Point {
	f := (vg.Length(x) - a.X) / (b.X - a.X)
	return vg.Point{X: vg.Length(x), Y: a.Y + f*(b.Y-a.Y)}
}

// within yields the parts of a line between the canvas's foot and top.
func (t *Tracer) within(line []vg.Point, yield func([]vg.Point)) {
	lo, hi := t.C.Min.Y, t.C.Max.Y
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

func clipSegment(a, b vg.Point, lo, hi vg.Length) (vg.Point, vg.Point, bool) {
	if (a.Y < lo && b.Y < lo) || (a.Y > hi && b.Y > hi) {
		return a, b, false
	}
	cut := func(p, q vg.Point) vg.Point { // p moved onto the edge it lies beyond
		edge := min(max(p.Y, lo), hi)
		if edge == p.Y {
			return p
		}
		return vg.Point{X: p.X + (edge-p.Y)/(q.Y-p.Y)*(q.X-p.X), Y: edge}
	}
	return cut(a, b), cut(b, a), true
}

// Stroke strokes a line; style.Color must be set.
func (t *Tracer) Stroke(style draw.LineStyle, line ...vg.Point) {
	if len(line) < 2 {
		return
	}
	t.Path = t.Path[:0]
	t.Path.Move(line[0])
	for _, p := range line[1:] {
		t.Path.Line(p)
	}
	t.C.SetLineStyle(style)
	t.C.Stroke(t.Path)
}

// Box fills an upright rectangle.
func (t *Tracer) Box(c vg.Rectangle) {
	t.Path = t.Path[:0]
	t.Path.Move(c.Min)
	t.Path.Line(vg.Point{X: c.Max.X, Y: c.Min.Y})
	t.Path.Line(c.Max)
	t.Path.Line(vg.Point{X: c.Min.X, Y: c.Max.Y})
	t.Path.Close()
	t.C.Fill(t.Path)
}

func Finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
