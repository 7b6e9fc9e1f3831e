package plane

import (
	"image"
	"image/color"
	"math"
	"testing"

	"pgregory.net/rapid"
)

var (
	white = color.NRGBA{255, 255, 255, 255}
	black = color.NRGBA{0, 0, 0, 255}
)

func sheet(w, h int) *pen {
	p := &pen{to: image.NewRGBA(image.Rect(0, 0, w, h))}
	p.clear(white)
	return p
}

// ink is the blackness of a part of the picture, in whole pixels.
func (p *pen) ink(r image.Rectangle) float64 {
	sum := 0.0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			sum += 1 - float64(p.to.RGBAAt(x, y).R)/255
		}
	}
	return sum
}

// A filled triangle blackens its area, by the shoelace formula. The rasteriser
// counts in fixed point: slivers come out up to 0.05 pixels too wide along
// their edges, which no eye can see.
func TestFillArea(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		p := sheet(80, 60)
		in := rapid.Float32Range(1, 59)
		s := make([]spot, 3)
		for i := range s {
			s[i] = spot{in.Draw(r, "x"), in.Draw(r, "y")}
		}
		area := math.Abs(float64((s[1].x-s[0].x)*(s[2].y-s[0].y)-(s[2].x-s[0].x)*(s[1].y-s[0].y))) / 2
		p.fill(s, []int{3}, black)
		round := float64(apart(s[0], s[1]) + apart(s[1], s[2]) + apart(s[2], s[0]))
		if got := p.ink(p.to.Rect); math.Abs(got-area) > 0.05*round+1 {
			r.Fatalf("%v has an area of %.1f, %.1f pixels are black", s, area, got)
		}
	})
}

// What is cut at the border looks as it does on a larger sheet.
func TestFillIsCutAtTheBorder(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		at := rapid.Float32Range(-90, 150)
		s := make([]spot, rapid.IntRange(3, 7).Draw(r, "corners"))
		far := make([]spot, len(s))
		for i := range s {
			s[i] = spot{at.Draw(r, "x"), at.Draw(r, "y")}
			far[i] = spot{s[i].x + 100, s[i].y + 100}
		}
		small, large := sheet(60, 60), sheet(260, 260)
		small.fill(s, []int{len(s)}, black)
		large.fill(far, []int{len(far)}, black)
		a, b := small.ink(small.to.Rect), large.ink(image.Rect(100, 100, 160, 160))
		// An outline that crosses itself may differ along the border, and the
		// rasteriser's fixed point drifts by a tenth of a pixel along a long
		// steep edge.
		if math.Abs(a-b) > 16+0.05*b {
			r.Fatalf("%v: %.1f pixels on the sheet, %.1f on a larger one", s, a, b)
		}
	})
}

// A hole runs the other way round.
func TestFillHole(t *testing.T) {
	t.Parallel()
	p := sheet(40, 40)
	p.fill([]spot{{5, 5}, {35, 5}, {35, 35}, {5, 35}, {10, 10}, {10, 20}, {20, 20}, {20, 10}}, []int{4, 8}, black)
	if got := p.ink(p.to.Rect); math.Abs(got-800) > 1 {
		t.Errorf("%.1f pixels are black, want 900 less 100", got)
	}
}

// A tint lets half of the ground through at half the alpha.
func TestTint(t *testing.T) {
	t.Parallel()
	p := sheet(10, 10)
	p.fill([]spot{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, []int{4}, color.NRGBA{0, 0, 0, 128})
	if c := p.to.RGBAAt(5, 5); c.R < 126 || c.R > 128 || c.A != 255 {
		t.Errorf("got %v", c)
	}
}

// A line with round ends blackens length times width and a circle, whichever
// way it runs. Coverage from the distance takes up to 6 % from thin slanting
// lines.
func TestLineArea(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		p := sheet(90, 90)
		turn := rapid.Float64Range(0, 2*math.Pi).Draw(r, "turn")
		long, width := rapid.Float64Range(5, 35).Draw(r, "long"), rapid.Float64Range(1.5, 8).Draw(r, "width")
		sin, cos := math.Sincos(turn)
		a := spot{45, 45}
		b := spot{45 + float32(long*cos), 45 + float32(long*sin)}
		p.line(a, b, float32(width), black)
		want := long*width + math.Pi*width*width/4
		if got := p.ink(p.to.Rect); math.Abs(got-want) > 0.07*want+0.5 {
			r.Fatalf("%.1f long, %.1f wide at %.2f: %.1f, want %.1f", long, width, turn, got, want)
		}
	})
}

// Dashes cover their share of a round, and no line at all is no trouble.
func TestDashes(t *testing.T) {
	t.Parallel()
	ring := []spot{{10, 10}, {110, 10}, {110, 110}, {10, 110}}
	whole, dashed := sheet(120, 120), sheet(120, 120)
	whole.loop(ring, 2, 0, 0, black)
	dashed.loop(ring, 2, 6, 4, black)
	// Round ends lengthen each of the 40 dashes by a circle of the width.
	want := (400*0.6*2 + 40*math.Pi) / (400 * 2)
	if got := dashed.ink(dashed.to.Rect) / whole.ink(whole.to.Rect); math.Abs(got-want) > 0.03 {
		t.Errorf("dashes cover %.2f of the round, want %.2f", got, want)
	}
	dashed.loop(nil, 2, 6, 4, black)
	dashed.loop([]spot{{5, 5}, {5, 5}, {5, 5}}, 2, 6, 4, black)
	nan := float32(math.NaN())
	dashed.loop([]spot{{nan, 5}, {5, nan}, {5, 5}}, 2, 6, 4, black)
	dashed.line(spot{nan, 1}, spot{2, 2}, 2, black)
	dashed.line(spot{-1e9, 1}, spot{1e9, 2}, 2, black)
}
