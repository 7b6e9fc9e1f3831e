package canvas

import (
	"image"
	"image/color"
	"math"
	"slices"

	"golang.org/x/image/draw"
	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/vector"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// Px is a pixel at scale 1, 1/96 inch, in vg's points. All lengths of the
// pictures are multiples of it.
const Px vg.Length = 72.0 / 96

// Window is a vg.Canvas for pixels that are drawn again and again: the
// window's, and those of a PNG. It is here because a frame with gonum/plot's
// own image canvas takes too long (BenchmarkPictures beside
// BenchmarkPicturesVgimg): that one strokes with a rasteriser over the whole
// picture, opens a typeface for each text, and has to copy the image. Here
//
//   - the image is the caller's, and used again;
//   - a shape is rasterised only where it is, and one that runs to the right
//     and back, as lines and bands do, in upright slabs;
//   - a text is kept as the mask of its letters, put on whole pixels;
//   - a hairline along an axis covers whole pixels.
//
// It belongs to one goroutine at a time.
type Window struct {
	graphics
	dst   *image.RGBA
	scale float64 // of the picture: device pixels in one pixel at scale 1

	fill   vector.Rasterizer
	cover  image.Alpha // coverage of one filling, reused
	inks   map[color.NRGBA]*image.Uniform
	faces  map[font.Font]xfont.Face
	masks  map[maskKey]*image.Alpha
	stroke stroker
	round  []vg.Point // a closed line that is dashed
	letter sfnt.Buffer
}

var _ vg.Canvas = (*Window)(nil)

// maskKey is a text in a typeface whose size is in device pixels.
type maskKey struct {
	font.Font
	text string
}

// mostMasks bounds the kept texts. A picture has about twenty; more pile up
// only while axes glide or a window is being resized.
const mostMasks = 400

// slabPx is how wide the slabs are: narrow enough that a sloping line leaves
// little empty ground in its slab.
const slabPx = 40

// hairlinePx is the width at scale 1 up to which a line along an axis is put on
// whole pixels. A wider one looks right wherever it stands, and would hop.
const hairlinePx = 2

func NewWindow() *Window {
	return &Window{
		inks:  map[color.NRGBA]*image.Uniform{},
		faces: map[font.Font]xfont.Face{},
		masks: map[maskKey]*image.Alpha{},
	}
}

// On begins to draw on an image; its lower left corner is the origin.
func (r *Window) On(dst *image.RGBA, scale float64) *Window {
	r.dst, r.scale = dst, scale
	r.Begin(scale/float64(Px), 0, float64(dst.Rect.Dy()))
	return r
}

// Release lets go of the image, which is the caller's.
func (r *Window) Release() { r.dst = nil }

// Clear gives all pixels one opaque colour.
func (r *Window) Clear(c color.NRGBA) {
	draw.Draw(r.dst, r.dst.Rect, r.uniform(c), image.Point{}, draw.Src)
}

func (r *Window) uniform(c color.NRGBA) *image.Uniform {
	u, ok := r.inks[c]
	if !ok {
		if len(r.inks) > 100 {
			clear(r.inks)
		}
		u = image.NewUniform(color.RGBAModel.Convert(c))
		r.inks[c] = u
	}
	return u
}

// arcFlatness is how far a corner may lie off its arc, in pixels.
const arcFlatness = 0.05

// Fill is for vg.Canvas.
func (r *Window) Fill(path vg.Path) {
	r.flatten(path, arcFlatness)
	r.fillLines()
}

// fillLines fills what was flattened.
func (r *Window) fillLines() {
	if len(r.lines) == 1 {
		if a, b, ok := chains(r.points); ok {
			r.strip(a, b)
			return
		}
	}
	r.outlines(r.points, r.lines)
}

// outlines fills outlines together, within the box around them.
func (r *Window) outlines(points []vg.Point, lines []polyline) {
	box := bounds(points, nil).Intersect(r.dst.Rect)
	if box.Empty() {
		return
	}
	r.fill.Reset(box.Dx(), box.Dy())
	for _, l := range lines {
		r.along(points[l.from:l.to], box.Min, true)
		r.fill.ClosePath()
	}
	r.blend(box, r.ink)
}

// along adds a line to what is filled.
func (r *Window) along(line []vg.Point, o image.Point, move bool) {
	ox, oy := vg.Length(o.X), vg.Length(o.Y)
	for i, p := range line {
		if x, y := float32(p.X-ox), float32(p.Y-oy); move && i == 0 {
			r.fill.MoveTo(x, y)
		} else {
			r.fill.LineTo(x, y)
		}
	}
}

// back is along from the end.
func (r *Window) back(line []vg.Point, o image.Point) {
	ox, oy := vg.Length(o.X), vg.Length(o.Y)
	for i := len(line) - 1; i >= 0; i-- {
		r.fill.LineTo(float32(line[i].X-ox), float32(line[i].Y-oy))
	}
}

// chains says whether an outline runs to the right and then back to the left, to
// between its first corner and its second, and is wide enough to make slabs worth it:
// a slab knows nothing of an edge that closes the outline from elsewhere. b is the way
// back, still in its order, from where a ends.
func chains(outline []vg.Point) (a, b []vg.Point, ok bool) {
	turn := 0
	for turn+1 < len(outline) && outline[turn+1].X > outline[turn].X {
		turn++
	}
	for i := turn + 1; i < len(outline); i++ {
		if outline[i].X > outline[i-1].X {
			return nil, nil, false
		}
	}
	a, b = outline[:turn+1], outline[turn:]
	if len(a) < 2 || len(b) < 3 || a[turn].X-a[0].X <= 1.5*slabPx {
		return nil, nil, false
	}
	end := b[len(b)-1].X
	return a, b, a[0].X <= end && end <= a[1].X
}

// strip fills between a, which runs to the right, and b, which runs back, slab
// by slab. Each slab takes the pieces of both that reach over its sides; the
// rasteriser cuts at its own bounds, so coverage is the same as if all had
// been filled at once.
func (r *Window) strip(a, b []vg.Point) {
	left := math.Floor(float64(min(a[0].X, b[len(b)-1].X)))
	right := math.Ceil(float64(max(a[len(a)-1].X, b[0].X)))
	left, right = math.Max(left, float64(r.dst.Rect.Min.X)), math.Min(right, float64(r.dst.Rect.Max.X))
	from, last := 0, len(b)-1 // of a; of b, which is walked from its end
	for x0 := left; x0 < right; x0 += slabPx {
		x1 := math.Min(x0+slabPx, right)
		for from < len(a)-2 && float64(a[from+1].X) <= x0 {
			from++
		}
		to := from + 1
		for to < len(a)-1 && float64(a[to].X) < x1 {
			to++
		}
		for last > 1 && float64(b[last-1].X) <= x0 {
			last--
		}
		first := last - 1
		for first > 0 && float64(b[first].X) < x1 {
			first--
		}
		box := bounds(a[from:to+1], b[first:last+1])
		box.Min.X, box.Max.X = int(x0), int(x1)
		if box = box.Intersect(r.dst.Rect); box.Empty() {
			continue
		}
		r.fill.Reset(box.Dx(), box.Dy())
		r.along(a[from:to+1], box.Min, true)
		r.along(b[first:last+1], box.Min, false)
		r.fill.ClosePath()
		r.blend(box, r.ink)
	}
}

// Stroke is for vg.Canvas.
func (r *Window) Stroke(path vg.Path) {
	stretch := r.matrix.stretch()
	width := float64(r.width) * stretch
	if !(width > 0) {
		return
	}
	r.flatten(path, arcFlatness)
	if len(r.lines) == 1 && len(r.points) == 2 && width <= hairlinePx*r.scale+1e-9 {
		width = r.onPixels(r.points, width)
	}
	for _, l := range r.lines {
		line := r.points[l.from:l.to]
		if len(line) < 2 {
			continue
		}
		if l.closed && len(r.dashes) == 0 {
			r.ring(line, width)
			continue
		}
		if l.closed {
			r.round = append(append(r.round[:0], line...), line[0])
			r.pieceOf(r.round, width, stretch)
			continue
		}
		r.pieceOf(line, width, stretch)
	}
}

func (r *Window) pieceOf(line []vg.Point, width, stretch float64) {
	r.stroke.pieces(line, r.dashes, float64(r.offset), stretch, func(piece []vg.Point) {
		left, right := r.stroke.sides(piece, width, false)
		r.between(left, right)
	})
}

// between fills between the two sides of a line.
func (r *Window) between(left, right []vg.Point) {
	if n := len(left); float64(left[n-1].X-left[0].X) > 1.5*slabPx && rising(left) && rising(right) {
		slices.Reverse(right)
		r.strip(left, right)
		return
	}
	box := bounds(left, right).Intersect(r.dst.Rect)
	if box.Empty() {
		return
	}
	r.fill.Reset(box.Dx(), box.Dy())
	r.along(left, box.Min, true)
	r.back(right, box.Min)
	r.fill.ClosePath()
	r.blend(box, r.ink)
}

func rising(line []vg.Point) bool {
	for i := 1; i < len(line); i++ {
		if line[i].X < line[i-1].X {
			return false
		}
	}
	return true
}

// ring strokes a closed line: its outer side, and its inner the other way round.
func (r *Window) ring(line []vg.Point, width float64) {
	left, right := r.stroke.sides(line, width, true)
	box := bounds(left, right).Intersect(r.dst.Rect)
	if box.Empty() {
		return
	}
	r.fill.Reset(box.Dx(), box.Dy())
	r.along(left, box.Min, true)
	r.fill.ClosePath()
	last := right[len(right)-1]
	r.fill.MoveTo(float32(last.X)-float32(box.Min.X), float32(last.Y)-float32(box.Min.Y))
	r.back(right, box.Min)
	r.fill.ClosePath()
	r.blend(box, r.ink)
}

// onPixels moves a line along an axis so that it covers whole pixels, and gives
// its width in them. Other lines stay as they are.
func (r *Window) onPixels(line []vg.Point, width float64) float64 {
	a, b := &line[0], &line[1]
	if (a.X == b.X) == (a.Y == b.Y) {
		return width
	}
	width = math.Max(1, math.Round(width))
	whole := func(v vg.Length) vg.Length {
		return vg.Length(math.Round(float64(v)-width/2) + width/2)
	}
	round := func(v vg.Length) vg.Length { return vg.Length(math.Round(float64(v))) }
	if a.X == b.X {
		a.X, a.Y, b.Y = whole(a.X), round(a.Y), round(b.Y) // dots begin on a pixel too
		b.X = a.X
	} else {
		a.Y, a.X, b.X = whole(a.Y), round(a.X), round(b.X)
		b.Y = a.Y
	}
	return width
}

// bounds is the smallest rectangle of whole pixels around two lines.
func bounds(a, b []vg.Point) image.Rectangle {
	if len(a) == 0 {
		return image.Rectangle{}
	}
	x0, y0, x1, y1 := a[0].X, a[0].Y, a[0].X, a[0].Y
	for _, line := range [...][]vg.Point{a, b} {
		for _, p := range line {
			x0, x1 = min(x0, p.X), max(x1, p.X)
			y0, y1 = min(y0, p.Y), max(y1, p.Y)
		}
	}
	return image.Rect(
		int(math.Floor(float64(x0))), int(math.Floor(float64(y0))),
		int(math.Ceil(float64(x1))), int(math.Ceil(float64(y1))),
	)
}
