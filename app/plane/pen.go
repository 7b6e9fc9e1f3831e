package plane

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"
)

// spot is a place in pixels.
type spot struct{ x, y float32 }

// pen draws anti-aliased shapes into one opaque picture, and keeps its memory
// from frame to frame.
type pen struct {
	to     *image.RGBA
	raster vector.Rasterizer
	mask   image.Alpha
	a, b   []spot // outlines while they are clipped
}

// clear fills the picture with one opaque colour.
func (p *pen) clear(c color.NRGBA) {
	pix := p.to.Pix
	if len(pix) < 4 {
		return
	}
	pix[0], pix[1], pix[2], pix[3] = c.R, c.G, c.B, 0xFF
	for n := 4; n < len(pix); n *= 2 {
		copy(pix[n:], pix[:n])
	}
}

// rect fills a rectangle of whole pixels with an opaque colour.
func (p *pen) rect(x0, y0, x1, y1 int, c color.NRGBA) {
	r := image.Rect(x0, y0, x1, y1).Intersect(p.to.Rect)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		row := p.to.Pix[p.to.PixOffset(r.Min.X, y):p.to.PixOffset(r.Max.X, y)]
		for i := 0; i+3 < len(row); i += 4 {
			row[i], row[i+1], row[i+2], row[i+3] = c.R, c.G, c.B, 0xFF
		}
	}
}

// fill fills outlines, together, with a colour that may let the ground shine
// through. The rasteriser works on the box around them only: it clears and
// reads all of its pixels.
func (p *pen) fill(outline []spot, ends []int, c color.NRGBA) {
	p.a = p.a[:0]
	low, high := spot{math.MaxFloat32, math.MaxFloat32}, spot{-math.MaxFloat32, -math.MaxFloat32}
	var cut [8]int
	stops := cut[:0]
	start := 0
	for _, end := range ends {
		for _, s := range p.clip(outline[start:end]) {
			low.x, low.y = min(low.x, s.x), min(low.y, s.y)
			high.x, high.y = max(high.x, s.x), max(high.y, s.y)
			p.a = append(p.a, s)
		}
		stops = append(stops, len(p.a))
		start = end
	}
	if len(p.a) < 3 {
		return
	}
	box := image.Rect(int(low.x), int(low.y), int(high.x)+1, int(high.y)+1).Intersect(p.to.Rect)
	if box.Empty() {
		return
	}
	p.raster.Reset(box.Dx(), box.Dy())
	dx, dy := float32(box.Min.X), float32(box.Min.Y)
	start = 0
	for _, end := range stops {
		for i, s := range p.a[start:end] {
			if i == 0 {
				p.raster.MoveTo(s.x-dx, s.y-dy)
			} else {
				p.raster.LineTo(s.x-dx, s.y-dy)
			}
		}
		if end > start {
			p.raster.ClosePath()
		}
		start = end
	}
	// Coverage first, then our own blending: the rasteriser's way to a picture
	// divides at every pixel, and took three quarters of a frame.
	n := box.Dx() * box.Dy()
	if cap(p.mask.Pix) < n {
		p.mask.Pix = make([]uint8, n)
	}
	p.mask.Pix, p.mask.Stride, p.mask.Rect = p.mask.Pix[:n], box.Dx(), image.Rect(0, 0, box.Dx(), box.Dy())
	p.raster.DrawOp = draw.Src
	p.raster.Draw(&p.mask, p.mask.Rect, image.Opaque, image.Point{})
	p.tint(box, c)
}

// tint lays a colour over a box where the mask says so.
func (p *pen) tint(box image.Rectangle, c color.NRGBA) {
	w := box.Dx()
	for y := range box.Dy() {
		cover := p.mask.Pix[y*w : y*w+w]
		row := p.to.Pix[p.to.PixOffset(box.Min.X, box.Min.Y+y):][:4*w]
		for x, m := range cover {
			if m == 0 {
				continue
			}
			pix := row[4*x : 4*x+3 : 4*x+4]
			a := uint32(m) * uint32(c.A) // of 255²
			if a == 255*255 {
				pix[0], pix[1], pix[2] = c.R, c.G, c.B
				continue
			}
			back := 255*255 - a
			pix[0] = uint8((uint32(c.R)*a + uint32(pix[0])*back + 32512) / (255 * 255))
			pix[1] = uint8((uint32(c.G)*a + uint32(pix[1])*back + 32512) / (255 * 255))
			pix[2] = uint8((uint32(c.B)*a + uint32(pix[2])*back + 32512) / (255 * 255))
		}
	}
}

