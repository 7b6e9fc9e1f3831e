package plane

import (
	"image"
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"skep/app/look"
	"skep/plotting"
)

// The window holds what must be seen, keeps its least span, stays on the plane
// and does not move back and forth.
func TestWindow(t *testing.T) {
	t.Parallel()
	index := rapid.Float64Range(0, 100)
	rapid.Check(t, func(r *rapid.T) {
		e := nowhere()
		for range rapid.IntRange(1, 5).Draw(r, "points") {
			e.add(pt(index.Draw(r, "d"), index.Draw(r, "b")))
		}
		w := around(e)
		if w.dLow < 0 || w.dHigh > 100 || w.bLow < 0 || w.bHigh > 100 {
			r.Fatalf("%+v leaves the plane", w)
		}
		if w.dHigh-w.dLow < leastSpan || w.bHigh-w.bLow < leastSpan {
			r.Fatalf("%+v is too near", w)
		}
		if !w.holds(e) {
			r.Fatalf("%+v does not hold %+v", w, e)
		}
		if again := w.next(e, false); again != w {
			r.Fatalf("%+v moved to %+v though nothing had changed", w, again)
		}
		o := nowhere()
		o.add(pt(index.Draw(r, "d"), index.Draw(r, "b")))
		if still := w.next(o, true); still.union(w) != still {
			r.Fatalf("%+v drew in to %+v while something moved", w, still)
		}
	})
}

// While a lever moves the axes keep still; when it is over they settle.
func TestAxesKeepStill(t *testing.T) {
	d := plain()
	d.Reach = [][]Point{{pt(10, 10), pt(90, 10), pt(90, 90), pt(10, 90)}}
	p, _ := bench(t, d)
	p.SetWhole(false)
	p.SetMoving(true)
	before := p.shown
	d.Reach = [][]Point{{pt(45, 45), pt(55, 45), pt(55, 55), pt(45, 55)}}
	p.Set(d)
	if p.shown != before {
		t.Errorf("the axes went from %+v to %+v during a move", before, p.shown)
	}
	p.SetMoving(false)
	if p.shown == before || p.shown != p.goal {
		t.Errorf("the axes did not settle: %+v", p.shown)
	}
	p.SetMoving(true)
	d.Here = pt(95, 50)
	p.Set(d)
	if p.shown.dHigh != 100 || p.shown.dLow > 40 {
		t.Errorf("a design that would leave must widen the axes, and only widen them: %+v", p.shown)
	}
}

func TestDragPin(t *testing.T) {
	p, told := bench(t, plain())
	p.SetPin(Wish{f(60), f(40)})
	pull(p, at(60, 40).AddXY(4, 0), at(61, 41).AddXY(4, 0), at(64, 45.2).AddXY(4, 0))
	expect(t, told, "pin 61 41; pin 64 45")
	if got := p.spot(p.now.Pin.At); math.Abs(float64(got.X-at(64, 0).X)) > 0.01 || math.Abs(float64(got.Y-at(0, 45.2).Y)) > 0.01 {
		t.Errorf("the pin must stay under the pointer: %v, want %v", got, at(64, 45.2))
	}
	p.SetPin(Wish{f(1), f(1)})
	if *p.Pin().Dryness != 64 {
		t.Error("the programme moved a pin that was being dragged")
	}
	release(p)
	expect(t, told, "pin end")
	pull(p, at(64, 45))
	release(p)
	expect(t, told, "")
}

// A press on an empty place calls the pin, so that no drag is needed (WCAG 2.2,
// 2.5.7).
func TestPressCallsPin(t *testing.T) {
	p, told := bench(t, plain())
	pull(p, at(80, 20))
	release(p)
	p.Tapped(&fyne.PointEvent{Position: at(80, 20)}) // the tap that follows the press
	expect(t, told, "pin 80 20; pin end")
	p.Tapped(&fyne.PointEvent{Position: at(10, 90)}) // a touch tells of no press
	expect(t, told, "pin 10 90; pin end")
}

func TestEscapePutsPinBack(t *testing.T) {
	p, told := bench(t, plain())
	p.SetPin(Wish{f(60), f(40)})
	pull(p, at(60, 40), at(70, 30))
	key(p, fyne.KeyEscape)
	expect(t, told, "pin 70 30; pin 60 40; pin end")
	p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at(10, 10)}})
	release(p)
	expect(t, told, "")
	pull(p, at(60, 40), at(61, 40))
	release(p)
	expect(t, told, "pin 61 40; pin end")
}

