package plotting

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// rasterPen draws straight into pixels. It beats the general rasteriser
// because it knows that a picture's lines run left to right: each is filled in
// upright slabs just high enough for it, and texts are kept as masks.
//
// A rasterPen belongs to one goroutine at a time.
type rasterPen struct {
	dst    *image.RGBA
	fill   vector.Rasterizer
	cover  image.Alpha // coverage of one filling, reused
	ink    map[color.NRGBA]*image.Uniform
	faces  map[faceKey]xfont.Face
	masks  map[maskKey]mask
	stroke stroker
}

type faceKey struct {
	px   float64
	bold bool
}

type maskKey struct {
	faceKey
	text string
}

// mask is a text as coverage; its bounds are around the start of its base line.
type mask struct{ img *image.Alpha }

// mostMasks bounds the kept texts. A picture has about twenty; more pile up
// only while axes glide or a window is being resized.
const mostMasks = 400

// slabPx is how wide the slabs of a strip are: narrow enough that a sloping
// line leaves little empty ground in its slab.
const slabPx = 40

func newRasterPen() *rasterPen {
	return &rasterPen{
		ink:   map[color.NRGBA]*image.Uniform{},
		faces: map[faceKey]xfont.Face{},
		masks: map[maskKey]mask{},
	}
}

func (r *rasterPen) uniform(c color.NRGBA) *image.Uniform {
	u, ok := r.ink[c]
	if !ok {
		if len(r.ink) > 100 {
			clear(r.ink)
		}
		u = image.NewUniform(color.RGBAModel.Convert(c))
		r.ink[c] = u
	}
	return u
}

func (r *rasterPen) area(path []point, c color.NRGBA) {
	box := bounds(path, nil).Intersect(r.dst.Rect)
	if box.Empty() {
		return
	}
	r.fill.Reset(box.Dx(), box.Dy())
	r.outline(path, box.Min)
	r.blend(box, c)
}

func (r *rasterPen) outline(path []point, o image.Point) {
	ox, oy := float64(o.X), float64(o.Y)
	for i, p := range path {
		x, y := float32(float64(p.X)-ox), float32(float64(p.Y)-oy)
		if i == 0 {
			r.fill.MoveTo(x, y)
		} else {
			r.fill.LineTo(x, y)
		}
	}
	r.fill.ClosePath()
}

// strip fills slab by slab. Each slab takes the points that reach over both
// of its sides; the rasteriser cuts at its own bounds, so coverage is the same
// as if the whole strip had been filled at once.
func (r *rasterPen) strip(a, b []point, c color.NRGBA) {
	n := min(len(a), len(b))
	if n < 2 {
		return
	}
	left := math.Floor(float64(min(a[0].X, b[0].X)))
	right := math.Ceil(float64(max(a[n-1].X, b[n-1].X)))
	left, right = math.Max(left, float64(r.dst.Rect.Min.X)), math.Min(right, float64(r.dst.Rect.Max.X))
	from := 0
	for x0 := left; x0 < right; x0 += slabPx {
		x1 := math.Min(x0+slabPx, right)
		for from < n-2 && float64(max(a[from+1].X, b[from+1].X)) <= x0 {
			from++
		}
		to := from + 1
		for to < n-1 && float64(min(a[to].X, b[to].X)) < x1 {
			to++
		}
		box := bounds(a[from:to+1], b[from:to+1])
		box.Min.X, box.Max.X = int(x0), int(x1)
		if box = box.Intersect(r.dst.Rect); box.Empty() {
			continue
		}
		r.fill.Reset(box.Dx(), box.Dy())
		r.around(a[from:to+1], b[from:to+1], box.Min)
		r.blend(box, c)
	}
}

// around draws along a and back along b.
func (r *rasterPen) around(a, b []point, o image.Point) {
	ox, oy := float64(o.X), float64(o.Y)
	r.fill.MoveTo(float32(float64(a[0].X)-ox), float32(float64(a[0].Y)-oy))
	for _, p := range a[1:] {
		r.fill.LineTo(float32(float64(p.X)-ox), float32(float64(p.Y)-oy))
	}
	for i := len(b) - 1; i >= 0; i-- {
		r.fill.LineTo(float32(float64(b[i].X)-ox), float32(float64(b[i].Y)-oy))
	}
	r.fill.ClosePath()
}

func (r *rasterPen) line(path []point, width float64, dash []float64, c color.NRGBA) {
	if !(width > 0) || len(path) < 2 {
		return
	}
	r.stroke.pieces(path, dash, func(piece []point) {
		left, right := r.stroke.sides(piece, width)
		if float64(piece[len(piece)-1].X-piece[0].X) > 1.5*slabPx {
			r.strip(left, right, c)
			return
		}
		box := bounds(left, right).Intersect(r.dst.Rect)
		if box.Empty() {
			return
		}
		r.fill.Reset(box.Dx(), box.Dy())
		r.around(left, right, box.Min)
		r.blend(box, c)
	})
}

// text puts the mask on whole pixels: letters stay crisp and the masks few.
func (r *rasterPen) text(x, y float64, s string, px float64, bold bool, c color.NRGBA) {
	if s == "" {
		return
	}
	m := r.mask(s, faceKey{px, bold})
	if m.img == nil {
		return
	}
	at := image.Pt(int(math.Round(x)), int(math.Round(y)))
	box := m.img.Rect.Add(at)
	draw.DrawMask(r.dst, box, r.uniform(c), image.Point{}, m.img, m.img.Rect.Min, draw.Over)
}

func (r *rasterPen) mask(s string, key faceKey) mask {
	if m, ok := r.masks[maskKey{key, s}]; ok {
		return m
	}
	if len(r.masks) >= mostMasks {
		clear(r.masks)
	}
	face := r.face(key)
	if face == nil {
		return mask{}
	}
	b, _ := xfont.BoundString(face, s)
	box := image.Rect(b.Min.X.Floor(), b.Min.Y.Floor(), b.Max.X.Ceil()+1, b.Max.Y.Ceil()+1)
	m := mask{image.NewAlpha(box)}
	(&xfont.Drawer{Dst: m.img, Src: image.Opaque, Face: face, Dot: fixed.Point26_6{}}).DrawString(s)
	r.masks[maskKey{key, s}] = m
	return m
}

func (r *rasterPen) face(key faceKey) xfont.Face {
	if f, ok := r.faces[key]; ok {
		return f
	}
	if len(r.faces) > 24 { // many scales in a row: start afresh
		clear(r.faces)
	}
	f, err := opentype.NewFace(openFont(key.bold), &opentype.FaceOptions{Size: key.px, DPI: 72})
	if err != nil {
		return nil
	}
	r.faces[key] = f
	return f
}

// bounds is the smallest rectangle of whole pixels around two lines.
func bounds(a, b []point) image.Rectangle {
	if len(a) == 0 {
		return image.Rectangle{}
	}
	x0, y0, x1, y1 := a[0].X, a[0].Y, a[0].X, a[0].Y
	for _, line := range [...][]point{a, b} {
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
