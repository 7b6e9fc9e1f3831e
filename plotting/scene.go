package plotting

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"

	"skep/calc"
)

// drawStatic draws what stays while a lever moves: grid and axis text.
func drawStatic(d pen, p *Picture, l *Layout, c *Palette) {
	if !l.Text {
		return
	}
	k := l.Size.Scale
	hair := math.Max(1, math.Round(k))
	y := Axis{Range: l.Y, Unit: p.Y.Unit}
	for _, t := range ticks(y, uprightTicks((l.Bottom-l.Top)/k)) {
		py := onPixel(l.PixelY(t.at), hair)
		d.line([]point{at(l.Left, py), at(l.Right, py)}, hair, nil, c.Grid)
		px := tickPx * k
		d.text(l.Left-gapPx*k-width(t.label, px, false), py+0.36*px, t.label, px, false, c.Muted)
	}
	x := Axis{Range: l.X, Unit: p.X.Unit}
	for _, t := range levelTicks(x, (l.Right-l.Left)/k) {
		tx := onPixel(l.PixelX(t.at), hair)
		d.line([]point{at(tx, l.Top), at(tx, l.Bottom)}, hair, nil, c.Grid)
		px := tickPx * k
		d.text(tx-width(t.label, px, false)/2, l.Bottom+gapPx*k+0.8*px, t.label, px, false, c.Muted)
	}
	if p.X.Label != "" {
		px := axisLabelPx * k
		room := (l.originX + float64(l.Size.Width) - l.Left) / k
		s := elide(p.X.Label, axisLabelPx, false, room)
		d.text(l.Left, l.Bottom+(gapPx+tickPx+5)*k+0.75*px, s, px, false, c.Muted)
	}
}

// levelTicks are as many ticks as fit beside each other.
func levelTicks(a Axis, wide float64) []tick {
	for most := int(wide / (tickGapXPx + 7)); most >= 1; most-- {
		list := ticks(a, most)
		widest := 0.0
		for _, t := range list {
			widest = math.Max(widest, width(t.label, tickPx, false))
		}
		if float64(len(list))*(widest+tickGapXPx) <= wide+widest {
			return list
		}
	}
	return nil
}

// onPixel moves the middle of a hairline so that it covers whole pixels.
func onPixel(v, hair float64) float64 { return math.Round(v-hair/2) + hair/2 }

// look is how a series is drawn.
type look struct {
	line  color.NRGBA
	width float64
	dash  []float64
	shape shape
	tint  color.NRGBA
	edge  color.NRGBA
	name  color.NRGBA
	bold  bool
}

func (s *Series) look(c *Palette) look {
	switch s.Role {
	case Before:
		return look{line: c.Ghost, width: 1.8, dash: ghostDash, shape: disc, name: c.Muted}
	case Strain:
		i := ((s.Index % Strains) + Strains) % Strains
		hue := c.Series[i]
		return look{
			line: hue, width: 2, dash: dashes[i], shape: shape(i) % shapes,
			tint: alpha(hue, 0.14), edge: alpha(hue, 0.5), name: c.Ink,
		}
	default:
		return look{line: c.Accent, width: 2.8, shape: disc, tint: c.Tint, edge: c.Edge, name: c.Accent, bold: true}
	}
}

func low(b calc.Band) float64  { return b.Low }
func mid(b calc.Band) float64  { return b.Mid }
func high(b calc.Band) float64 { return b.High }

func hasMid(b calc.Band) bool  { return finite(b.Mid) }
func hasBand(b calc.Band) bool { return finite(b.Low) && finite(b.High) }

// drawData draws what moves with a lever: bands below, then lines, the marked
// point, and the names.
func (t *tracer) drawData(d pen, p *Picture, l *Layout, c *Palette) {
	if l.Right-l.Left < 1 || l.Bottom-l.Top < 1 {
		return
	}
	for i := range p.Series {
		if s := &p.Series[i]; s.banded() {
			t.drawBand(d, s, l, s.look(c))
		}
	}
	if x := l.PixelX(p.AtC); finite(x) && l.Left <= x && x <= l.Right {
		k := l.Size.Scale
		hair := math.Max(1, math.Round(k))
		x = onPixel(x, hair)
		t.dash = scaled(t.dash[:0], dots, hair)
		d.line([]point{at(x, l.Top), at(x, l.Bottom)}, hair, t.dash, c.Muted)
	}
	for i := range p.Series {
		t.drawLine(d, &p.Series[i], l, p.Series[i].look(c))
	}
	for i := range p.Series {
		drawBar(d, p, i, l, c)
	}
	for i := range p.Series {
		t.drawPoint(d, p, i, l, c)
	}
	if l.Text {
		t.drawNames(d, p, l, c)
	}
}