// Leaving the plane keeps the pin on it.
func TestPinStaysOnPlane(t *testing.T) {
	p, told := bench(t, plain())
	p.SetPin(Wish{f(60), f(40)})
	pull(p, at(60, 40), fyne.NewPos(-500, 900))
	release(p)
	expect(t, told, "pin 100 0; pin end")
}

func TestPullArrow(t *testing.T) {
	p, told := bench(t, plain())
	tip := fyne.Position(p.layout.Arrows[0].Tip)
	pull(p, tip, tip.AddXY(30, 7), tip.AddXY(-15, 0))
	expect(t, told, "pull rest 1.00; pull rest -0.50") // sideways counts nothing
	release(p)
	expect(t, told, "pull end rest")
	tip = fyne.Position(p.layout.Arrows[1].Tip)
	pull(p, tip, tip.AddXY(0, -12))
	expect(t, told, "pull honey 2.00")
	// New data during the pull doesn't change what a pixel means.
	d := plain()
	d.Here, d.Arrows[1].To = pt(50, 54), pt(50, 60)
	p.Set(d)
	p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: tip.AddXY(0, -18)}})
	expect(t, told, "pull honey 3.00")
	key(p, fyne.KeyEscape)
	expect(t, told, "pull honey 0.00; pull end honey")
	release(p)
	expect(t, told, "")
}

// The word of an arrow is a handle too.
func TestPullWord(t *testing.T) {
	p, told := bench(t, plain())
	word := p.layout.Arrows[0].Word
	mid := fyne.NewPos((word.X0+word.X1)/2, (word.Y0+word.Y1)/2)
	pull(p, mid, mid.AddXY(60, 0))
	release(p)
	expect(t, told, "pull rest 2.00; pull end rest")
}

// A step that moves the beer by less than a pixel can still be pulled; one that
// does nothing has no arrow.
func TestSmallSteps(t *testing.T) {
	d := plain()
	d.Arrows = []Arrow{{"tiny", "later", "12 h", pt(50.1, 50), nil}, {"none", "nothing", "", pt(50, 50), nil}}
	p, told := bench(t, d)
	if len(p.layout.Arrows) != 1 {
		t.Fatalf("%d arrows", len(p.layout.Arrows))
	}
	m := p.layout.Arrows[0]
	if long := math.Hypot(float64(m.Tip.X-m.Start.X), float64(m.Tip.Y-m.Start.Y)); long < plotting.LeastArrow-0.01 {
		t.Errorf("an arrow of %.1f can't be taken hold of", long)
	}
	tip := fyne.Position(m.Tip)
	pull(p, tip, tip.AddXY(-plotting.LeastPull, 0))
	expect(t, told, "pull tiny 1.00")
	release(p)
}

func TestKeysMovePin(t *testing.T) {
	p, told := bench(t, plain())
	p.focus()
	key(p, fyne.KeyLeft) // the first calls the pin to the design: left is drier
	expect(t, told, "pin 51 50; pin end")
	key(p, fyne.KeyRight, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown)
	expect(t, told, "pin 50 50; pin end; pin 49 50; pin end; pin 49 51; pin end; pin 49 50; pin end")
	p.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	key(p, fyne.KeyUp)
	p.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	expect(t, told, "pin 49 55; pin end")
	// A held key is one gesture.
	p.KeyDown(&fyne.KeyEvent{Name: fyne.KeyLeft})
	key(p, fyne.KeyLeft, fyne.KeyLeft)
	expect(t, told, "pin 50 55; pin 51 55")
	p.KeyUp(&fyne.KeyEvent{Name: fyne.KeyLeft})
	expect(t, told, "pin end")
	key(p, fyne.KeyDelete, fyne.KeyDelete)
	expect(t, told, "pin any any; pin end")
	p.SetPin(Wish{f(99.5), f(0)})
	key(p, fyne.KeyLeft, fyne.KeyLeft, fyne.KeyDown)
	expect(t, told, "pin 100 0; pin end")
}

func TestKeysPullArrows(t *testing.T) {
	p, told := bench(t, plain())
	p.focus()
	key(p, fyne.KeySpace, fyne.KeyRight, fyne.KeyLeft)
	expect(t, told, "pull rest 1.00; pull end rest; pull rest -1.00; pull end rest")
	key(p, fyne.KeySpace)
	p.KeyDown(&fyne.KeyEvent{Name: fyne.KeyRight})
	key(p, fyne.KeyRight, fyne.KeyRight)
	p.KeyDown(&fyne.KeyEvent{Name: fyne.KeyEscape})
	key(p, fyne.KeyEscape)
	p.KeyUp(&fyne.KeyEvent{Name: fyne.KeyEscape})
	expect(t, told, "pull honey 1.00; pull honey 2.00; pull honey 0.00; pull end honey")
	// Its lever is locked: the arrow goes, and the keys are the pin's.
	d := plain()
	d.Arrows = d.Arrows[:1]
	p.Set(d)
	key(p, fyne.KeyUp)
	expect(t, told, "pin 50 51; pin end")
	key(p, fyne.KeySpace, fyne.KeySpace, fyne.KeyRight)
	expect(t, told, "pin 49 51; pin end")
}

