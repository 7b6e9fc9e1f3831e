package taste

import (
	"runtime"
	"sort"
	"testing"
	"time"

	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
)

// BenchmarkLeverMove is the whole way from a lever's change to all four
// pictures and the landing plane handed to the canvas: event handler, model
// with bands, drawing, texts, cloud, outline and arrows. Pictures are 480 by
// 320 each, as in a window of 1280 by 800; "2x" has twice the pixels each way.
// It reports the 50th and 99th percentile, which the mean hides, of the
// pictures alone too; and of a move the processor's time, the memory taken and
// the collector's runs, which other programs disturb less. Compare it with
// plotting's BenchmarkBareDrawing in one run (.ci/bench).
func BenchmarkLeverMove(b *testing.B) {
	for _, size := range []struct {
		name string
		of   plotting.Size
	}{
		{"", plotting.Size{Width: 480, Height: 320, Scale: 1}},
		{"2x", plotting.Size{Width: 960, Height: 640, Scale: 2}},
	} {
		for _, lever := range []struct {
			name string
			move func(d *design.Design, i int)
		}{
			{"rest", func(d *design.Design, i int) { d.Mash.Rest[0].TemperatureC = 60 + float64(i%100)/10 }},
			{"minutes", func(d *design.Design, i int) { d.Mash.Rest[0].Minutes = 30 + float64(i%60) }},
			{"attenuation", func(d *design.Design, i int) {
				d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct = 70+float64(i%20)/2, 76+float64(i%20)/2
			}},
			{"honey", func(d *design.Design, i int) { d.Honey[0].MassKg = float64(i%100) / 100 }},
		} {
			b.Run(lever.name+size.name, func(b *testing.B) { benchmarkMove(b, lever.name, size.of, lever.move) })
		}
	}
}

func benchmarkMove(b *testing.B, name string, size plotting.Size, move func(d *design.Design, i int)) {
	s := tasteStage(b)
	for o := range s.taste.Pictures {
		s.taste.Pictures[o].Wanted = size
	}
	s.WaitIdle()
	var pictures, all []float64
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	processor := processorMs()
	i := 0
	for b.Loop() {
		i++
		start := time.Now()
		ui.Move(s, "benchmark", name, func(d *design.Design) { move(d, i) })
		s.taste.Worker.Idle()
		s.Q.Drain()
		pictures = append(pictures, ms(start))
		s.taste.plane.Idle()
		s.Q.Drain()
		all = append(all, ms(start))
		for o := range calc.Outcomes {
			if s.taste.painter.Image(int(o)) == nil {
				b.Fatal("no picture")
			}
		}
	}
	processor = processorMs() - processor
	runtime.ReadMemStats(&after)
	moves := float64(len(all))
	if got := s.taste.painter.Image(0).Bounds().Dx(); got < size.Width {
		b.Fatalf("a picture is %d pixels wide, wanted %d", got, size.Width)
	}
	sort.Float64s(pictures)
	sort.Float64s(all)
	b.ReportMetric(processor/moves, "processor-ms")
	b.ReportMetric(float64(after.TotalAlloc-before.TotalAlloc)/1024/moves, "kB")
	b.ReportMetric(100*float64(after.NumGC-before.NumGC)/moves, "collections/100")
	b.ReportMetric(share(all, 0.5), "p50-ms")
	b.ReportMetric(share(all, 0.99), "p99-ms")
	b.ReportMetric(share(pictures, 0.5), "pictures-p50-ms")
	b.ReportMetric(share(pictures, 0.99), "pictures-p99-ms")
}

func ms(since time.Time) float64 { return float64(time.Since(since).Microseconds()) / 1000 }

func share(sorted []float64, of float64) float64 {
	return sorted[min(len(sorted)-1, int(float64(len(sorted))*of))]
}

// A second rest gives the lever a line of words more: it and those below it make room at
// once, so that no rail strikes through them; with one rest the room goes again.
func TestASecondRestMakesRoomForItsWords(t *testing.T) {
	s := tasteStage(t)
	room := func(when string) {
		t.Helper()
		l := s.taste.Levers
		if h, needs := l.Rest.Size().Height, l.Rest.MinSize().Height; h < needs {
			t.Errorf("%s the lever of the rest has %g of the %g points that it needs", when, h, needs)
		}
		if end, next := ui.Position(l.Rest).Y+l.Rest.Size().Height, ui.Position(l.Minutes).Y; end > next {
			t.Errorf("%s the lever of the rest ends at %g, the next begins at %g", when, end, next)
		}
	}
	room("at first")
	ui.Change(s, "a rest more", func(d *design.Design) { d.Mash.Rest = append(d.Mash.Rest, design.Rest{TemperatureC: 70, Minutes: 20}) })
	room("with two rests, at once,")
	s.WaitIdle()
	room("with two rests")
	high := s.taste.Levers.Rest.Size().Height
	s.Undo()
	s.WaitIdle()
	if now := s.taste.Levers.Rest.Size().Height; now >= high {
		t.Errorf("with one rest again it keeps %g points", now)
	}
}
