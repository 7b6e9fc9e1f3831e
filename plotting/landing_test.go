package plotting

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/plotting/style"
)

func ellipse(mid LandingPoint, a, b, turn float64) []LandingPoint {
	var out []LandingPoint
	for i := range 64 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 64)
		x, y := a*cos, b*sin
		out = append(out, LandingPoint{mid.Dryness + x*math.Cos(turn) - y*math.Sin(turn), mid.Body + x*math.Sin(turn) + y*math.Cos(turn)})
	}
	return out
}

// inventedLanding is a landing of the size that the engine's have.
func inventedLanding() *Landing {
	here := LandingPoint{58, 35}
	l := &Landing{Dryness: Range{25, 75}, Body: Range{20, 65}, Known: true, Here: here,
		Arrows: []LandingArrow{
			{"mash.rest", "hotter", LandingPoint{56.2, 36.2}, true},
			{"mash.minutes", "longer rest", LandingPoint{58.3, 34.9}, false},
			{"yeast", "less attenuating", LandingPoint{56.1, 35.4}, false},
			{"honey.mass", "more honey", LandingPoint{58.9, 35.4}, false},
		},
		Ghost: LandingPoint{50, 40}, GhostName: "As first drawn", Ghosted: true,
		Pin:  Pin{Shown: true, At: LandingPoint{64, 34}, Dryness: true, Body: true, Lit: true},
		Ways: []LandingPoint{{63.6, 34.2}, {62, 36}},
		Dry:  "dry 75", Sweet: "sweet 25", Full: "full 65", Light: "light 20"}
	l.Half.Set([][]LandingPoint{ellipse(here, 7.5, 2.6, -0.28)})
	l.Most.Set([][]LandingPoint{ellipse(here, 12, 4.4, -0.28)})
	l.Reach.Set([][]LandingPoint{{{71, 31}, {66, 30}, {57, 28.5}, {53, 30}, {47, 34}, {38, 43}, {31, 54}, {36, 57}, {44, 57},
		{50, 52}, {58, 44}, {65, 38}, {70, 34}}})
	return l
}

func landingColours(p style.Palette) *LandingColours {
	return &LandingColours{Palette: p, Reach: p.Grid, Pin: style.OkabeVermillion, Focus: p.Accent, Frame: p.Grid}
}

func TestGoldenLanding(t *testing.T) {
	t.Parallel()
	for _, g := range []struct {
		name    string
		palette style.Palette
		size    Size
	}{
		{"landing-light.png", style.Light(), Size{252, 316, 1}},
		{"landing-double-dark.png", style.Dark(), Size{504, 632, 2}},
	} {
		t.Run(g.name, func(t *testing.T) {
			t.Parallel()
			d, l := NewLandingDrawer(), inventedLanding()
			d.Place(l, 252, 292, true)
			golden(t, g.name, encode(t, d.Draw(l, g.size, landingColours(g.palette))), slack)
		})
	}
}

// A frame of the landing plane is drawn again and again.
func BenchmarkLanding(b *testing.B) {
	for _, size := range []Size{{252, 316, 1}, {504, 632, 2}} {
		b.Run(map[float64]string{1: "scale1", 2: "scale2"}[size.Scale], func(b *testing.B) {
			d, l, c := NewLandingDrawer(), inventedLanding(), landingColours(style.Light())
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				l.Here.Dryness = 58 - 0.2*float64(i%16)
				d.Place(l, 252, 292, true)
				d.Draw(l, size, c)
			}
		})
	}
}

// Dry stands at the left and full at the top, and a place means the point that
// is drawn there.
func TestLandingViewIsItsOwnInverse(t *testing.T) {
	t.Parallel()
	v := LandingView{Range{0, 100}, Range{0, 100}, 200, 100}
	if got := v.At(LandingPoint{100, 100}); got != (Spot{}) {
		t.Errorf("dry and full at %v", got)
	}
	if got := v.At(LandingPoint{0, 0}); got != (Spot{200, 100}) {
		t.Errorf("sweet and light at %v", got)
	}
	rapid.Check(t, func(r *rapid.T) {
		p := LandingPoint{rapid.Float64Range(0, 100).Draw(r, "dryness"), rapid.Float64Range(0, 100).Draw(r, "body")}
		q := v.Point(v.At(p))
		if math.Hypot(p.Dryness-q.Dryness, p.Body-q.Body) > 1e-3 {
			r.Fatalf("%v became %v", p, q)
		}
	})
}

// The layout that a window takes hold by and the canvas that is drawn on agree.
func TestLandingIsDrawnWhereItsLayoutSays(t *testing.T) {
	t.Parallel()
	for _, k := range []int{1, 2} {
		d, l, c := NewLandingDrawer(), inventedLanding(), landingColours(style.Light())
		l.Pin, l.Ways = Pin{}, nil
		y := d.Place(l, 252, 292, true)
		img := d.Draw(l, Size{252 * k, (292 + LandingFoot) * k, float64(k)}, c)
		here, tip := y.At(l.Here), y.Arrows[0].Tip
		if !near(img, float64(here.X)*float64(k), float64(here.Y)*float64(k), c.Accent, 0) {
			t.Errorf("at scale %d: the design is not at %v", k, here)
		}
		// Two pixels back from the tip, where the head is wide enough.
		x, v := tip.X-2*y.Arrows[0].DX, tip.Y-2*y.Arrows[0].DY
		if !near(img, float64(x)*float64(k), float64(v)*float64(k), c.Accent, 1) {
			t.Errorf("at scale %d: the arrow's head is not at %v", k, tip)
		}
	}
}

// The longer effect has the longer arrow, and one that is long is true.
func TestArrowLengths(t *testing.T) {
	t.Parallel()
	for v := float32(0); v < 200; v += 0.5 {
		if drawnLength(v+0.5) < drawnLength(v) {
			t.Fatalf("at %.1f the arrow gets shorter", v)
		}
	}
	if drawnLength(90) != 90 {
		t.Errorf("a step of 90 pixels is drawn with %.1f", drawnLength(90))
	}
}

// Words of arrows that run nearly alike in a corner of a small plane stand beside one
// another: as it was with the demonstration in a window of 1280x800.
func TestWordsDoNotTouch(t *testing.T) {
	t.Parallel()
	l := inventedLanding()
	l.Dryness, l.Body = Range{25, 80}, Range{20, 60}
	l.Here, l.Ghost, l.GhostName, l.Ways = LandingPoint{57.6, 35.15}, LandingPoint{56.6, 32.1}, "before", nil
	l.Pin = Pin{Shown: true, At: LandingPoint{60, 38}, Dryness: true, Body: true}
	l.Full, l.Light = "full 60", "light 20"
	copy(l.Arrows, []LandingArrow{
		{"yeast", "more attenuating", LandingPoint{59.3, 34.84}, false},
		{"mash.rest", "hotter", LandingPoint{56.58, 36.06}, false},
		{"mash.minutes", "longer rest", LandingPoint{57.92, 34.86}, false},
		{"honey.mass", "more honey", LandingPoint{58.62, 35.34}, false},
	})
	y := NewLandingDrawer().Place(l, 260, 198, true)
	for i := range y.Arrows {
		for j := range i {
			if by := y.Arrows[i].Word.Overlap(y.Arrows[j].Word); by > 0 {
				t.Errorf("%q lies on %q: %.0f square pixels", l.Arrows[i].Word, l.Arrows[j].Word, by)
			}
		}
	}
}
