package app

import (
	"sort"
	"testing"
	"time"

	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
)

// BenchmarkLeverMove is the whole way from a lever's change to all four
// pictures, 480 by 320 each, handed to the canvas: event handler, model with
// bands, drawing, texts. It reports the 50th and 99th percentile, which the
// mean hides. Compare it with plotting's BenchmarkBareDrawing in one run.
func BenchmarkLeverMove(b *testing.B) {
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
		b.Run(lever.name, func(b *testing.B) {
			s := newStage(b, "")
			for o := range s.taste.pictures {
				s.taste.pictures[o].wanted = plotting.Size{Width: 480, Height: 320, Scale: 1}
			}
			s.settle()
			var took []float64
			i := 0
			for b.Loop() {
				i++
				start := time.Now()
				s.moving("benchmark", lever.name, func(d *design.Design) { lever.move(d, i) })
				s.worker.Idle()
				s.q.drain()
				for o := range calc.Outcomes {
					if s.painter.Image(int(o)) == nil {
						b.Fatal("no picture")
					}
				}
				took = append(took, float64(time.Since(start).Microseconds())/1000)
			}
			sort.Float64s(took)
			b.ReportMetric(took[len(took)/2], "p50-ms")
			b.ReportMetric(took[min(len(took)-1, len(took)*99/100)], "p99-ms")
		})
	}
}
