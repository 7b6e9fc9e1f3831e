package tune

import (
	"testing"

	"skep/assets/demotest"
)

func wishes(i int) Wishes { return taste(50+float64(i%20), 36+float64(i%7), no) }

// The pin is dragged, every continuous lever free: an answer for each of its
// places. Aim: under 16 ms.
func BenchmarkTune(b *testing.B) {
	tu := tuner(b, demotest.Design(b, "middle"))
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if _, err := tu.Live(wishes(i), Free(nil)); err != nil {
			b.Fatal(err)
		}
	}
}

// The same with the engine's whole prediction of each way: what skep tune does.
func BenchmarkTuneWhole(b *testing.B) {
	tu := tuner(b, demotest.Design(b, "middle"))
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if _, err := tu.To(wishes(i), Free(nil)); err != nil {
			b.Fatal(err)
		}
	}
}

// The pin is dragged with 500 strains free. Aim: under 100 ms.
func BenchmarkTuneStrain(b *testing.B) {
	tu := tuner(b, demotest.Design(b, "middle"))
	free := Free(nil)
	free.Strains = strains(500)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if _, err := tu.Live(wishes(i), free); err != nil {
			b.Fatal(err)
		}
	}
}

// From nothing: the design made ready, tuned once.
func BenchmarkTuneCold(b *testing.B) {
	d := demotest.Design(b, "middle")
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if _, err := tuner(b, d).To(wishes(i), Free(nil)); err != nil {
			b.Fatal(err)
		}
	}
}

// A lever is dragged: the design taken over, its cloud, bands and arrows.
func BenchmarkLanding(b *testing.B) {
	d := demotest.Design(b, "middle")
	tu := tuner(b, d)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		d.Mash.Rest[0].TemperatureC = 60 + 0.1*float64(i%100)
		if err := tu.Move(d); err != nil {
			b.Fatal(err)
		}
		if _, err := tu.Land(); err != nil {
			b.Fatal(err)
		}
	}
}

// The outline made anew, as when the strain is dragged.
func BenchmarkOutline(b *testing.B) {
	tu := tuner(b, demotest.Design(b, "middle"))
	b.ReportAllocs()
	for b.Loop() {
		tu.outline.points = nil
		if _, err := tu.Outline(Free(nil).ThisStrain()); err != nil {
			b.Fatal(err)
		}
	}
}
