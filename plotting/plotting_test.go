package plotting

import (
	"bytes"
	"image/color"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"skep/calc"
	"skep/plotting/plotters"
	"skep/plotting/style"
)

func TestTicksAreRoundInTheShownUnit(t *testing.T) {
	t.Parallel()
	fahrenheit := Unit{
		ToShown:   func(c float64) float64 { return c*9/5 + 32 },
		FromShown: func(f float64) float64 { return (f - 32) * 5 / 9 },
	}
	for _, c := range []struct {
		name string
		axis Axis
		most int
		want string
	}{
		{"celsius", Axis{Range: Range{58, 72}}, 8, "58 60 62 64 66 68 70 72"},
		{"celsius, narrow", Axis{Range: Range{58, 72}}, 4, "60 65 70"},
		{"fahrenheit", Axis{Range: Range{58, 72}, Unit: fahrenheit}, 6, "140 145 150 155 160"},
		{"gravity", Axis{Range: Range{1.0, 1.02}, Unit: Unit{Tick: Decimals(3)}}, 5, "1.000 1.005 1.010 1.015 1.020"},
		{"below water", Axis{Range: Range{0.994, 1.003}, Unit: Unit{Tick: Decimals(3)}}, 5, "0.994 0.996 0.998 1.000 1.002"},
		{"finer than the unit", Axis{Range: Range{1.0, 1.001}, Unit: Unit{Tick: Decimals(3)}}, 2, "1.0000 1.0005 1.0010"},
		{"about nought", Axis{Range: Range{-0.4, 0.4}}, 4, "-0.4 -0.2 0.0 0.2 0.4"},
		{"own steps", Axis{Range: Range{58, 72}, Unit: Unit{Steps: []float64{1, 4}}}, 5, "60 64 68 72"},
		{"no room", Axis{Range: Range{58, 72}}, 0, ""},
		{"broken", Axis{Range: Range{math.NaN(), 72}}, 5, ""},
		{"upside down", Axis{Range: Range{72, 58}}, 5, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			var got []string
			for _, tick := range (ticker{unit: c.axis.Unit, most: c.most}).Ticks(c.axis.Range.Low, c.axis.Range.High) {
				got = append(got, tick.Label)
			}
			if s := strings.Join(got, " "); s != c.want {
				t.Errorf("got %q, want %q", s, c.want)
			}
		})
	}
}

func TestLayoutMapsThereAndBack(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := &inventedFour()[rapid.IntRange(0, 3).Draw(t, "outcome")]
		size := Size{
			rapid.IntRange(8, 2000).Draw(t, "width"), rapid.IntRange(8, 2000).Draw(t, "height"),
			rapid.Float64Range(0.5, 4).Draw(t, "scale"),
		}
		l := layoutOf(p, size)
		temp := rapid.Float64Range(p.X.Range.Low, p.X.Range.High).Draw(t, "temperature")
		v := rapid.Float64Range(p.Y.Range.Low, p.Y.Range.High).Draw(t, "value")
		x, y := l.PixelX(temp), l.PixelY(v)
		if back := l.TemperatureAt(x); math.Abs(back-temp) > 1e-9 {
			t.Fatalf("%v °C comes back as %v", temp, back)
		}
		if back := l.ValueAt(y); math.Abs(back-v) > 1e-9*math.Max(1, math.Abs(v)) {
			t.Fatalf("%v comes back as %v", v, back)
		}
		if x < -1e-9 || x > float64(size.Width)+1e-9 || y < -1e-9 || y > float64(size.Height)+1e-9 {
			t.Fatalf("(%v, %v) lies outside %v", x, y, size)
		}
	})
}

func TestPinningAGhostMovesNothing(t *testing.T) {
	t.Parallel()
	p := inventedFour()[0]
	with := layoutOf(&p, Size{480, 320, 1})
	p.Series = p.Series[1:]
	if without := layoutOf(&p, Size{480, 320, 1}); without != with {
		t.Errorf("layout with ghost %+v, without %+v", with, without)
	}
}

