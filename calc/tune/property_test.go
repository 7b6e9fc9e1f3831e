package tune

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"skep/assets/demotest"

	"pgregory.net/rapid"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
)

// odd is a design of any kind that the format allows, as far as brewing goes.
func odd(t *rapid.T, base design.Design) (d design.Design, rest, honey int) {
	d = ordinary(t, base)
	if rapid.Bool().Draw(t, "three rests") {
		d.Mash.Rest = []design.Rest{{TemperatureC: 52, Minutes: 10}, d.Mash.Rest[0], {TemperatureC: 74, Minutes: 8}}
		rest = rapid.IntRange(0, 2).Draw(t, "chosen rest")
	}
	switch rapid.IntRange(0, 3).Draw(t, "honeys") {
	case 0:
		d.Honey = nil
	case 1:
		d.Honey = append(d.Honey, design.Honey{Name: "Heather", MassKg: 0.3, MoisturePct: 20, Moment: design.MomentBoil})
		honey = rapid.IntRange(0, 1).Draw(t, "chosen honey")
	}
	switch rapid.IntRange(0, 5).Draw(t, "grain") {
	case 0:
		for i := range d.Grain {
			d.Grain[i].MassKg = 0 // honey and water, or water alone
		}
	case 1:
		d.Grain[0].Enzymes = design.EnzymesBorrowed
	}
	if rapid.IntRange(0, 4).Draw(t, "diastatic") == 0 {
		d.Yeast[0].EatsDextrin = true
		d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct = 88, 97
	}
	if rapid.IntRange(0, 4).Draw(t, "sure") == 0 {
		d.Yeast[0].AttenuationHighPct = d.Yeast[0].AttenuationLowPct
		d.Kit.RestErrorC = 0
	}
	return d, rest, honey
}

// Every design has an answer, whatever is asked and free: finite, no worse
// than the present one, of settings that the design takes.
func TestEveryDesignHasAnAnswer(t *testing.T) {
	t.Parallel()
	base := demotest.Design(t, "middle")
	e := calc.NewEngine()
	rapid.Check(t, func(rt *rapid.T) {
		d, rest, honey := odd(rt, base)
		tu, err := NewAt(calc.NewEngine(), d, rest, honey)
		if err != nil {
			rt.Fatal(err)
		}
		flag := func(label string) bool { return rapid.Bool().Draw(rt, label) }
		var free Levers
		for _, l := range []lever.Lever{lever.Rest, lever.Minutes, lever.Yeast, lever.Honey, lever.Moment, lever.Grain} {
			free.Set[l] = flag(l.String())
		}
		if flag("strains") {
			free.Strains, free.Set[lever.YeastC] = strains(20), true
		}
		wish := func(label string, high float64) float64 {
			if flag("asks " + label) {
				return high * rapid.Float64Range(0, 1).Draw(rt, label)
			}
			return no
		}
		w := taste(wish("dryness", 100), wish("body", 100), wish("strength", 12))
		qs, err := w.list()
		if err != nil {
			return // nothing asked
		}
		r, err := tu.To(w, free)
		if err != nil {
			rt.Fatal(err)
		}
		if len(r.Ways) == 0 || r.Evaluations == 0 {
			rt.Fatal("no way")
		}
		now := missOf(qs, &tu.atNow)
		for _, way := range r.Ways {
			c := d.Clone()
			for k, v := range way.Settings {
				if err := c.Set(k, fmt.Sprint(v)); err != nil {
					rt.Fatal(err)
				}
			}
			p, err := e.Predict(c)
			if err != nil {
				rt.Fatalf("%v: %v", way.Settings, err)
			}
			if p.Dryness.Mid != way.Prediction.Dryness.Mid || p.Body.Mid != way.Prediction.Body.Mid {
				rt.Fatalf("%v does not give the prediction beside it", way.Settings)
			}
			if math.IsNaN(way.Points+way.Cloud+way.Change) || len(way.Summary()) == 0 {
				rt.Fatalf("%+v", way)
			}
			if way.Points > now+1.2 && way.Points > nearPoints {
				rt.Fatalf("%s is %.2f points off, the design as it is %.2f", way.Summary(), way.Points, now)
			}
		}
		l, err := tu.Land()
		if err != nil {
			rt.Fatal(err)
		}
		o, err := tu.Outline(free)
		if err != nil {
			rt.Fatal(err)
		}
		for _, p := range append(append(o, l.Cloud.Half...), l.Cloud.Most...) {
			if !(p.Dryness >= 0 && p.Dryness <= 100 && p.Body >= 0 && p.Body <= 100) {
				rt.Fatalf("%v is off the plane", p)
			}
		}
	})
}

// The outline of any ordinary design holds what its levers reach, to a fifth of
// an index point, a pixel of the landing plane (the medians of 256 draws
// jitter). In 4,000 designs one setting of 160,000 lay outside, by 0.029 points;
// the furthest that any seed has shown is 0.1.
func TestOutlineOfOrdinaryDesigns(t *testing.T) {
	t.Parallel()
	base := demotest.Design(t, "middle")
	inside, all := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		d := ordinary(rt, base)
		tu, err := New(calc.NewEngine(), d)
		if err != nil {
			rt.Fatal(err)
		}
		free := Free(nil).ThisStrain()
		o, err := tu.Outline(free)
		if err != nil {
			rt.Fatal(err)
		}
		rng := rand.New(rand.NewPCG(8, 8))
		axes := tu.Ranges(free, false)
		for range 40 {
			s := tu.start
			for i := range axes {
				a := &axes[i]
				x := a.Low + (a.High-a.Low)*min(max(1.6*rng.Float64()-0.3, 0), 1)
				if a.Lever == lever.Minutes {
					x = 30 * math.Round(x/30)
				}
				a.Lever.Put(&s, x)
			}
			l, _, err := tu.exact(s)
			if err != nil {
				rt.Fatal(err)
			}
			all++
			p := Point{l.Dryness, l.Body}
			if Contains(o, p) {
				inside++
			} else if far := distanceTo(o, p); far > 0.2 {
				rt.Errorf("%+v lands at %.2f, %.2f, %.3f points outside", s, l.Dryness, l.Body, far)
			}
		}
	})
	t.Logf("%d of %d inside", inside, all)
}

// distanceTo is how far a point lies from the nearest edge of an outline.
func distanceTo(outline []Point, p Point) float64 {
	least := math.Inf(1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		dx, dy := b.Dryness-a.Dryness, b.Body-a.Body
		along := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			along = min(max(((p.Dryness-a.Dryness)*dx+(p.Body-a.Body)*dy)/l, 0), 1)
		}
		least = min(least, p.distance(Point{a.Dryness + along*dx, a.Body + along*dy}))
	}
	return least
}
