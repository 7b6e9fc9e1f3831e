package canvas

import (
	"image"
	"image/color"
	"math"
	"testing"

	_ "gonum.org/v1/plot" // puts its typefaces into the cache
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"
)

// page is a white canvas on which a point is a pixel.
func page(wide, high int) *Window {
	c := NewWindow().On(image.NewRGBA(image.Rect(0, 0, wide, high)), float64(Px))
	c.Clear(color.NRGBA{255, 255, 255, 255})
	return c
}

// ink is the blackness of a part of the picture, in whole pixels.
func (r *Window) blackness(of image.Rectangle) float64 {
	sum := 0.0
	for y := of.Min.Y; y < of.Max.Y; y++ {
		for x := of.Min.X; x < of.Max.X; x++ {
			sum += 1 - float64(r.dst.RGBAAt(x, y).R)/255
		}
	}
	return sum
}

func polygon(points ...vg.Point) (p vg.Path) {
	for i, q := range points {
		if i == 0 {
			p.Move(q)
		} else {
			p.Line(q)
		}
	}
	p.Close()
	return p
}

// A filled polygon blackens its area, by the shoelace formula, whether it is
// filled whole or in slabs. The rasteriser counts in fixed point: slivers come
// out up to 0.05 pixels too wide along their edges, which no eye can see.
func TestFillArea(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		c := page(180, 60)
		x, y := rapid.Float64Range(1, 179), rapid.Float64Range(1, 59)
		s := make([]vg.Point, 3)
		for i := range s {
			s[i] = Point(x.Draw(r, "x"), y.Draw(r, "y"))
		}
		area := math.Abs(float64((s[1].X-s[0].X)*(s[2].Y-s[0].Y)-(s[2].X-s[0].X)*(s[1].Y-s[0].Y))) / 2
		c.Fill(polygon(s...))
		round := 0.0
		for i := range s {
			d := s[i].Sub(s[(i+1)%3])
			round += math.Hypot(float64(d.X), float64(d.Y))
		}
		if got := c.blackness(c.dst.Rect); math.Abs(got-area) > 0.05*round+1 {
			r.Fatalf("%v has an area of %.1f, %.1f pixels are black", s, area, got)
		}
	})
}

// What is cut at the border looks as it does on a larger page.
func TestFillIsCutAtTheBorder(t *testing.T) {
	t.Parallel()
	looksAlike := func(fatalf func(string, ...any), s []vg.Point) {
		far := make([]vg.Point, len(s))
		for i := range s {
			far[i] = s[i].Add(Point(100, 100))
		}
		small, large := page(60, 60), page(260, 260)
		small.Fill(polygon(s...))
		large.Fill(polygon(far...))
		a, b := small.blackness(small.dst.Rect), large.blackness(image.Rect(100, 100, 160, 160))
		// The rasteriser's fixed point drifts by a tenth of a pixel along a
		// long steep edge.
		if math.Abs(a-b) > 16+0.05*b {
			fatalf("%v: %.1f pixels on the page, %.1f on a larger one", s, a, b)
		}
	}
	// A long edge back from where it turns, found on 2026-11-30: 69.2 and 89.7.
	looksAlike(t.Errorf, []vg.Point{Point(3.552713678800501e-15, 1), Point(7.105427357601002e-15, 1), Point(40, 1), Point(61.5, 1), Point(1, 3.96875), Point(1, 1)})
	// One to where it began, to the right: 58.7 and 40.7.
	looksAlike(t.Errorf, []vg.Point{Point(11.625, 1), Point(71.6328125, 0.5), Point(7.105427357601002e-15, 2.5), Point(7.105427357601002e-15, -1.5)})
	// And one to the left.
	looksAlike(t.Errorf, []vg.Point{Point(0, 50), Point(5, 50), Point(50, 50), Point(59, 50), Point(58, 1), Point(55, 1)})
	rapid.Check(t, func(r *rapid.T) {
		in := rapid.Float64Range(-90, 150)
		s := make([]vg.Point, rapid.IntRange(3, 7).Draw(r, "corners"))
		for i := range s {
			s[i] = Point(in.Draw(r, "x"), in.Draw(r, "y"))
		}
		looksAlike(r.Fatalf, s)
	})
}

// A hole runs the other way round.
func TestFillHole(t *testing.T) {
	t.Parallel()
	c := page(40, 40)
	c.Fill(append(polygon(Point(5, 5), Point(35, 5), Point(35, 35), Point(5, 35)), polygon(Point(10, 10), Point(10, 20), Point(20, 20), Point(20, 10))...))
	if got := c.blackness(c.dst.Rect); math.Abs(got-800) > 1 {
		t.Errorf("%.1f pixels are black, want 900 less 100", got)
	}
}

// A tint lets half of the ground through at half the alpha.
func TestTint(t *testing.T) {
	t.Parallel()
	c := page(10, 10)
	c.SetColor(color.NRGBA{A: 128})
	c.Fill(polygon(Point(0, 0), Point(10, 0), Point(10, 10), Point(0, 10)))
	if p := c.dst.RGBAAt(5, 5); p.R < 126 || p.R > 128 || p.A != 255 {
		t.Errorf("got %v", p)
	}
}

// A line blackens length times width, whichever way it runs.
func TestStrokeArea(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		c := page(240, 240)
		sin, cos := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(r, "turn"))
		long, wide := rapid.Float64Range(5, 110).Draw(r, "long"), rapid.Float64Range(1.5, 8).Draw(r, "width")
		c.SetLineWidth(vg.Length(wide))
		var p vg.Path
		p.Move(Point(120, 120))
		p.Line(Point(120+long*cos/2, 120+long*sin/2))
		p.Line(Point(120+long*cos, 120+long*sin))
		c.Stroke(p)
		if got, want := c.blackness(c.dst.Rect), long*wide; math.Abs(got-want) > 0.05*(2*long)+0.5 {
			r.Fatalf("%.1f long, %.1f wide: %.1f", long, wide, got)
		}
	})
}