// A key held when the focus leaves ends its gesture.
func TestFocusLostEnds(t *testing.T) {
	p, told := bench(t, plain())
	p.focus()
	p.KeyDown(&fyne.KeyEvent{Name: fyne.KeyUp})
	key(p, fyne.KeyUp)
	p.FocusLost()
	expect(t, told, "pin 50 51; pin end")
}

// A wish for one axis is a line: dragging and keys leave the other axis free.
func TestOneAxis(t *testing.T) {
	p, told := bench(t, plain())
	p.SetPin(Wish{Dryness: f(70)})
	column := func(body float64) color.RGBA {
		q := at(70, body)
		return p.image(300, 324).(*image.RGBA).RGBAAt(int(q.X), int(q.Y))
	}
	if c := p.palette.Pin; column(5) != (color.RGBA{c.R, c.G, c.B, 0xFF}) || column(95) != column(5) {
		t.Errorf("a wish for dryness alone is a line from top to bottom, not %v and %v", column(95), column(5))
	}
	pull(p, at(70, 12), at(72, 90)) // anywhere on the line
	release(p)
	expect(t, told, "pin 72 any; pin end")
	p.focus()
	key(p, fyne.KeyUp, fyne.KeyLeft)
	expect(t, told, "pin 73 any; pin end")
	p.SetPin(Wish{Body: f(20)})
	pull(p, at(90, 20), at(90, 25))
	release(p)
	expect(t, told, "pin any 25; pin end")
	p.SetPin(Wish{})
	if p.now.Pin.Shown || column(5) == (color.RGBA{p.palette.Pin.R, p.palette.Pin.G, p.palette.Pin.B, 0xFF}) {
		t.Error("nothing is wanted, yet a pin is drawn")
	}
}

// What is no number is left out, and nothing breaks.
func TestNotANumber(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	d := plain()
	d.Half = [][]Point{{pt(nan, 1), pt(2, inf), pt(3, 3), pt(4, 4)}, nil}
	d.Most = [][]Point{append(ellipse(pt(50, 50), 8, 4, 0), pt(nan, nan))}
	d.Reach = [][]Point{{pt(1e300, -1e300), pt(70, 30), pt(inf, 70), pt(30, 70), pt(-1e300, 0)}}
	d.Arrows = append(d.Arrows, Arrow{"bad", "bad", "", pt(nan, 5), nil})
	d.Ghost = &Ghost{pt(nan, nan), "gone", nil}
	p, _ := bench(t, d)
	p.SetPin(Wish{f(nan), f(inf)})
	p.SetWays([]Point{pt(nan, 1), pt(40, 40), pt(inf, inf)})
	if len(p.now.Half.Ends) != 0 || len(p.now.arrows) != 2 || p.now.Ghosted || !p.wish.Empty() {
		t.Errorf("kept %+v, wish %v", p.now, p.wish)
	}
	if b := p.layout.Badges; b[0].Shown || !b[1].Shown || b[2].Shown {
		t.Error("the second way keeps its number when the first has no place")
	}
	p.image(300, 300)
	if strings.Contains(p.AccessibilityLabel(), "NaN") {
		t.Error(p.AccessibilityLabel())
	}
	d.Here = pt(nan, 50)
	p.Set(d)
	pull(p, at(80, 20), at(10, 10))
	release(p)
	p.image(300, 300)
	if p.now.Known {
		t.Error("a design without a place is no design")
	}
}

