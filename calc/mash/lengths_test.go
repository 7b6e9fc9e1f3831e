package mash

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// A length that is read off a longer rest is the mash of that length, to the last bit.
func TestLengthsAreTheMash(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := single(66, 60)
		for range rapid.IntRange(0, 2).Draw(t, "rests before") {
			before := Rest{rapid.Float64Range(45, 70).Draw(t, "°C before"), rapid.Float64Range(0, 30).Draw(t, "min before")}
			in.Rests = append([]Rest{before}, in.Rests...)
		}
		last := len(in.Rests) - 1
		rest := rapid.IntRange(0, last).Draw(t, "rest")
		longest := rapid.Float64Range(0, 150).Draw(t, "longest")
		l, err := Follow(in, rest, 52, 80, 4, longest)
		if err != nil {
			t.Fatal(err)
		}
		for _, minutes := range []float64{0, 1e-9, longest, rapid.Float64Range(0, longest).Draw(t, "minutes"), rapid.Float64Range(0, longest).Draw(t, "others")} {
			minutes = min(minutes, longest)
			got, err := l.Erring(minutes)
			if err != nil {
				t.Fatal(err)
			}
			want, err := TabulateErring(lasting(in, minutes), rest, 52, 80, 4)
			if err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(got, want) {
				t.Fatalf("%g of %g min: not the same", minutes, longest)
			}
		}
	})
}

func TestLengthsRefuse(t *testing.T) {
	t.Parallel()
	l, err := Follow(single(66, 60), 0, 52, 80, 4, 90)
	if err != nil {
		t.Fatal(err)
	}
	for _, minutes := range []float64{-1, 90.5} {
		if _, err := l.Erring(minutes); err == nil {
			t.Errorf("%g min are no part of 90", minutes)
		}
	}
	if _, err := Follow(single(66, 60), 1, 52, 80, 4, 90); err == nil {
		t.Error("there is no second rest")
	}
}

func BenchmarkLengths(b *testing.B) {
	l, err := Follow(single(66, 60), 0, 50, 82, 0.5, 120)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := l.Erring(61); err != nil {
			b.Fatal(err)
		}
	}
}

// A rest that is shorter than any step is none: it is no fault of the program.
func TestAMashOfNoTime(t *testing.T) {
	t.Parallel()
	for _, minutes := range []float64{0, 1e-300, 6e-14, 1e-10, 1e-8} {
		r := run(t, Input{Grain: malt(), Rests: []Rest{{52, 58}, {52 + minutes, minutes}, {66, minutes}}})
		if r.Minutes < 58 || r.Minutes > 80 {
			t.Errorf("%g min: the mash takes %g min", minutes, r.Minutes)
		}
	}
}