// The axes of the demo of product.md: still while the curves stay inside,
// outwards only during a drag, back afterwards, never in a jump.
func TestAxes(t *testing.T) {
	t.Parallel()
	fixed := Span(invented(0), invented(1))
	axes := NewAxes(fixed)
	axes.Cover(invented(0.5))
	if axes.Advance(time.Second) || axes.Ranges() != fixed {
		t.Errorf("curves inside moved the axes from %v to %v", fixed, axes.Ranges())
	}

	far := invented(-6)
	axes.Cover(far)
	last := axes.Ranges()
	moved := 0
	for axes.Advance(16 * time.Millisecond) {
		now := axes.Ranges()
		fg, before := now.Outcome[calc.FinalGravity], last.Outcome[calc.FinalGravity]
		if fg.High < before.High || fg.Low > before.Low {
			t.Fatalf("narrowed during a drag: %v to %v", before, fg)
		}
		if step := fg.High - before.High; step > 0.25*(far.Bands[0][56].High-fixed.Outcome[0].High) {
			t.Fatalf("jumped by %v", step)
		}
		last = now
		if moved++; moved > 100 {
			t.Fatal("the glide never ends")
		}
	}
	if moved < 5 {
		t.Errorf("glided in %d frames", moved)
	}
	if top := axes.Ranges().Outcome[calc.FinalGravity].High; top < far.Bands[calc.FinalGravity][56].High {
		t.Errorf("final gravity up to %v doesn't fit under %v", far.Bands[calc.FinalGravity][56].High, top)
	}

	wide := axes.Ranges()
	axes.Cover(invented(0)) // back, still dragging
	axes.Jump()
	if axes.Ranges() != wide {
		t.Error("narrowed before the drag was over")
	}
	axes.Release(invented(0))
	axes.Advance(20 * time.Millisecond)
	gliding := axes.Ranges()
	axes.Cover(invented(0)) // a new drag begins before the glide has ended
	axes.Advance(time.Second)
	if axes.Ranges() != gliding || gliding == wide || gliding == fixed {
		t.Errorf("a drag from %v went on narrowing to %v", gliding, axes.Ranges())
	}
	axes.Release(invented(0))
	for axes.Advance(16 * time.Millisecond) {
	}
	if axes.Ranges() != fixed {
		t.Errorf("settled at %v, not at %v", axes.Ranges(), fixed)
	}
}

func TestSpanOfNothingCanBeDrawn(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	broken := calc.Curves{TemperatureC: []float64{nan, 60}}
	broken.Bands[0] = []calc.Band{{Low: nan, Mid: nan, High: math.Inf(1)}}
	for _, r := range []Ranges{Span(), Span(broken)} {
		for o, y := range r.Outcome {
			if !(y.Low < y.High) || !plotters.Finite(y.Low) || !plotters.Finite(y.High) {
				t.Errorf("outcome %d: %v", o, y)
			}
		}
		if !(r.TemperatureC.Low < r.TemperatureC.High) {
			t.Errorf("temperature: %v", r.TemperatureC)
		}
	}
}