// Any landing at any size is drawn without a panic.
func TestAnythingIsDrawn(t *testing.T) {
	p, _ := bench(t, plain())
	wild := rapid.OneOf(rapid.Float64Range(-20, 120), rapid.Float64(), rapid.Just(math.NaN()), rapid.Just(math.Inf(-1)))
	point := rapid.Custom(func(r *rapid.T) Point { return pt(wild.Draw(r, "d"), wild.Draw(r, "b")) })
	ring := rapid.SliceOfN(point, 0, 12)
	rapid.Check(t, func(r *rapid.T) {
		d := Data{Here: point.Draw(r, "here"), Half: rapid.SliceOfN(ring, 0, 3).Draw(r, "half"),
			Most: rapid.SliceOfN(ring, 0, 3).Draw(r, "most"), Reach: rapid.SliceOfN(ring, 0, 10).Draw(r, "reach")}
		for range rapid.IntRange(0, 12).Draw(r, "arrows") {
			d.Arrows = append(d.Arrows, Arrow{"lever", "word", "", point.Draw(r, "to"), nil})
		}
		p.SetWhole(rapid.Bool().Draw(r, "whole"))
		p.Set(d)
		p.SetWays(ring.Draw(r, "ways"))
		p.Resize(fyne.NewSize(rapid.Float32Range(0, 400).Draw(r, "w"), rapid.Float32Range(0, 400).Draw(r, "h")))
		img := p.image(rapid.IntRange(0, 500).Draw(r, "pw"), rapid.IntRange(0, 500).Draw(r, "ph")).(*image.RGBA)
		if img.Stride != 4*img.Rect.Dx() || img.Rect.Min != (image.Point{}) {
			r.Fatalf("the canvas ignores strides: %v with %d", img.Rect, img.Stride)
		}
		for i := 3; i < len(img.Pix); i += 4 {
			if img.Pix[i] != 0xFF {
				r.Fatalf("pixel %d shines through", i/4)
			}
		}
	})
}

func TestTinySizes(t *testing.T) {
	p, _ := bench(t, gateField())
	p.SetPin(Wish{f(60), f(40)})
	for _, s := range []float32{0, 1, 5, 24, 25, 40, 61} {
		p.Resize(fyne.NewSize(s, s))
		p.image(int(s), int(s))
		pull(p, fyne.NewPos(s/2, s/2), fyne.NewPos(s, s))
		release(p)
	}
}

// A picture is drawn anew for what has changed or for another size only, and the
// one handed out last is left alone.
func TestDrawsOnlyWhenNeeded(t *testing.T) {
	p, _ := bench(t, plain())
	first := p.image(300, 300)
	if p.image(300, 300) != first {
		t.Error("drawn again for nothing")
	}
	p.MouseIn(mouse(at(80, 20)))
	p.MouseMoved(mouse(at(81, 21)))
	if p.image(300, 300) != first {
		t.Error("drawn again for a pointer over nothing")
	}
	p.SetPin(Wish{f(60), f(40)})
	last := p.image(300, 300).(*image.RGBA)
	before := append([]uint8(nil), last.Pix...)
	p.Set(gateField())
	if p.image(300, 300) == image.Image(last) || !slices.Equal(last.Pix, before) {
		t.Error("the picture in use was drawn upon")
	}
	if big := p.image(600, 600); big.Bounds().Dx() != 600 {
		t.Error("not as large as the screen asks")
	}
}

// The set keeps nothing of the caller's.
func TestSetCopies(t *testing.T) {
	d := gateField()
	p, _ := bench(t, d)
	d.Most[0][0] = pt(1, 1)
	d.Reach[0][0] = pt(1, 1)
	d.Arrows[0].Word = "changed"
	d.Ghost.Name = "changed"
	if p.now.Most.Points[0] == (pt(1, 1)) || p.now.Reach.Points[0] == (pt(1, 1)) || p.now.arrows[0].Word == "changed" || p.now.GhostName == "changed" {
		t.Error("the plane shares memory with its owner")
	}
}

// Words stay on the plane, off each other, and where they were for a small
// change.
func TestWordsHang(t *testing.T) {
	p, _ := bench(t, gateField())
	p.SetWhole(false)
	check := func() {
		t.Helper()
		v := p.view()
		for i, m := range p.layout.Arrows {
			if b := m.Word; b.X0 < 0 || b.Y0 < 0 || b.X1 > v.Wide || b.Y1 > v.High {
				t.Errorf("%q leaves the plane", m.Lever)
			}
			for _, o := range p.layout.Arrows[:i] {
				if m.Word.Overlap(o.Word) > 0 {
					t.Errorf("%q lies on %q", m.Lever, o.Lever)
				}
			}
		}
	}
	check()
	before := map[string]plotting.ArrowPlace{}
	for _, m := range p.layout.Arrows {
		before[m.Lever] = m
	}
	d := gateField()
	for i := range d.Arrows {
		d.Arrows[i].To.Body += 0.1
	}
	d.Here.Body += 0.1
	p.Set(d)
	check()
	for _, m := range p.layout.Arrows {
		was := before[m.Lever]
		hop := math.Hypot(float64(m.Word.X0-m.Tip.X-was.Word.X0+was.Tip.X), float64(m.Word.Y0-m.Tip.Y-was.Word.Y0+was.Tip.Y))
		if hop > 2 {
			t.Errorf("the word of %q hopped by %.1f", m.Lever, hop)
		}
	}
}

