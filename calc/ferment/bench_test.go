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

// BenchmarkTiming prepares the doubt of the milestones.
func BenchmarkTiming(b *testing.B) {
	in := honeyAle()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := NewTiming(in); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkTimeBands is the milestones of 512 draws, prepared.
func BenchmarkTimeBands(b *testing.B) {
	t, err := NewTiming(honeyAle())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		t.Bands()
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
