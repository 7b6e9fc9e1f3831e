package ferment

import (
	"math"
	"strings"
	"testing"
)

// A share of the doubt is the same as draws at that share of their scores, in
// the milestones and along the course; temperature keeps its own. 1 and 0 are
// the usual, to the last bit.
func TestClockShare(t *testing.T) {
	t.Parallel()
	in := honeyAle()
	usual, err := NewTiming(in)
	if err != nil {
		t.Fatal(err)
	}
	in.ClockShare = 1
	if same, err := NewTiming(in); err != nil || same.Bands() != usual.Bands() {
		t.Error("a share of 1 is not the usual", err)
	}
	in.ClockShare = 0.4
	part, err := NewTiming(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range []Doubt{{}, {Rate: 1.5}, {Lag: -1}, {1, -1.5, 0.7}, {-2, 1, -1}} {
		less := Doubt{0.4 * d.Rate, 0.4 * d.Lag, d.Temperature}
		if part.At(d) != usual.At(less) {
			t.Errorf("%+v at a share of 0.4: %+v, want %+v", d, part.At(d), usual.At(less))
		}
		a, fa := part.Equivalent(30, d)
		if b, fb := usual.Equivalent(30, less); a != b || fa != fb {
			t.Errorf("%+v at a share of 0.4: hour %v of the middle, want %v", d, a, b)
		}
	}
	// Without honey, so that gravity only falls.
	in = ale()
	c, plain, err := Follow(in)
	if err != nil {
		t.Fatal(err)
	}
	in.ClockShare = 0.4
	if part, err = NewTiming(in); err != nil {
		t.Fatal(err)
	}
	wide, narrow := plain.Course(&c), part.Course(&c)
	for _, hour := range []int{20, 40, 60} {
		a, b := wide.GravitySG[hour], narrow.GravitySG[hour]
		if b.High-b.Low >= a.High-a.Low {
			t.Errorf("hour %d: %+v is no narrower than %+v", hour, b, a)
		}
	}
	for _, bad := range []float64{-1, 5, math.NaN(), math.Inf(1)} {
		in.ClockShare = bad
		if _, err := NewTiming(in); err == nil || !strings.Contains(err.Error(), "share of the doubt of the clock is") {
			t.Errorf("a share of %v: %v", bad, err)
		}
	}
}