func (t *tracer) drawBand(d pen, s *Series, l *Layout, look look) {
	runs(s, hasBand, func(from, to int) {
		t.a = t.trace(t.a[:0], l, s, from, to, high)
		t.b = t.trace(t.b[:0], l, s, from, to, low)
		if len(t.a) < 2 || len(t.a) != len(t.b) {
			return
		}
		for _, edge := range [...][]point{t.a, t.b} {
			t.within(edge, l.Top, l.Bottom, func(part []point) {
				d.line(part, l.Size.Scale, nil, look.edge)
			})
		}
		squeeze(t.a, l.Top, l.Bottom)
		squeeze(t.b, l.Top, l.Bottom)
		d.strip(t.a, t.b, look.tint)
	})
}

func (t *tracer) drawLine(d pen, s *Series, l *Layout, look look) {
	k := l.Size.Scale
	runs(s, hasMid, func(from, to int) {
		t.a = t.trace(t.a[:0], l, s, from, to, mid)
		t.dash = scaled(t.dash[:0], look.dash, k)
		t.within(t.a, l.Top, l.Bottom, func(part []point) {
			if len(part) > 1 {
				d.line(part, look.width*l.weight(), t.dash, look.line)
			}
		})
	})
}

// marked says whether a series has a point at the design's temperature.
func (p *Picture) marked(i int, l *Layout) (x float64, ok bool) {
	x = l.PixelX(p.AtC)
	return x, p.Series[i].Role != Before && finite(x) && l.Left <= x && x <= l.Right
}

// drawBar draws the band at the design's temperature as an upright bar. Bars
// of several strains stand beside each other.
func drawBar(d pen, p *Picture, i int, l *Layout, c *Palette) {
	s := &p.Series[i]
	x, ok := p.marked(i, l)
	b := s.at(p.AtC)
	if !ok || !hasBand(b) {
		return
	}
	k, wide := l.weight(), 3.0
	if s.Role == Strain {
		wide = 2
		x += (float64(i) - float64(len(p.Series)-1)/2) * 3 * k
	}
	clamp := func(v float64) float64 { return math.Min(math.Max(l.PixelY(v), l.Top), l.Bottom) }
	if top, foot := clamp(b.High), clamp(b.Low); foot > top {
		d.line([]point{at(x, top), at(x, foot)}, wide*k, nil, s.look(c).line)
	}
}

// drawPoint marks the design on its line, set off by a ring of the ground.
func (t *tracer) drawPoint(d pen, p *Picture, i int, l *Layout, c *Palette) {
	s := &p.Series[i]
	x, ok := p.marked(i, l)
	y := l.PixelY(s.at(p.AtC).Mid)
	if !ok || !finite(y) || y < l.Top-0.5 || y > l.Bottom+0.5 {
		return
	}
	k, look, radius, ring := l.weight(), s.look(c), 5.5, 2.5
	if s.Role == Strain {
		radius, ring = 4, 1.5
	}
	t.outline = look.shape.outline(t.outline[:0], x, y, (radius+ring)*k)
	d.area(t.outline, c.Ground)
	t.outline = look.shape.outline(t.outline[:0], x, y, radius*k)
	d.area(t.outline, look.line)
}

// drawNames writes each line's name where it ends.
func (t *tracer) drawNames(d pen, p *Picture, l *Layout, c *Palette) {
	if l.labels.width <= 0 {
		return
	}
	var store [Strains + 2]label
	names := store[:0]
	for i := range p.Series {
		s := &p.Series[i]
		if s.Name == "" {
			continue
		}
		if y, ok := t.end(s, l); ok {
			names = append(names, label{series: i, ends: math.Min(math.Max(y, l.Top), l.Bottom)})
		}
	}
	k := l.Size.Scale
	half := 0.5 * labelPx * k
	spread(names, (labelPx+1)*k, l.originY+half, l.originY+float64(l.Size.Height)-half)
	for _, n := range names {
		s := &p.Series[n.series]
		look := s.look(c)
		x := l.labels.x
		if l.labels.glyph > 0 && s.Role == Strain {
			t.outline = look.shape.outline(t.outline[:0], x+5*k, n.y, 4*k)
			d.area(t.outline, look.line)
		}
		x += l.labels.glyph
		text := elide(s.Name, labelPx, look.bold, l.labels.width/k)
		d.text(x, n.y+0.36*labelPx*k, text, labelPx*k, look.bold, look.name)
	}
}

// end is where the line of a series ends on the page.
func (t *tracer) end(s *Series, l *Layout) (y float64, ok bool) {
	runs(s, hasMid, func(from, to int) {
		t.a = t.trace(t.a[:0], l, s, from, to, mid)
		if n := len(t.a); n > 1 {
			y, ok = float64(t.a[n-1].Y), true
		}
	})
	return y, ok
}

// mirror turns device pixels into a canvas' points, y upwards.
func mirror(p point, height, perPx vg.Length) vg.Point {
	return vg.Point{X: p.X * perPx, Y: (height - p.Y) * perPx}
}