// Arrows of one direction stand side by side.
func TestSameDirection(t *testing.T) {
	d := plain()
	d.Arrows = []Arrow{{"a", "one", "", pt(40, 50), nil}, {"b", "other", "", pt(42, 50), nil}}
	p, _ := bench(t, d)
	if gap := math.Abs(float64(p.layout.Arrows[0].Tip.Y - p.layout.Arrows[1].Tip.Y)); gap < 5-0.01 {
		t.Errorf("the tips are %.1f apart", gap)
	}
}

func TestHints(t *testing.T) {
	d := gateField()
	d.Ghost.At = pt(80, 80)
	p, _ := bench(t, d)
	hints := &log{}
	p.OnHint = func(text string) { hints.add("%s", text) }
	p.SetPin(Wish{f(80), f(40)})
	p.SetWays([]Point{pt(20, 20)})
	m := p.layout.Arrows[3]
	for _, c := range []struct {
		at   fyne.Position
		want string
	}{
		{at(80, 40), "wanted: dryness 80, body 40"},
		{at(20, 20), "way 1 lands at dryness 20, body 20"},
		{at(58, 35), "this design: dryness 58, body 35; most of the cloud lies within dryness 46 to 70"},
		{at(80, 80), "As first drawn: dryness 80, body 80"},
		{fyne.Position(m.Tip), "more honey, 100 g: dryness +0.9, body +0.4"},
		{at(10, 90), "dryness 10, body 90 – click to want this"},
	} {
		p.MouseIn(mouse(c.at))
		if !strings.HasPrefix(hints.last(), c.want) {
			t.Errorf("at %v: %q, want %q", c.at, hints.last(), c.want)
		}
	}
	p.MouseOut()
	if hints.last() != "" {
		t.Errorf("the hint %q stays", hints.last())
	}
}

func TestAccessibilityLabel(t *testing.T) {
	p, _ := bench(t, gateField())
	p.SetPin(Wish{f(64), nil})
	p.SetWays([]Point{pt(63, 35)})
	label := p.AccessibilityLabel()
	for _, want := range []string{"landing plane", "dryness 58, body 35", "46 to 70", "wanted: dryness 64, any body", "As first drawn", "way 1 lands at"} {
		if !strings.Contains(label, want) {
			t.Errorf("%q is not said in %q", want, label)
		}
	}
	p.focus()
	key(p, fyne.KeySpace)
	if !strings.Contains(p.AccessibilityLabel(), "arrow chosen: hotter") {
		t.Error(p.AccessibilityLabel())
	}
	p.Set(Data{Note: "No grain yet"})
	if !strings.Contains(p.AccessibilityLabel(), "No grain yet") {
		t.Error(p.AccessibilityLabel())
	}
}

func TestZoom(t *testing.T) {
	p, told := bench(t, gateField())
	p.OnZoom = func(whole bool) { told.add("whole %v", whole) }
	p.focus()
	p.TypedRune('z')
	if p.shown == wholePlane || p.now.Dry == "dry" {
		t.Errorf("still %+v, %q", p.shown, p.now.Dry)
	}
	test.Tap(p.parts.zoom)
	if p.shown != wholePlane || p.now.Dry != "dry" {
		t.Errorf("%+v, %q is not the whole plane", p.shown, p.now.Dry)
	}
	expect(t, told, "whole false; whole true")
}

// Colours are the theme's of the moment.
func TestFollowsTheme(t *testing.T) {
	p, _ := bench(t, gateField())
	p.image(300, 300)
	fyne.CurrentApp().Settings().SetTheme(look.New(look.Dark))
	p.Refresh()
	dark := look.PaletteOf(look.New(look.Dark), 2)
	if got := p.image(300, 324).(*image.RGBA).RGBAAt(2, 3); got.R != dark.Panel.R || got.B != dark.Panel.B {
		t.Errorf("the picture's ground is %v", got)
	}
}

// One stop of the Tab key.
func TestOneTabStop(t *testing.T) {
	p, _ := bench(t, gateField())
	c := fyne.CurrentApp().Driver().CanvasForObject(p)
	c.FocusNext()
	if c.Focused() != fyne.Focusable(p) {
		t.Fatalf("Tab goes to %T", c.Focused())
	}
	c.FocusNext()
	if c.Focused() != fyne.Focusable(p) {
		t.Errorf("a second stop: %T", c.Focused())
	}
}
