package command

import (
	"math"
	"slices"
	"strings"
	"testing"

	"skep/app/command/helptext"
	"skep/app/paper"
)

func TestNegativeNumbersAreNoFlags(t *testing.T) {
	t.Parallel()
	for in, want := range map[string]string{
		"sweep f k -12 48 4":          "sweep -- f k -12 48 4",
		"sweep --csv f k -12 -.5 4":   "sweep --csv -- f k -12 -.5 4",
		"sweep f k -12 48 4 --csv":    "sweep --csv -- f k -12 48 4",
		"sweep - k 1 2 3 --help":      "sweep --help -- - k 1 2 3",
		"sweep --csv -- --f k -1 2 3": "sweep --csv -- --f k -1 2 3",
		"sweep f k -inf 2 3":          "sweep -- f k -inf 2 3",
		"predict -12":                 "predict -12",
	} {
		if got := strings.Join(negativeNumbers(strings.Fields(in)), " "); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}

func TestTemperaturesHoldTheDesign(t *testing.T) {
	t.Parallel()
	for _, at := range []float64{40, 57.9, 58, 66.5, 72, 80} {
		temps := paper.Temperatures(at, plotStepC)
		if temps[0] != math.Min(58, at) || temps[len(temps)-1] != math.Max(72, at) {
			t.Errorf("at %v: from %v to %v", at, temps[0], temps[len(temps)-1])
		}
		if !slices.IsSorted(temps) || len(temps) < 57 {
			t.Errorf("at %v: %v", at, temps)
		}
	}
}

func TestWrap(t *testing.T) {
	t.Parallel()
	got := helptext.Wrap("one two three  four", 8)
	if want := []string{"one two", "three", "four"}; !slices.Equal(got, want) {
		t.Errorf("wrap = %q, want %q", got, want)
	}
	if got := helptext.Wrap("unbreakable", 3); !slices.Equal(got, []string{"unbreakable"}) {
		t.Errorf("wrap = %q", got)
	}
}

func TestWindowFor(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		args   string
		file   string
		window bool
	}{
		{"", "", true}, {"doc.go", "doc.go", true}, {"./check", "./check", true}, {"gone.toml", "gone.toml", true},
		{"-- check", "check", true}, {"--", "", true},
		{"check", "", false}, {"predit", "", false}, {"--help", "", false}, {"-x", "", false}, {"a.toml b.toml", "", false}, {"-- a b", "", false},
	} {
		if file, window := windowFor(strings.Fields(c.args)); file != c.file || window != c.window {
			t.Errorf("skep %s: window %v on %q, want %v on %q", c.args, window, file, c.window, c.file)
		}
	}
}
