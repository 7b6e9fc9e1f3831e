package canvas

import (
	"image"
	"math"

	"golang.org/x/image/draw"
	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/f64"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// FillString is for vg.Canvas. The mask goes on whole pixels: letters stay
// crisp and the masks few. Text that is turned is filled as outlines.
func (r *Window) FillString(f font.Face, pt vg.Point, s string) {
	size := float64(f.Font.Size) * r.matrix.stretch()
	if s == "" || !(size > 0) {
		return
	}
	if !r.matrix.upright() {
		r.fillOutlines(f, pt, s)
		return
	}
	m := r.mask(f, size, s)
	if m == nil {
		return
	}
	p := r.matrix.of(pt)
	to := image.Pt(int(math.Round(float64(p.X))), int(math.Round(float64(p.Y))))
	draw.DrawMask(r.dst, m.Rect.Add(to), r.uniform(r.ink), image.Point{}, m, m.Rect.Min, draw.Over)
}

// mask is a text as coverage; its bounds are around the start of its base line.
func (r *Window) mask(f font.Face, size float64, s string) *image.Alpha {
	f.Font.Size = font.Length(size)
	key := maskKey{f.Font, s}
	if m, ok := r.masks[key]; ok {
		return m
	}
	if len(r.masks) >= mostMasks {
		clear(r.masks)
	}
	face, ok := r.faces[f.Font]
	if !ok {
		if len(r.faces) > 24 { // many scales in a row: start afresh
			clear(r.faces)
		}
		face = f.FontFace(72)
		r.faces[f.Font] = face
	}
	b, _ := xfont.BoundString(face, s)
	m := image.NewAlpha(image.Rect(b.Min.X.Floor(), b.Min.Y.Floor(), b.Max.X.Ceil()+1, b.Max.Y.Ceil()+1))
	(&xfont.Drawer{Dst: m, Src: image.Opaque, Face: face, Dot: fixed.Point26_6{}}).DrawString(s)
	r.masks[key] = m
	return m
}

// fillOutlines fills the outlines of letters, whichever way they stand.
func (r *Window) fillOutlines(f font.Face, pt vg.Point, s string) {
	var path vg.Path
	em := fixed.Int26_6(f.Face.UnitsPerEm())
	unit := f.Font.Size / vg.Length(em)
	to := func(p fixed.Point26_6) vg.Point {
		return pt.Add(vg.Point{X: vg.Length(p.X) * unit, Y: -vg.Length(p.Y) * unit})
	}
	for _, c := range s {
		i, err := f.Face.GlyphIndex(&r.letter, c)
		if err != nil {
			continue
		}
		segments, err := f.Face.LoadGlyph(&r.letter, i, em, nil)
		if err != nil {
			continue
		}
		for _, g := range segments {
			switch g.Op {
			case sfnt.SegmentOpMoveTo:
				path.Move(to(g.Args[0]))
			case sfnt.SegmentOpLineTo:
				path.Line(to(g.Args[0]))
			case sfnt.SegmentOpQuadTo:
				path.QuadTo(to(g.Args[0]), to(g.Args[1]))
			case sfnt.SegmentOpCubeTo:
				path.CubeTo(to(g.Args[0]), to(g.Args[1]), to(g.Args[2]))
			}
		}
		if wide, err := f.Face.GlyphAdvance(&r.letter, i, em, xfont.HintingNone); err == nil {
			pt.X += vg.Length(wide) * unit
		}
	}
	r.flatten(path, arcFlatness)
	r.outlines(r.points, r.lines)
}

// DrawImage is for vg.Canvas.
func (r *Window) DrawImage(rect vg.Rectangle, img image.Image) {
	b := img.Bounds()
	if b.Empty() {
		return
	}
	// The image's own pixels run down from its upper left corner.
	m := r.matrix.times(matrix{1, 0, 0, 1, float64(rect.Min.X), float64(rect.Max.Y)})
	size := rect.Size()
	m = m.times(matrix{float64(size.X) / float64(b.Dx()), 0, 0, -float64(size.Y) / float64(b.Dy()), 0, 0})
	m = m.times(matrix{1, 0, 0, 1, -float64(b.Min.X), -float64(b.Min.Y)})
	draw.BiLinear.Transform(r.dst, f64.Aff3{m.a, m.c, m.e, m.b, m.d, m.f}, img, b, draw.Over, nil)
}
