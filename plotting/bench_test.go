package plotting

import (
	"image/color"
	"runtime"
	"testing"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"skep/calc/parallel"
	"skep/plotting/style"
)

// bare draws the lines of one picture as anyone would with gonum/plot: a new
// plot and a new canvas, its own axes, one band and three lines.
func bare(b *testing.B, p *Picture, w, h, dpi int) {
	pl := plot.New()
	now := &p.Series[1]
	n := len(now.Band)
	mid, low, high := make(plotter.XYs, n), make(plotter.XYs, n), make(plotter.XYs, n)
	ring := make(plotter.XYs, 0, 2*n)
	for i := range n {
		t := now.TemperatureC[i]
		mid[i], low[i], high[i] = plotter.XY{X: t, Y: now.Band[i].Mid}, plotter.XY{X: t, Y: now.Band[i].Low}, plotter.XY{X: t, Y: now.Band[i].High}
	}
	ring = append(ring, high...)
	for i := n - 1; i >= 0; i-- {
		ring = append(ring, low[i])
	}
	band, err := plotter.NewPolygon(ring)
	if err != nil {
		b.Fatal(err)
	}
	band.Color = color.NRGBA{0, 0x72, 0xB2, 46}
	band.LineStyle.Width = 0
	pl.Add(band)
	for _, xy := range []plotter.XYs{mid, low, high} {
		line, err := plotter.NewLine(xy)
		if err != nil {
			b.Fatal(err)
		}
		line.Width = 2
		pl.Add(line)
	}
	pl.X.Min, pl.X.Max, pl.Y.Min, pl.Y.Max = p.X.Range.Low, p.X.Range.High, p.Y.Range.Low, p.Y.Range.High
	inch := vg.Length(dpi) / vg.Inch
	canvas := vgimg.NewWith(vgimg.UseWH(vg.Length(w)/inch, vg.Length(h)/inch), vgimg.UseDPI(dpi))
	pl.Draw(draw.New(canvas))
}

func benchmarkBare(b *testing.B, w, h, dpi int) {
	pictures := inventedFour()
	b.ReportAllocs()
	for b.Loop() {
		for i := range pictures {
			bare(b, &pictures[i], w, h, dpi)
		}
	}
}

// BenchmarkBareDrawing is the measure for the rest: the band polygon, the
// median and the band's two edges, and the axes of the four pictures by plain
// gonum/plot, one after the other, 480 by 320 pixels each. (The ghost, the
// marked point and the names, which ours draw too, are left out.)
func BenchmarkBareDrawing(b *testing.B) { benchmarkBare(b, 480, 320, 96) }

// BenchmarkBareDrawing2x is the same at twice the pixels each way.
func BenchmarkBareDrawing2x(b *testing.B) { benchmarkBare(b, 960, 640, 192) }

// benchmarkPictures moves the design each time, so that all data layers are
// really drawn anew.
func benchmarkPictures(b *testing.B, size Size, change func(i int, pictures []Picture)) {
	frames := [2][]Picture{inventedFour(), inventedFour()}
	other := invented(0.1)
	for o := range frames[1] {
		frames[1][o].Series[1].Band = other.Bands[o]
		frames[1][o].AtC = 66.6
	}
	p, c := NewPainter(), style.Light()
	p.Draw(c, frames[0], size)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if change != nil {
			change(i, frames[i%2])
		}
		p.Draw(c, frames[i%2], size)
		p.Show()
	}
}

// BenchmarkPictures draws our four pictures, all layers, while a lever moves.
func BenchmarkPictures(b *testing.B) {
	benchmarkPictures(b, Size{480, 320, 1}, nil)
}

// BenchmarkPictures2x is the same at twice the pixels each way.
func BenchmarkPictures2x(b *testing.B) {
	benchmarkPictures(b, Size{960, 640, 2}, nil)
}

// BenchmarkPicturesGliding has the axes move too, so the static layers are
// drawn anew for each frame.
func BenchmarkPicturesGliding(b *testing.B) {
	benchmarkPictures(b, Size{480, 320, 1}, func(i int, pictures []Picture) {
		for o := range pictures {
			pictures[o].Y.Range.High += 1e-5
		}
	})
}

// BenchmarkPicturesVgimg draws the same Plotters on gonum/plot's own image
// canvas, its pixels and plots kept as ours are: what windowCanvas is measured
// against.
func BenchmarkPicturesVgimg(b *testing.B) {
	pictures, c := inventedFour(), style.Light()
	size := Size{480, 320, 1}
	var plots []*outcomePlot
	var data []draw.Canvas
	for i := range pictures {
		canvas := vgimg.NewWith(vgimg.UseWH(size.wide(), size.high()), vgimg.UseDPI(96), vgimg.UseBackgroundColor(c.Ground))
		p := newOutcomePlot(&pictures[i], &c, draw.New(canvas))
		p.Draw(p.canvas)
		plots, data = append(plots, p), append(data, p.DataCanvas(p.canvas))
	}
	b.ReportAllocs()
	for b.Loop() {
		parallel.Each(runtime.GOMAXPROCS(0), len(plots), func(_, i int) {
			for _, d := range plots[i].plotters(&pictures[i], &c) {
				d.Plot(data[i], plots[i].Plot)
			}
		})
	}
}

// BenchmarkPicturesStrains draws six strains over each other.
func BenchmarkPicturesStrains(b *testing.B) {
	pictures := inventedStrains(style.Strains)
	p, c := NewPainter(), style.Light()
	b.ReportAllocs()
	for b.Loop() {
		p.Draw(c, pictures, Size{480, 320, 1})
	}
}
