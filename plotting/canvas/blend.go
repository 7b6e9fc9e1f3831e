package canvas

import (
	"encoding/binary"
	"image"
	"image/color"
	"image/draw"
	"math"
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

// over lays a colour over a row of opaque pixels where cover says so. Most of a row is
// either empty or full, and is passed over, or laid over, eight pixels at a time.
func over(row, cover []uint8, c color.NRGBA) {
	row = row[:4*len(cover)]
	for len(cover) >= 8 {
		switch binary.LittleEndian.Uint64(cover) {
		case 0:
		case math.MaxUint64:
			overFull(row[:32], c)
		default:
			overEach(row[:32], cover[:8], c)
		}
		row, cover = row[32:], cover[8:]
	}
	overEach(row, cover, c)
}

// overEach works red and blue out in one go, sixteen bits apart, as [share] has each of
// them.
func overEach(row, cover []uint8, c color.NRGBA) {
	redBlue, green, full := uint32(c.R)|uint32(c.B)<<16, uint32(c.G), uint32(c.A)
	for i, m := range cover {
		if m == 0 {
			continue
		}
		a := share(uint32(m) * full)
		p := row[4*i : 4*i+4 : 4*i+4]
		was := binary.LittleEndian.Uint32(p)
		rb := (was&0xff00ff)*(255-a) + redBlue*a + 0x800080
		rb = (rb + rb>>8&0xff00ff) >> 8 & 0xff00ff
		g := share((was>>8&0xff)*(255-a) + green*a)
		binary.LittleEndian.PutUint32(p, was&0xff000000|rb|g<<8)
	}
}

// overFull is the same of pixels all of which are covered, two at a time: no sum of
// two shares of a byte reaches over its sixteen bits.
func overFull(row []uint8, c color.NRGBA) {
	const (
		redBlues = 0x00ff00ff00ff00ff
		greens   = 0x000000ff000000ff
		opacity  = 0xff000000ff000000
		half     = 0x0080008000800080
		twice    = 1<<32 + 1
	)
	a := uint64(c.A)
	redBlue, green := (uint64(c.R)|uint64(c.B)<<16)*a*twice+half, uint64(c.G)*a*twice+half
	for ; len(row) >= 8; row = row[8:] {
		was := binary.LittleEndian.Uint64(row)
		rb, g := (was&redBlues)*(255-a)+redBlue, (was>>8&greens)*(255-a)+green
		rb, g = (rb+rb>>8&redBlues)>>8&redBlues, (g+g>>8&redBlues)>>8&greens
		binary.LittleEndian.PutUint64(row, was&opacity|rb|g<<8)
	}
}

// share divides by 255 and rounds, exactly for all products of two bytes.
func share(v uint32) uint32 {
	v += 128
	return (v + v>>8) >> 8
}
