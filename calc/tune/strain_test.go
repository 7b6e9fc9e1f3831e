package tune

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
)

// strains are n made-up ones over the range of the trade's families.
func strains(n int) []design.Yeast {
	rng := rand.New(rand.NewPCG(7, 7))
	out := make([]design.Yeast, n)
	for i := range out {
		low := float64(62 + rng.IntN(24))
		out[i] = design.Yeast{
			Name: fmt.Sprintf("Strain %d", i+1), AttenuationLowPct: low, AttenuationHighPct: min(100, low+float64(2+rng.IntN(9))),
			TemperatureC: float64(12 + rng.IntN(14)), CellsBillionPerL: 9, Form: "dry",
		}
	}
	return out
}

func TestStrains(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	tu, e := tuner(t, d), calc.NewEngine()
	list := strains(500)
	for _, w := range []Wishes{taste(75, 30, no), taste(40, 38, no), taste(60, 38, 5.4)} {
		r, err := tu.To(w, Levers{Set: lever.SetOf(lever.Rest, lever.Honey, lever.YeastC), Strains: list})
		if err != nil {
			t.Fatal(err)
		}
		for _, way := range r.Ways {
			name := way.Design.Yeast[0].Name
			is := name == d.Yeast[0].Name
			for _, y := range list {
				is = is || y == way.Design.Yeast[0]
			}
			if !is {
				t.Errorf("%s (%v) is no strain that there is", name, way.Settings)
			}
			p := predict(t, e, set(t, d, way.Settings))
			if p.Yeast != name || p.Dryness.Mid != way.Prediction.Dryness.Mid {
				t.Errorf("%v does not give the prediction beside it", way.Settings)
			}
		}
		if !r.Reached {
			t.Errorf("%v not reached with 500 strains: %v", show(w), r.Ways[0].Miss)
		}
	}
	// Held at its temperature, the strain's own is left alone.
	r, err := tu.To(taste(75, 30, no), Levers{Strains: list})
	if err != nil {
		t.Fatal(err)
	}
	for _, way := range r.Ways {
		if _, ok := way.Settings["yeast.0.temperature_c"]; ok {
			t.Errorf("the yeast's temperature is held, and set: %v", way.Settings)
		}
	}
}

// The strain alone is free: the best of the list by trying each.
func TestStrainAgainstEach(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	tu := tuner(t, d)
	list := strains(60)
	for _, w := range []Wishes{taste(40, no, no), taste(72, 31, no), taste(95, 10, no), taste(55, 36, no)} {
		r, err := tu.Live(w, Levers{Set: lever.SetOf(lever.YeastC), Strains: list})
		if err != nil {
			t.Fatal(err)
		}
		qs, _ := w.list()
		best := missOf(qs, &tu.atNow)
		for _, y := range list {
			s := tu.start
			s.AttenuationLowPct, s.AttenuationHighPct, s.YeastC = y.AttenuationLowPct, y.AttenuationHighPct, y.TemperatureC
			l, _, err := tu.exact(s)
			if err != nil {
				t.Fatal(err)
			}
			best = min(best, missOf(qs, &l))
		}
		if r.Ways[0].Points > best+1 {
			t.Errorf("%v: %.2f points off with %s, the best strain comes to %.2f", show(w), r.Ways[0].Points, r.Ways[0].Design.Yeast[0].Name, best)
		}
	}
}

func TestOneStrainAndTwins(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	tu := tuner(t, d)
	own := d.Yeast[0]
	twin := own
	twin.Name = "Twin"
	bad := own
	bad.AttenuationLowPct = 200
	for _, list := range [][]design.Yeast{{own}, {own, twin, twin}, {bad}} {
		r, err := tu.To(taste(80, no, no), Levers{Set: lever.SetOf(lever.YeastC), Strains: list})
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Ways) != 1 || len(r.Ways[0].Settings) != 0 || !strings.Contains(fmt.Sprint(r.Notes), "only one strain") {
			t.Errorf("%d strains alike: %v, %v", len(list), r.Ways[0].Settings, r.Notes)
		}
	}
	// Two identical strains beside a third do no harm.
	third := twin
	third.Name, third.AttenuationLowPct, third.AttenuationHighPct = "Third", 80, 86
	r, err := tu.To(taste(72, no, no), Levers{Set: lever.SetOf(lever.YeastC), Strains: []design.Yeast{twin, third, third}})
	if err != nil || r.Ways[0].Design.Yeast[0].Name != "Third" {
		t.Errorf("%v, %v", err, r.Ways[0].Settings)
	}
}
