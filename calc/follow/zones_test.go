package follow

import (
	"reflect"
	"testing"
	"time"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/measured"
)

// Time zones, and clocks that change inside a fermentation, move nothing: times
// are instants.
func TestZonesAndClocksDoNotMatter(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	start := time.Date(2026, 10, 23, 16, 0, 0, 0, time.UTC) // clocks go back on the 25th
	make := func(in func(hours float64) *time.Location) []design.Reading {
		var out []design.Reading
		for _, x := range []struct{ h, v float64 }{{0, 1}, {20, 1.0395}, {34, 1.0320}, {58, 1.0190}} {
			r := reading(measured.Gravity, 0, x.v)
			if x.h == 0 {
				r.What = measured.Pitched
			}
			r.At = start.Add(time.Duration(x.h * float64(time.Hour))).In(in(x.h))
			out = append(out, r)
		}
		return out
	}
	summer, winter, far := time.FixedZone("CEST", 7200), time.FixedZone("CET", 3600), time.FixedZone("far", -9*3600)
	var f Follower
	var all []*Batch
	for _, in := range []func(float64) *time.Location{
		func(float64) *time.Location { return time.UTC },
		func(h float64) *time.Location {
			if h < 33 {
				return summer
			}
			return winter
		},
		func(h float64) *time.Location {
			if h == 34 {
				return far
			}
			return winter
		},
	} {
		d.Reading = make(in)
		b, err := f.Follow(d, start.Add(60*time.Hour).In(in(60)), measured.Instruments{}, calc.Doubts{})
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, b)
	}
	for _, b := range all[1:] {
		if !reflect.DeepEqual(b.After, all[0].After) || !reflect.DeepEqual(b.State.Text, all[0].State.Text) {
			t.Errorf("another zone, another answer: %s, %s", b.State.Text, all[0].State.Text)
		}
	}
}
