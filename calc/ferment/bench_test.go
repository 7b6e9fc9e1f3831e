package ferment

import "testing"

// BenchmarkCourse is 14 days by the hour with honey after the height.
func BenchmarkCourse(b *testing.B) {
	in := honeyAle()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Run(in); err != nil {
			b.Fatal(err)
		}
	}
}

// The walk itself must not allocate: two weeks and ten differ only in the
// room for the result.
func TestNoAllocationInTheLoop(t *testing.T) {
	if testing.Short() {
		t.Skip("the race detector, run with -short, allocates by itself")
	}
	short, long := honeyAle(), honeyAle()
	long.HorizonHours = 1680
	count := func(in Input) float64 {
		return testing.AllocsPerRun(5, func() {
			if _, err := Run(in); err != nil {
				t.Fatal(err)
			}
		})
	}
	a, b := count(short), count(long)
	if a != b || a > 25 {
		t.Errorf("%v allocations for two weeks, %v for ten", a, b)
	}
}

// BenchmarkWalk is one draw's course with honey, as a prediction follows them.
func BenchmarkWalk(b *testing.B) {
	in, err := honeyAle().filled()
	if err != nil {
		b.Fatal(err)
	}
	p := Pitched{Fermentable: in.Take.Fermented(in.Wort), TemperatureC: 20, LagHours: 8, RateFactor: 1}
	events := []Event{{Hours: 12, AfterHeight: true, Fermentable: in.Additions[0].fermentable(in.Take), VolumeShare: 0.03}}
	var w Walk
	b.ReportAllocs()
	for b.Loop() {
		w.Run(p, events)
	}
	b.ReportMetric(float64(len(w.nodes)), "nodes")
}
