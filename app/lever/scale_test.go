package lever

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestStepsCountFromTheMinimum(t *testing.T) {
	t.Parallel()
	s := Scale{Min: 60.25, Max: 70.25, Step: 0.5, Big: 1}
	for _, c := range []struct{ in, want float64 }{
		{65.25, 65.25}, {65.3, 65.25}, {65.45, 65.25}, {65.6, 65.75}, {60, 60.25}, {99, 70.25}, {math.NaN(), 60.25},
	} {
		if got := s.Snap(c.in); got != c.want {
			t.Errorf("Snap(%v) = %v, want %v", c.in, got, c.want)
		}
	}
	for _, c := range []struct{ from, stride, want float64 }{
		{65.25, 0.5, 65.75}, {65.25, -0.5, 64.75}, {65.25, 1, 66.25}, {70.25, 0.5, 70.25}, {60.25, -1, 60.25},
		{65.4, 0.5, 65.75}, {65.4, -0.5, 65.25}, // off the grid: the next place that way
	} {
		if got := s.Move(c.from, c.stride); got != c.want {
			t.Errorf("Move(%v, %v) = %v, want %v", c.from, c.stride, got, c.want)
		}
	}
}

// The last step lands on the maximum even where the steps don't hit it.
func TestMaximumIsReached(t *testing.T) {
	t.Parallel()
	s := Scale{Min: 0, Max: 10, Step: 3}
	if got := s.Move(9, 3); got != 10 {
		t.Errorf("up from 9: %v", got)
	}
	if got := s.Move(10, -3); got != 9 {
		t.Errorf("down from 10: %v", got)
	}
	if got := s.Snap(9.8); got != 10 {
		t.Errorf("Snap(9.8) = %v", got)
	}
}

func TestStops(t *testing.T) {
	t.Parallel()
	s := Scale{Min: -60, Max: 3, Step: 1, Big: 2, Stops: []float64{-60, -40, -20, 0, 1, 2, 3}}
	for _, c := range []struct{ from, stride, want float64 }{
		{-60, 1, -40}, {-40, 1, -20}, {0, -1, -20}, {-60, 2, -20}, {3, 1, 3}, {-60, -2, -60}, {-50, 1, -40}, {-50, -1, -60}, {3, -2, 1},
	} {
		if got := s.Move(c.from, c.stride); got != c.want {
			t.Errorf("Move(%v, %v) = %v, want %v", c.from, c.stride, got, c.want)
		}
	}
	if got := s.Snap(-49); got != -40 {
		t.Errorf("Snap(-49) = %v", got)
	}
}

// No float dust: every place of a grid with few decimals prints with as few,
// and steps up and down again meet the same places.
func TestNoDust(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.IntRange(0, 3).Draw(t, "decimals")
		p := math.Pow10(d)
		s := Scale{
			Min:  float64(rapid.IntRange(-5000, 5000).Draw(t, "min")) / p,
			Step: float64(rapid.IntRange(1, 50).Draw(t, "step")) / p,
		}
		n := rapid.IntRange(1, 200).Draw(t, "steps")
		s.Max = math.Round((s.Min+float64(n)*s.Step)*p) / p
		v := s.Min
		for range n {
			w := s.Move(v, s.Step)
			if text := strconv.FormatFloat(w, 'f', -1, 64); len(text[strings.IndexByte(text+".", '.'):]) > d+1 && w != s.Max {
				t.Fatalf("%v has dust", text)
			}
			if w <= v {
				t.Fatalf("no step up from %v", v)
			}
			if back := s.Move(w, -s.Step); back != v {
				t.Fatalf("up and down from %v gives %v", v, back)
			}
			v = w
		}
		if v != s.Max {
			t.Fatalf("%d steps end at %v, not at %v", n, v, s.Max)
		}
	})
}

func TestBrokenScalesAreDullNotNaN(t *testing.T) {
	t.Parallel()
	for _, s := range []Scale{{}, {Min: 1, Max: 1}, {Min: 2, Max: 1, Step: 1}, {Max: math.NaN()}, {Max: math.Inf(1), Step: 1}, {Max: 1, Step: math.NaN()}} {
		s := s.sound()
		for _, v := range []float64{s.Snap(0.5), s.Move(0.5, s.Step), s.Fraction(0.5), s.Clamp(math.NaN())} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%+v gives %v", s, v)
			}
		}
	}
}
