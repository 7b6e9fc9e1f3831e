package canvas

import (
	"image"
	"image/color"
	"image/draw"
)

// blend lays what was filled over the picture. The rasteriser could do it too,
// but touches every pixel with four divisions; most pixels around a line have
// no coverage, and skipping them halves the time of a picture.
func (r *Window) blend(box image.Rectangle, c color.NRGBA) {
	w, h := box.Dx(), box.Dy()
	if n := w * h; n > cap(r.cover.Pix) {
		r.cover.Pix = make([]uint8, n)
	} else {
		r.cover.Pix = r.cover.Pix[:n]
	}
	r.cover.Stride, r.cover.Rect = w, image.Rect(0, 0, w, h)
	r.fill.DrawOp = draw.Src
	r.fill.Draw(&r.cover, r.cover.Rect, image.Opaque, image.Point{})
	for y := range h {
		from := r.dst.PixOffset(box.Min.X, box.Min.Y+y)
		over(r.dst.Pix[from:from+4*w], r.cover.Pix[y*w:(y+1)*w], c)
	}
}

// over lays a colour over a row of opaque pixels where cover says so.
func over(row, cover []uint8, c color.NRGBA) {
	r, g, b, full := uint32(c.R), uint32(c.G), uint32(c.B), uint32(c.A)
	row = row[:4*len(cover)]
	for i, m := range cover {
		if m == 0 {
			continue
		}
		a := share(uint32(m) * full)
		p := row[4*i : 4*i+3 : 4*i+3]
		p[0] = uint8(share(uint32(p[0])*(255-a) + r*a))
		p[1] = uint8(share(uint32(p[1])*(255-a) + g*a))
		p[2] = uint8(share(uint32(p[2])*(255-a) + b*a))
	}
}

// share divides by 255 and rounds, exactly for all products of two bytes.
func share(v uint32) uint32 {
	v += 128
	return (v + v>>8) >> 8
}