// clip cuts an outline to the picture, edge by edge (Sutherland and Hodgman).
func (p *pen) clip(in []spot) []spot {
	w, h := float32(p.to.Rect.Dx()), float32(p.to.Rect.Dy())
	inside := true
	for _, s := range in {
		if s.x < 0 || s.y < 0 || s.x > w || s.y > h {
			inside = false
			break
		}
	}
	if inside {
		return in
	}
	// Two buffers beside p.a, one after the other in p.b.
	from := in
	for edge := range 4 {
		n := len(p.b)
		for i, s := range from {
			prev := from[(i+len(from)-1)%len(from)]
			ds, dp := beyond(s, edge, w, h), beyond(prev, edge, w, h)
			if (ds > 0) != (dp > 0) {
				t := dp / (dp - ds)
				p.b = append(p.b, spot{prev.x + t*(s.x-prev.x), prev.y + t*(s.y-prev.y)})
			}
			if ds <= 0 {
				p.b = append(p.b, s)
			}
		}
		from = p.b[n:]
	}
	p.b = p.b[:0]
	return from
}

// beyond is how far a spot lies outside one edge of the picture.
func beyond(s spot, edge int, w, h float32) float32 {
	switch edge {
	case 0:
		return -s.x
	case 1:
		return s.x - w
	case 2:
		return -s.y
	}
	return s.y - h
}

// line draws a line with round ends. The coverage of a pixel is its distance
// from the line, which is as good as an area for lines of a pixel or more, and
// needs to look only at the pixels near by.
func (p *pen) line(a, b spot, width float32, c color.NRGBA) {
	if !(abs(a.x)+abs(a.y)+abs(b.x)+abs(b.y) < 1e6) {
		return
	}
	half := width / 2
	reach := half + 0.5
	r := p.to.Rect
	y0, y1 := int(min(a.y, b.y)-reach), int(max(a.y, b.y)+reach)+1
	y0, y1 = max(y0, r.Min.Y), min(y1, r.Max.Y)
	dx, dy := b.x-a.x, b.y-a.y
	long := dx*dx + dy*dy
	for y := y0; y < y1; y++ {
		cy := float32(y) + 0.5
		// The stretch of the line whose pixels this row can hold.
		t0, t1 := float32(0), float32(1)
		if abs(dy) > 1e-3 {
			u, v := (cy-reach-a.y)/dy, (cy+reach-a.y)/dy
			t0, t1 = max(0, min(u, v)), min(1, max(u, v))
			if t0 > t1 {
				continue
			}
		}
		u, v := a.x+t0*dx, a.x+t1*dx
		x0, x1 := max(int(min(u, v)-reach), r.Min.X), min(int(max(u, v)+reach)+1, r.Max.X)
		if x0 >= x1 {
			continue
		}
		row := p.to.Pix[p.to.PixOffset(x0, y):p.to.PixOffset(x1, y)]
		for x := x0; x < x1; x++ {
			px, py := float32(x)+0.5-a.x, cy-a.y
			t := float32(0)
			if long > 0 {
				t = min(max((px*dx+py*dy)/long, 0), 1)
			}
			ex, ey := px-t*dx, py-t*dy
			cover := reach - float32(math.Sqrt(float64(ex*ex+ey*ey)))
			if cover <= 0 {
				continue
			}
			blend(row[(x-x0)*4:(x-x0)*4+3], c, min(cover, 1))
		}
	}
}

func blend(pix []uint8, c color.NRGBA, cover float32) {
	a := uint32(cover*float32(c.A)+0.5) * 257
	back := 65535 - a
	pix[0] = uint8((uint32(c.R)*a + uint32(pix[0])*back + 32767) / 65535)
	pix[1] = uint8((uint32(c.G)*a + uint32(pix[1])*back + 32767) / 65535)
	pix[2] = uint8((uint32(c.B)*a + uint32(pix[2])*back + 32767) / 65535)
}

// loop draws a closed outline; with dash and gap above 0 in pieces, whose
// lengths are stretched a little so that the last meets the first.
func (p *pen) loop(ring []spot, width, dash, gap float32, c color.NRGBA) {
	n := len(ring)
	if dash <= 0 {
		for i := range n {
			p.line(ring[i], ring[(i+1)%n], width, c)
		}
		return
	}
	round := float32(0)
	for i := range n {
		round += apart(ring[i], ring[(i+1)%n])
	}
	pieces := float32(math.Round(float64(round / (dash + gap))))
	if pieces < 1 || !(round < 1e5) {
		return
	}
	stretch := round / (pieces * (dash + gap))
	dash, gap = dash*stretch, gap*stretch
	left, on := dash, true
	for i := range n {
		a, b := ring[i], ring[(i+1)%n]
		long, at := apart(a, b), float32(0)
		for at < long {
			step := min(left, long-at)
			if on && step > 0 {
				p.line(along(a, b, at/long), along(a, b, (at+step)/long), width, c)
			}
			at += step
			left -= step
			if left <= 1e-3 {
				on = !on
				left = gap
				if on {
					left = dash
				}
			}
		}
	}
}

func apart(a, b spot) float32 { return float32(math.Hypot(float64(b.x-a.x), float64(b.y-a.y))) }

func along(a, b spot, t float32) spot { return spot{a.x + t*(b.x-a.x), a.y + t*(b.y-a.y)} }

func abs(v float32) float32 {
	if v < 0 {
		return -v
	}
	return v
}
