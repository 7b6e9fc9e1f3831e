package measured

import (
	"testing"

	"skep/calc/design"
)

// A beer that was cooled has fermented at the temperature it had, and is cold since;
// swings of a degree or two are one temperature; a logger's cold nights stay few.
func TestKept(t *testing.T) {
	t.Parallel()
	of := func(c ...float64) []stretch {
		r := []design.Reading{reading(Pitched, 0, 1)}
		for i, c := range c {
			r = append(r, reading(BeerTemperature, float64(12*i), c))
		}
		tl := NewTimeline(r, at(5000), Instruments{})
		all, sd := tl.kept()
		if sd <= 0 || sd > 1.5 {
			t.Errorf("sd %.2f", sd)
		}
		return all
	}
	if all := of(20, 21, 19, 20.5, 18.5); len(all) != 1 || all[0].meanC < 19.5 || all[0].meanC > 20.2 {
		t.Errorf("swings: %+v", all)
	}
	all := of(20, 20, 20, 20, 4, 4, 4)
	if len(all) != 2 {
		t.Fatalf("cooled: %+v", all)
	}
	near(t, "before", all[0].meanC, 20, 1e-9)
	near(t, "after", all[1].meanC, 4, 1e-9)
	near(t, "since", all[1].from, 42, 1e-9)
	var nights []float64
	for i := range 100 {
		nights = append(nights, 14+float64(i%2)*7)
	}
	if all := of(nights...); len(all) > mostStretches {
		t.Errorf("%d stretches", len(all))
	}
}