// Whatever comes, a picture is drawn: no size, gap or range makes it panic.
func TestNothingPanics(t *testing.T) {
	t.Parallel()
	odd := rapid.OneOf(
		rapid.Float64Range(-200, 200), rapid.Float64(),
		rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, 66}),
	)
	painter := NewPainter()
	rapid.Check(t, func(t *rapid.T) {
		var s Series
		s.Role = Role(rapid.IntRange(-1, 4).Draw(t, "role"))
		s.Index = rapid.IntRange(-3, 9).Draw(t, "index")
		s.Name = rapid.SampledFrom([]string{"", "now", "a name much too long for any picture at all", "\xff"}).Draw(t, "name")
		s.ShowBand = true
		s.TemperatureC = rapid.SliceOfN(odd, 0, 9).Draw(t, "temperatures")
		for range rapid.IntRange(0, 9).Draw(t, "points") {
			s.Band = append(s.Band, calc.Band{Low: odd.Draw(t, "low"), Mid: odd.Draw(t, "mid"), High: odd.Draw(t, "high")})
		}
		p := Picture{
			X:      Axis{Range: Range{odd.Draw(t, "x0"), odd.Draw(t, "x1")}, Label: "x"},
			Y:      Axis{Range: Range{odd.Draw(t, "y0"), odd.Draw(t, "y1")}},
			AtC:    odd.Draw(t, "at"),
			Series: []Series{s, s},
		}
		size := Size{
			rapid.IntRange(-5, 400).Draw(t, "width"), rapid.IntRange(-5, 300).Draw(t, "height"),
			rapid.SampledFrom([]float64{1, 2, 1.3, 0, -1, math.NaN(), 100}).Draw(t, "scale"),
		}
		painter.Draw(style.Light(), []Picture{p}, size)
		painter.Show()
		img := painter.Image(0)
		if img.Rect.Dx() != max(1, size.Width) || img.Rect.Dy() != max(1, size.Height) {
			t.Fatalf("asked for %v, got %v", size, img.Rect)
		}
	})
	for _, size := range []Size{{40, 30, 1}, {1, 1, 2}, {0, 0, 0}, {3, 500, 1}, {500, 3, 1}} {
		painter.Draw(style.Dark(), append(inventedFour(), Picture{}), size)
	}
	painter.Draw(style.Dark(), nil, Size{40, 30, 1})
	painter.Draw(style.Dark(), inventedFour())
}

func TestSaveIsDeterministic(t *testing.T) {
	t.Parallel()
	for _, f := range []Format{PNG, SVG, PDF} {
		if f == PNG && testing.Short() {
			continue // seconds under the race detector
		}
		var a, b bytes.Buffer
		for _, w := range []*bytes.Buffer{&a, &b} {
			if err := Save(w, f, inventedSheet(style.Print())); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s: two sheets of one design differ", f)
		}
	}
	if err := Save(&bytes.Buffer{}, "gif", Sheet{}); err == nil || !strings.Contains(err.Error(), "gif") {
		t.Errorf("gif: %v", err)
	}
	for _, f := range []Format{PNG, SVG, PDF} {
		if err := Save(&bytes.Buffer{}, f, Sheet{Pictures: []Picture{{}}}); err != nil {
			t.Errorf("empty sheet as %s: %v", f, err)
		}
	}
}

// Contrast as WCAG 2.2 defines it: SC 1.4.3 asks 4.5:1 of text, SC 1.4.11 3:1
// of the parts of a graphic that are needed to understand it.
func TestPalettesHaveContrast(t *testing.T) {
	t.Parallel()
	for name, p := range map[string]style.Palette{"light": style.Light(), "dark": style.Dark(), "print": style.Print()} {
		for what, c := range map[string]color.NRGBA{"ink": p.Ink, "muted": p.Muted, "accent": p.Accent} {
			if r := contrast(c, p.Ground); r < 4.5 {
				t.Errorf("%s: %s as text has %.2f:1", name, what, r)
			}
		}
		if r := contrast(p.Ghost, p.Ground); r < 3 {
			t.Errorf("%s: ghost has %.2f:1", name, r)
		}
		for i, c := range p.Series {
			if r := contrast(c, p.Ground); r < 3 {
				t.Errorf("%s: series %d has %.2f:1", name, i, r)
			}
		}
	}
	for _, dark := range []bool{false, true} {
		p := style.HighContrast(dark)
		lines := append(p.Series[:], p.Ink, p.Muted, p.Accent, p.Edge, p.Ghost)
		for i, c := range lines {
			if r := contrast(c, p.Ground); r < 7 {
				t.Errorf("high contrast, dark %v: colour %d has %.2f:1", dark, i, r)
			}
		}
		if r := contrast(p.Grid, p.Ground); r < 3 {
			t.Errorf("high contrast, dark %v: the grid has %.2f:1", dark, r)
		}
	}
	// Black on white is 21:1 by definition.
	if r := contrast(style.RGB(0), style.RGB(0xFFFFFF)); math.Abs(r-21) > 1e-9 {
		t.Errorf("black on white: %v", r)
	}
}

func contrast(a, b color.NRGBA) float64 {
	luminance := func(c color.NRGBA) float64 {
		channel := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.04045 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*channel(c.R) + 0.7152*channel(c.G) + 0.0722*channel(c.B)
	}
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}
