package plane

import (
	"image"
	"image/color"
	"math"

	"skep/app/look"
)

// painter draws what computed frames change: the outline of reach, the cloud,
// the ghost and the arrows. What the pointer moves lies above it.
//
// Two pictures take turns, so that one that the canvas was given is never
// written to while it may still be read. Each is as large as the screen asks:
// a picture of its own memory, its rows without a gap, as the canvas takes
// neither sub-images nor strides.
type painter struct {
	pictures [2]*image.RGBA
	front    int
	pen      pen
	outline  []spot
	ends     []int
	ring     [24]spot
}

// picture gives the last one, or a clean one to draw on.
func (t *painter) next(w, h int) *image.RGBA {
	t.front = 1 - t.front
	old := t.pictures[t.front]
	if old == nil || old.Rect.Dx() != w || old.Rect.Dy() != h {
		t.pictures[t.front] = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	return t.pictures[t.front]
}

// image is what the canvas asks for when it paints: after a change, or in
// another size. Both are its own goroutine's business, which is the window's.
func (p *Plane) image(w, h int) image.Image {
	w, h = max(w, 1), max(h, 1)
	last := p.painter.pictures[p.painter.front]
	if !p.stale && last != nil && last.Rect.Dx() == w && last.Rect.Dy() == h {
		return last
	}
	p.stale = false
	img := p.painter.next(w, h)
	p.paint(img)
	return img
}

func (p *Plane) paint(img *image.RGBA) {
	t, c := &p.painter, p.palette
	t.pen.to = img
	t.pen.clear(c.Panel)
	v := p.view()
	if v.width <= 0 || v.height <= 0 {
		return
	}
	scale := float32(img.Rect.Dx()) / v.width
	v.left, v.top = 0, 0
	v.width, v.height = float32(img.Rect.Dx()), float32(img.Rect.Dy())
	t.grid(v, scale, c.Grid)
	if !p.now.known {
		return
	}
	t.rings(v, &p.now.reach)
	t.pen.fill(t.outline, t.ends, c.Reach)
	t.each(func(ring []spot) { t.pen.loop(ring, 1.5*scale, 5*scale, 4*scale, c.Ghost) })

	t.cloud(v, &p.now.most, c, scale)
	t.cloud(v, &p.now.half, c, scale)
	if p.now.ghosted {
		t.ghost(v, p.now.ghost.At, scale, c.Ghost, c.Panel)
	}
	for i := range p.marks {
		m := &p.marks[i]
		ink, width := c.Ink, float32(shaft)
		if p.lit(i) {
			ink, width = c.Accent, 2.4
		}
		at := func(x, y float32) spot { return spot{(x - p.frame.x0) * scale, (y - p.frame.y0) * scale} }
		neck := at(m.tip.X-m.dirX*(headLong-1), m.tip.Y-m.dirY*(headLong-1))
		t.pen.line(at(m.start.X, m.start.Y), neck, width*scale, ink)
		wide := headWide + (width-shaft)/2
		back := [2]float32{m.tip.X - m.dirX*headLong, m.tip.Y - m.dirY*headLong}
		head := [3]spot{at(m.tip.X, m.tip.Y),
			at(back[0]-m.dirY*wide, back[1]+m.dirX*wide), at(back[0]+m.dirY*wide, back[1]-m.dirX*wide)}
		t.outline = append(t.outline[:0], head[:]...)
		t.ends = append(t.ends[:0], 3)
		t.pen.fill(t.outline, t.ends, ink)
	}
}

// grid rules every tenth of the plane, barely to be seen.
func (t *painter) grid(v view, scale float32, c color.NRGBA) {
	w, h := int(v.width), int(v.height)
	thick := max(int(scale+0.5), 1)
	for i := range 9 {
		at := v.at(Point{float64(i+1) * tens, float64(i+1) * tens})
		if x := int(math.Round(float64(at.X))); x > 0 && x < w-thick {
			t.pen.rect(x, 0, x+thick, h, c)
		}
		if y := int(math.Round(float64(at.Y))); y > 0 && y < h-thick {
			t.pen.rect(0, y, w, y+thick, c)
		}
	}
}

// rings turns outlines into pixels, left in t.outline and t.ends.
func (t *painter) rings(v view, r *rings) {
	t.outline = t.outline[:0]
	t.ends = append(t.ends[:0], r.ends...)
	for _, p := range r.points {
		at := v.at(p)
		t.outline = append(t.outline, spot{at.X, at.Y})
	}
}

func (t *painter) each(do func(ring []spot)) {
	start := 0
	for _, end := range t.ends {
		do(t.outline[start:end])
		start = end
	}
}

// cloud fills a region with the tint of doubt and gives it an edge, which
// stays to be seen on a grey print.
func (t *painter) cloud(v view, r *rings, c look.Palette, scale float32) {
	t.rings(v, r)
	if len(t.ends) == 0 {
		return
	}
	t.pen.fill(t.outline, t.ends, c.AccentSoft)
	edge := look.Over(c.AccentEdge, c.Panel) // opaque: pieces of a line may overlap
	t.each(func(ring []spot) { t.pen.loop(ring, 0.9*scale, 0, 0, edge) })
}

func (t *painter) ghost(v view, at Point, scale float32, c, ground color.NRGBA) {
	mid := v.at(at)
	for i := range t.ring {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(t.ring)))
		t.ring[i] = spot{mid.X + ghostRadius*scale*float32(cos), mid.Y + ghostRadius*scale*float32(sin)}
	}
	t.outline = append(t.outline[:0], t.ring[:]...)
	t.ends = append(t.ends[:0], len(t.ring))
	t.pen.fill(t.outline, t.ends, ground)
	t.pen.loop(t.ring[:], 1.6*scale, 3.4*scale, 2.6*scale, c)
}
