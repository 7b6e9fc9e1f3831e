package plane

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"

	"skep/plotting"
)

// BenchmarkPlaneFrame is one computed frame: new cloud, reach and arrows, laid
// out and drawn for a plane of 252 by 292 in the third column, at screens of
// one and two pixels a unit.
func BenchmarkPlaneFrame(b *testing.B) {
	for _, scale := range []int{1, 2} {
		b.Run(fmt.Sprintf("scale%d", scale), func(b *testing.B) {
			p, _ := bench(b, gateField())
			p.SetWhole(false)
			p.Resize(fyne.NewSize(252, 292+plotting.LandingFoot))
			frames := make([]Data, 16)
			for i := range frames {
				frames[i] = gateField()
				by := float64(i) * 0.2
				frames[i].Here.Dryness -= by
				for k := range frames[i].Arrows {
					frames[i].Arrows[k].To.Dryness -= by
				}
				frames[i].Half[0] = ellipse(frames[i].Here, 7.5, 2.6, -0.28)
				frames[i].Most[0] = ellipse(frames[i].Here, 12, 4.4, -0.28)
			}
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				p.Set(frames[i%len(frames)])
				p.image(252*scale, (292+plotting.LandingFoot)*scale)
			}
		})
	}
}

// BenchmarkPinMove is one move of the pointer with the pin.
func BenchmarkPinMove(b *testing.B) {
	p, _ := bench(b, gateField())
	p.OnPin = func(_, _ *float64) {}
	p.SetPin(Wish{f(60), f(40)})
	pull(p, at(60, 40))
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at(60, 40).AddXY(float32(i%50), 0)}})
	}
}
