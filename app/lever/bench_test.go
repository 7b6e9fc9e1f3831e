package lever

import (
	"testing"

	"fyne.io/fyne/v2"

	"skep/calc/quantity"
)

// BenchmarkMove is what one pointer event costs in the widget itself; a fast
// mouse sends some sixteen in a frame of 16.7 ms.
func BenchmarkMove(b *testing.B) {
	f := quantity.NewFormatter(quantity.Units{}, nil)
	l := New("Mash rest", Scale{Min: 58, Max: 72, Step: 0.1}, 66.5, func(v float64) string { return f.Format(quantity.Temperature, v) })
	l.Resize(fyne.NewSize(248, 68))
	l.CreateRenderer()
	ev := &fyne.DragEvent{}
	told := 0
	l.OnChanged = func(float64) { told++ }
	i := 0
	for b.Loop() {
		i++
		ev.Position = fyne.NewPos(20+float32(i%200), l.trackY())
		l.Dragged(ev)
	}
	if told < i/3 {
		b.Fatalf("%d events moved the lever %d times", i, told)
	}
}
