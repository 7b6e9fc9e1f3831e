package plotting

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"sync"
	"testing"

	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"skep/plotting/style"
)

// Our canvas and gonum's own must give the same picture. They place letters
// differently by up to half a pixel, put hairlines on other pixels and round
// coverage in their own ways, so the test asks that few pixels differ by much.
func TestCanvasesAgree(t *testing.T) {
	t.Parallel()
	for _, size := range []Size{{480, 320, 1}, {960, 640, 2}} {
		for name, pictures := range map[string][]Picture{"now and before": inventedFour(), "strains": inventedStrains(6)} {
			p, c := &pictures[0], style.Light()
			ours := sideBySide(c, pictures[:1], 1, size)
			canvas := vgimg.NewWith(vgimg.UseWH(size.wide(), size.high()),
				vgimg.UseDPI(int(96*size.Scale)), vgimg.UseBackgroundColor(c.Ground))
			newOutcomePlot(p, &c, draw.New(canvas)).draw(p, &c)

			far, inked := 0, 0
			ground := color.RGBAModel.Convert(c.Ground).(color.RGBA)
			for y := range size.Height {
				for x := range size.Width {
					a, b := ours.RGBAAt(x, y), color.RGBAModel.Convert(canvas.Image().At(x, y)).(color.RGBA)
					if a != ground || b != ground {
						inked++
					}
					if distance(a, b) > 100 {
						far++
					}
				}
			}
			if far*100 > inked*3 {
				t.Errorf("%s at %v: %d of %d drawn pixels differ by much", name, size, far, inked)
			}
		}
	}
}

func distance(a, b color.RGBA) float64 {
	d := func(x, y uint8) float64 { return math.Abs(float64(x) - float64(y)) }
	return math.Max(d(a.R, b.R), math.Max(d(a.G, b.G), d(a.B, b.B)))
}

// A picture drawn into used buffers is the same as one drawn afresh.
func TestNothingStaysBehind(t *testing.T) {
	t.Parallel()
	size := Size{302, 252, 1}
	used := NewPainter()
	frames := []struct {
		c style.Palette
		p []Picture
		s Size
	}{
		{style.Light(), inventedFour(), size},
		{style.Light(), inventedStrains(6), size},
		{style.Dark(), inventedStrains(6), size},
		{style.Dark(), kelvin(inventedStrains(6)), size},
		{style.Dark(), labelled(kelvin(inventedStrains(6))), size},
		{style.Dark(), inventedFour(), size},
		{style.Dark(), inventedFour(), Size{480, 320, 1.5}},
		{style.Light(), inventedFour()[:2], size},
		{style.Light(), inventedFour(), size},
	}
	for n := range 3 * len(frames) {
		f := frames[n%len(frames)]
		used.Draw(f.c, f.p, f.s)
		used.Show()
		fresh := NewPainter()
		fresh.Draw(f.c, f.p, f.s)
		fresh.Show()
		for i := range f.p {
			if !bytes.Equal(used.Image(i).Pix, fresh.Image(i).Pix) {
				t.Fatalf("frame %d, picture %d differs from a fresh one", n, i)
			}
		}
		if used.Image(len(f.p)) != nil {
			t.Fatalf("frame %d: a picture too many", n)
		}
	}
}

// kelvin shows temperatures in another unit and leaves the label.
func kelvin(pictures []Picture) []Picture {
	for i := range pictures {
		pictures[i].X.Unit = Unit{
			Name:      "K",
			ToShown:   func(c float64) float64 { return c + 273.15 },
			FromShown: func(k float64) float64 { return k - 273.15 },
		}
	}
	return pictures
}

func labelled(pictures []Picture) []Picture {
	for i := range pictures {
		pictures[i].X.Label = "mash rest, K"
	}
	return pictures
}

// What is shown is not written to while newer frames are drawn, however many,
// and all pictures of a set change together. The race detector watches too.
func TestShownBuffersAreLeftAlone(t *testing.T) {
	t.Parallel()
	painter, size := NewPainter(), Size{200, 150, 1}
	frames := [3][]Picture{inventedFour(), inventedStrains(2), inventedStrains(5)}
	var want [len(frames)][]*image.RGBA
	for f := range frames {
		p := NewPainter()
		p.Draw(style.Light(), frames[f], size)
		p.Show()
		for i := range frames[f] {
			want[f] = append(want[f], p.Image(i))
		}
	}
	stop := make(chan struct{})
	var worker sync.WaitGroup
	worker.Go(func() {
		for n := 0; ; n++ {
			select {
			case <-stop:
				return
			default:
				painter.Draw(style.Light(), frames[n%len(frames)], size)
			}
		}
	})
	for shown := 0; shown < 60; {
		if !painter.Show() {
			continue
		}
		shown++
		which := -1
		for f := range frames {
			if bytes.Equal(painter.Image(0).Pix, want[f][0].Pix) {
				which = f
			}
		}
		if which < 0 {
			t.Error("a torn picture was shown")
			break
		}
		for i := range want[which] {
			if !bytes.Equal(painter.Image(i).Pix, want[which][i].Pix) {
				t.Errorf("picture %d is of another frame than picture 0", i)
			}
		}
	}
	close(stop)
	worker.Wait()
}

func TestShowSaysWhetherThereIsNews(t *testing.T) {
	t.Parallel()
	p := NewPainter()
	if p.Show() || p.Image(0) != nil {
		t.Error("something was shown before anything was drawn")
	}
	if _, ok := p.Layout(0); ok {
		t.Error("a layout before anything was drawn")
	}
	pictures, size := inventedFour(), Size{302, 252, 1}
	p.Draw(style.Light(), pictures, size)
	if p.Image(0) != nil {
		t.Error("shown without Show")
	}
	if !p.Show() || p.Show() {
		t.Error("a drawing must be news once")
	}
	if l, ok := p.Layout(2); !ok || l != layoutOf(&pictures[2], size) {
		t.Errorf("layout %+v, %v", l, ok)
	}
}

// A moving lever must not leave much to collect: 4 pictures, a few dozen small
// allocations. Measured 119 on two processors; the bound leaves room for
// more goroutines.
func TestDrawAllocatesLittle(t *testing.T) {
	p, pictures, size := NewPainter(), inventedFour(), Size{480, 320, 1}
	for range 4 {
		p.Draw(style.Light(), pictures, size)
	}
	if n := testing.AllocsPerRun(20, func() { p.Draw(style.Light(), pictures, size) }); n > 200 {
		t.Errorf("%v allocations a frame", n)
	}
}
