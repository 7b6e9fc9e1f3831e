package follow

import (
	"math/rand/v2"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/measured"
)

// BenchmarkUpdate is an update with twenty readings, honey among them, the
// mash kept from the last one. Wanted: below 20 ms.
func BenchmarkUpdate(b *testing.B) {
	d := demotest.Design(b, "middle")
	x := newBrewer(b, d, rand.New(rand.NewPCG(1, 1)))
	x.m = loggedModel(b, d, 52)
	x.m.run(&x.truth, &x.made)
	hours := []float64{8, 14, 20, 26, 32, 38, 44, 50, 56, 70, 80, 94, 118, 142, 166, 190, 214}
	d.Reading = append(x.readings(hours...), reading(measured.HoneyAdded, 52, 0.55))
	var f Follower
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Follow(d, at(220), measured.Instruments{}, calc.Doubts{}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFirstUpdate is the same with nothing kept: the mash is tabulated and
// the plan drawn as well.
func BenchmarkFirstUpdate(b *testing.B) {
	d := demotest.Design(b, "middle")
	d.Reading = middling(b, d, 8, 14, 20, 26, 32, 38, 44, 50, 56, 70, 80, 94, 118, 142, 166, 190, 214)
	for b.Loop() {
		var f Follower
		if _, err := f.Follow(d, at(220), measured.Instruments{}, calc.Doubts{}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkWrongReading is BenchmarkUpdate with one of the twenty readings wrong,
// so that the rule for which of two is has to search. Wanted: a few ms more.
func BenchmarkWrongReading(b *testing.B) {
	d := demotest.Design(b, "middle")
	x := newBrewer(b, d, rand.New(rand.NewPCG(1, 1)))
	x.m = loggedModel(b, d, 52)
	x.m.run(&x.truth, &x.made)
	hours := []float64{8, 14, 20, 26, 32, 38, 44, 50, 56, 70, 80, 94, 118, 142, 166, 190, 214}
	d.Reading = append(x.readings(hours...), reading(measured.HoneyAdded, 52, 0.55))
	d.Reading[12].Value += 0.008
	var f Follower
	b.ReportAllocs()
	for b.Loop() {
		x, err := f.Follow(d, at(220), measured.Instruments{}, calc.Doubts{})
		if err != nil {
			b.Fatal(err)
		}
		if left := x.Timeline.Used(measured.Gravity); len(left) != len(hours)-1 {
			b.Fatalf("%d readings left of %d", len(left), len(hours))
		}
	}
}