// Dashes cover their share of a round, a circle its circumference, and no line
// at all is no trouble.
func TestRounds(t *testing.T) {
	t.Parallel()
	whole, dashed, circle := page(120, 120), page(120, 120), page(120, 120)
	square := polygon(Point(10, 10), Point(110, 10), Point(110, 110), Point(10, 110))
	for _, c := range []*Window{whole, dashed, circle} {
		c.SetLineWidth(2)
	}
	whole.Stroke(square)
	dashed.SetLineDash([]vg.Length{6, 4}, 0)
	dashed.Stroke(square)
	if got := dashed.blackness(dashed.dst.Rect) / whole.blackness(whole.dst.Rect); math.Abs(got-0.6) > 0.02 {
		t.Errorf("dashes cover %.2f of the round, want 0.6", got)
	}
	var p vg.Path
	p.Move(Point(100, 60))
	p.Arc(Point(60, 60), 40, 0, 2*math.Pi)
	p.Close()
	circle.Stroke(p)
	if got, want := circle.blackness(circle.dst.Rect), 2*math.Pi*40*2; math.Abs(got-want) > 0.02*want {
		t.Errorf("a circle of %.0f pixels has %.0f", want, got)
	}
	nan := math.NaN()
	dashed.Stroke(nil)
	dashed.Stroke(polygon(Point(5, 5), Point(5, 5), Point(5, 5)))
	dashed.Stroke(polygon(Point(nan, 5), Point(5, nan), Point(5, 5)))
	dashed.Stroke(polygon(Point(-1e30, 1), Point(1e30, 2)))
	dashed.SetLineDash([]vg.Length{0, 0}, 0)
	dashed.Stroke(square)
}

// A hairline covers whole pixels wherever it stands, at every scale; a slanting
// one is left alone.
func TestHairlinesCoverWholePixels(t *testing.T) {
	t.Parallel()
	for _, scale := range []float64{1, 1.25, 1.5, 2, 3} {
		img := image.NewRGBA(image.Rect(0, 0, 60, 60))
		for _, v := range []float64{10, 10.2, 10.5, 10.9} {
			c := NewWindow().On(img, scale)
			c.Clear(color.NRGBA{255, 255, 255, 255})
			c.SetLineWidth(Px)
			var p vg.Path
			p.Move(Point(v, 2))
			p.Line(Point(v, 15))
			c.Stroke(p)
			want := math.Max(1, math.Round(scale))
			row := image.Rect(0, 40, 60, 41)
			if got := c.blackness(row); got != want {
				t.Errorf("at %v, scale %v: %v pixels are black in a row, want %v", v, scale, got, want)
			}
		}
	}
}

// Turned text is drawn as outlines, about as black as the upright.
func TestTextCanBeTurned(t *testing.T) {
	t.Parallel()
	upright, turned := page(100, 100), page(100, 100)
	upright.FillString(font.DefaultCache.Lookup(font.Font{Typeface: "Liberation", Variant: "Sans", Size: 14}, 14), Point(20, 50), "honey")
	turned.Translate(Point(50, 20))
	turned.Rotate(math.Pi / 2)
	turned.FillString(font.DefaultCache.Lookup(font.Font{Typeface: "Liberation", Variant: "Sans", Size: 14}, 14), vg.Point{}, "honey")
	a, b := upright.blackness(upright.dst.Rect), turned.blackness(turned.dst.Rect)
	if a < 50 || math.Abs(a-b) > 0.15*a {
		t.Errorf("%.0f pixels upright, %.0f turned", a, b)
	}
	if got := turned.blackness(image.Rect(30, 30, 60, 85)); got < 0.9*b {
		t.Errorf("only %.0f of %.0f pixels stand where they should", got, b)
	}
}

// Push and Pop keep and bring back all that is set.
func TestCanvasState(t *testing.T) {
	t.Parallel()
	c := page(40, 40)
	c.SetLineDash([]vg.Length{1, 2}, 1)
	c.SetColor(color.NRGBA{255, 0, 0, 255})
	c.Push()
	c.SetLineDash([]vg.Length{7}, 0)
	c.SetLineWidth(9)
	c.SetColor(nil)
	c.Scale(2, 2)
	c.Pop()
	if c.width != 1 || c.ink != (color.NRGBA{255, 0, 0, 255}) || len(c.dashes) != 2 || c.dashes[0] != 1 || c.matrix.stretch() != 1 {
		t.Errorf("brought back %+v", c.graphicsState)
	}
	// An image upright in its rectangle: its first row above.
	img := image.NewRGBA(image.Rect(0, 0, 1, 2))
	img.Set(0, 0, color.Black)
	img.Set(0, 1, color.White)
	c.DrawImage(vg.Rectangle{Min: Point(0, 0), Max: Point(40, 40)}, img)
	if c.dst.RGBAAt(20, 2).R != 0 || c.dst.RGBAAt(20, 37).R != 255 {
		t.Errorf("the image stands upside down: %v above, %v below", c.dst.RGBAAt(20, 2), c.dst.RGBAAt(20, 37))
	}
}

func TestShareDividesBy255(t *testing.T) {
	t.Parallel()
	for v := range uint32(255*255 + 1) {
		if want := uint32(math.Round(float64(v) / 255)); share(v) != want {
			t.Fatalf("%d/255 = %d, want %d", v, share(v), want)
		}
	}
}
