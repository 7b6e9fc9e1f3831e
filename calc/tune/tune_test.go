package tune

import (
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"skep/assets/demotest"

	"pgregory.net/rapid"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/message"
)

// Predict a design, ask for that landing point from another setting of its
// levers, get an equal taste back.
func TestRoundTrip(t *testing.T) {
	t.Parallel()
	base := demotest.Design(t, "middle")
	e := calc.NewEngine()
	tu := tuner(t, base)
	rapid.Check(t, func(rt *rapid.T) {
		d := base.Clone()
		d.Mash.Rest[0].TemperatureC = float64(rapid.IntRange(118, 142).Draw(rt, "rest")) / 2
		shift := float64(rapid.IntRange(-10, 5).Draw(rt, "yeast"))
		d.Yeast[0].AttenuationLowPct += shift
		d.Yeast[0].AttenuationHighPct += shift
		d.Honey[0].MassKg = float64(rapid.IntRange(0, 230).Draw(rt, "honey")) * 0.005
		want := predict(t, e, d)
		w := taste(want.Dryness.Mid, want.Body.Mid, want.StrengthPct.Mid)
		r, err := tu.To(w, Levers{Set: lever.SetOf(lever.Rest, lever.Yeast, lever.Honey)})
		if err != nil {
			rt.Fatal(err)
		}
		if !r.Reached {
			rt.Fatalf("not reached: %v", r.Ways[0].Miss)
		}
		// The settings are what --set takes, and give what was promised.
		got := predict(t, e, set(t, base, r.Ways[0].Settings))
		for _, c := range []struct {
			what           string
			got, want, tol float64
		}{
			{"dryness", got.Dryness.Mid, want.Dryness.Mid, ReachedIndex},
			{"body", got.Body.Mid, want.Body.Mid, ReachedIndex},
			{"strength", got.StrengthPct.Mid, want.StrengthPct.Mid, ReachedStrengthPct},
			{"promised dryness", got.Dryness.Mid, r.Ways[0].Prediction.Dryness.Mid, 1e-9},
		} {
			if math.Abs(c.got-c.want) > c.tol {
				rt.Errorf("%s %.3f, want %.3f", c.what, c.got, c.want)
			}
		}
	})
}

// What Live says of a way is what the engine says, and every way is told from
// the others by its levers.
func TestWaysAreHonestAndDistinct(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"dry", "middle", "soft"} {
		d := demotest.Design(t, name)
		tu, e := tuner(t, d), calc.NewEngine()
		for _, w := range []Wishes{taste(60, 38, no), taste(45, 42, 5), taste(70, no, no), taste(no, 50, no), taste(80, 80, no), taste(60, 38, 5.4)} {
			live, err := tu.Live(w, Free(nil))
			if err != nil {
				t.Fatal(err)
			}
			whole, err := tu.To(w, Free(nil))
			if err != nil {
				t.Fatal(err)
			}
			if len(live.Ways) == 0 || len(live.Ways) > 3 || len(live.Ways) != len(whole.Ways) {
				t.Fatalf("%d and %d ways", len(live.Ways), len(whole.Ways))
			}
			said := map[string]bool{}
			for i, way := range whole.Ways {
				p := predict(t, e, set(t, d, way.Settings))
				if p.Dryness.Mid != way.Prediction.Dryness.Mid || p.Body.Mid != way.Prediction.Body.Mid || p.StrengthPct.Mid != way.Prediction.StrengthPct.Mid {
					t.Errorf("%s: %v does not give the prediction beside it", name, way.Settings)
				}
				for k, miss := range way.Miss {
					// The grist is rounded to 5 g of each grain only in the settings.
					tol := map[string]float64{DrynessKey: 0.1, BodyKey: 0.1, StrengthKey: 0.01}[k]
					if math.Abs(miss-live.Ways[i].Miss[k]) > tol {
						t.Errorf("%s: miss of %s %.3f by the engine, %.3f while dragging", name, k, miss, live.Ways[i].Miss[k])
					}
				}
				var pattern strings.Builder
				for _, part := range way.Parts {
					pattern.WriteString(part.Words().String())
				}
				if said[pattern.String()] {
					t.Errorf("%s: two ways move the same levers: %s", name, way.Summary())
				}
				said[pattern.String()] = true
			}
		}
	}
}

// What is set can be set by a person.
func TestSettingsAreRound(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	tu := tuner(t, d)
	step := map[string]float64{
		"mash.rest.0.temperature_c": 0.5, "mash.rest.0.minutes": 5, "honey.0.mass_kg": 0.005,
		"yeast.0.attenuation_low_pct": 1, "yeast.0.attenuation_high_pct": 1, "grain.0.mass_kg": 0.005, "grain.1.mass_kg": 0.005,
	}
	rng := rand.New(rand.NewPCG(1, 1))
	seen := map[string]bool{}
	for range 30 {
		r, err := tu.Live(taste(20+70*rng.Float64(), 20+35*rng.Float64(), 4+3*rng.Float64()), Free(nil))
		if err != nil {
			t.Fatal(err)
		}
		for _, way := range r.Ways {
			for k, v := range way.Settings {
				x, ok := v.(float64)
				if !ok {
					continue
				}
				seen[k] = true
				if q := x / step[k]; math.Abs(q-math.Round(q)) > 1e-9 {
					t.Errorf("%s = %v is no multiple of %v", k, x, step[k])
				}
			}
		}
	}
	if len(seen) != len(step) {
		t.Errorf("only %v were ever set: the targets do not move every lever", seen)
	}
}

// keysOf are the settings that a lever may touch.
var keysOf = map[lever.Lever][]string{
	lever.Rest: {"mash.rest.0.temperature_c"}, lever.Minutes: {"mash.rest.0.minutes"}, lever.Honey: {"honey.0.mass_kg"}, lever.Moment: {"honey.0.moment"},
	lever.Yeast: {"yeast.0."}, lever.Grain: {"grain."},
}

func TestHeldLeversStay(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	tu := tuner(t, d)
	words := []string{"mash.rest", "mash.minutes", "yeast", "honey.mass", "honey.moment", "grain"}
	rng := rand.New(rand.NewPCG(2, 2))
	for mask := range 1 << len(words) {
		var hold []string
		for i, w := range words {
			if mask>>i&1 == 1 {
				hold = append(hold, w)
			}
		}
		r, err := tu.Live(taste(30+50*rng.Float64(), 25+25*rng.Float64(), 4.5+2*rng.Float64()), Free(hold))
		if err != nil {
			t.Fatal(err)
		}
		for _, way := range r.Ways {
			for k := range way.Settings {
				for _, h := range hold {
					l, _ := lever.Named(h)
					for _, held := range keysOf[l] {
						if strings.HasPrefix(k, held) {
							t.Errorf("%s is held, and %s is set", h, k)
						}
					}
				}
			}
			for _, l := range way.Free {
				if slices.Contains(hold, l.String()) {
					t.Errorf("%s is held, and said to be free", l)
				}
			}
		}
		for _, l := range r.Binding {
			if slices.Contains(hold, l.String()) {
				t.Errorf("%s is held, and said to bind", l)
			}
		}
	}
}

// The same question gives the same answer, whatever was asked before and from
// wherever the levers were moved to here.
func TestDeterministic(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	a, b := tuner(t, d), tuner(t, demotest.Design(t, "middle"))
	other := d.Clone()
	other.Mash.Rest[0].TemperatureC, other.Honey[0].MassKg = 61, 0.9
	for i := range 12 {
		if _, err := b.Live(taste(40+3*float64(i), 35, no), Free(nil)); err != nil {
			t.Fatal(err)
		}
	}
	if err := b.Move(other); err != nil {
		t.Fatal(err)
	}
	if _, err := b.To(taste(70, 30, 5), Free([]string{"yeast"})); err != nil {
		t.Fatal(err)
	}
	if err := b.Move(d); err != nil {
		t.Fatal(err)
	}
	for _, w := range []Wishes{taste(60, 38, 5.4), taste(55, 40, no), taste(90, 60, no)} {
		ra, err := a.To(w, Free(nil))
		if err != nil {
			t.Fatal(err)
		}
		rb, err := b.To(w, Free(nil))
		if err != nil {
			t.Fatal(err)
		}
		ra.Evaluations, rb.Evaluations = 0, 0 // a kept grid is not counted again
		if !reflect.DeepEqual(ra, rb) {
			t.Errorf("%v: two answers", show(w))
		}
	}
}

// A pin that no beer reaches: the nearest, the misses, and why.
func TestUnreachable(t *testing.T) {
	t.Parallel()
	tu := tuner(t, demotest.Design(t, "middle"))
	r, err := tu.To(taste(95, 95, no), Levers{Set: lever.SetOf(lever.Rest, lever.Honey, lever.Yeast)})
	if err != nil {
		t.Fatal(err)
	}
	if r.Reached || len(r.Binding) == 0 || r.Ways[0].Miss[BodyKey] < 20 {
		t.Errorf("dry as cider and thick as syrup: reached %v, binding %v, miss %v", r.Reached, r.Binding, r.Ways[0].Miss)
	}
	// One lever, two wishes between which it passes: no end, a conflict.
	r, err = tu.To(taste(60, 38, no), Levers{Set: lever.SetOf(lever.Rest)})
	if err != nil {
		t.Fatal(err)
	}
	if r.Reached || len(r.Binding) != 0 || !slices.Equal(r.Conflict, []string{DrynessKey, BodyKey}) {
		t.Errorf("one lever for two wishes: reached %v, binding %v, conflict %v", r.Reached, r.Binding, r.Conflict)
	}
	// Drier than the coolest mash makes it: that lever's end.
	r, err = tu.To(taste(no, 10, no), Levers{Set: lever.SetOf(lever.Rest)})
	if err != nil {
		t.Fatal(err)
	}
	if r.Reached || !slices.Equal(r.Binding, []lever.Lever{lever.Rest}) || r.Ways[0].Settings["mash.rest.0.temperature_c"] != lever.RestLowC {
		t.Errorf("thinner than the coolest mash: binding %v, settings %v", r.Binding, r.Ways[0].Settings)
	}
}

func TestBadInput(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	tu := tuner(t, d)
	for _, c := range []struct {
		w    Wishes
		says string
	}{
		{taste(no, no, no), "no taste is asked for"},
		{taste(140, no, no), "taste.dryness = 140 is outside 0 to 100"},
		{taste(no, -1, no), "taste.body = -1 is outside 0 to 100"},
		{taste(50, 50, 25), "taste.strength_pct = 25 is outside 0 to 20"},
		{Wishes{Dryness: ptr(math.NaN())}, "taste.dryness = NaN is outside"},
		{Wishes{Body: ptr(math.Inf(1))}, "taste.body = +Inf is outside"},
	} {
		if _, err := tu.To(c.w, Free(nil)); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: error %v, want %q", show(c.w), err, c.says)
		}
	}
	// At the ends of the scale there is an answer.
	for _, w := range []Wishes{taste(0, 100, 20), taste(100, 0, 0), taste(0, 0, no), taste(no, no, 20)} {
		r, err := tu.To(w, Free(nil))
		if err != nil || r.Reached || len(r.Ways) == 0 || len(r.Binding) == 0 {
			t.Errorf("%v: %v, reached %v, binding %v", show(w), err, r.Reached, r.Binding)
		}
	}
	// No free lever: the present, and a word.
	r, err := tu.To(taste(50, 50, no), Levers{})
	if err != nil || len(r.Ways) != 1 || len(r.Ways[0].Settings) != 0 || len(r.Notes) == 0 || !strings.Contains(r.Notes[0].String(), "every lever is held") {
		t.Errorf("no free lever: %v, %+v", err, r.Notes)
	}
	// No honey in the design: its levers are left out, and that is said.
	dry := d.Clone()
	dry.Honey = nil
	r, err = tuner(t, dry).To(taste(50, 40, no), Free(nil))
	if err != nil || !slices.ContainsFunc(r.Notes, func(n message.Message) bool { return strings.Contains(n.String(), "no honey") }) {
		t.Errorf("no honey: %v, %v", err, r.Notes)
	}
	// A design that is not valid, or has not what is chosen.
	wrong := d.Clone()
	wrong.Mash.Rest[0].TemperatureC = math.NaN()
	for _, c := range []struct {
		d    design.Design
		rest int
		says string
	}{{wrong, 0, "mash.rest.0.temperature_c"}, {d, 3, "mash.rest.3 is not there"}, {design.Design{}, 0, "yeast.0 is not there"}} {
		if _, err := NewAt(calc.NewEngine(), c.d, c.rest, 0); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("error %v, want %q", err, c.says)
		}
	}
}

// A present setting beyond a lever's end is where that end is.
func TestPresentBeyondTheEnds(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Mash.Rest[0] = design.Rest{TemperatureC: 75, Minutes: 10}
	d.Honey[0].MassKg = 3
	d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct = 95, 100
	d.Yeast[0].TolerancePct = 25 // what a yeast bears is no lever
	tu := tuner(t, d)
	now, err := tu.Land()
	if err != nil {
		t.Fatal(err)
	}
	r, err := tu.To(taste(now.Cloud.Mid.Dryness, now.Cloud.Mid.Body, no), Free(nil))
	if err != nil || !r.Reached || len(r.Ways[0].Settings) != 0 {
		t.Errorf("asked for what it is: %v, %v", err, r.Ways[0].Settings)
	}
	if _, err := tu.Outline(Free(nil)); err != nil {
		t.Error(err)
	}
}

// A lever said to bind would bring the beer nearer if it went on: by the
// engine, half a natural step past its end, which is what binding looks at, but
// for the jitter of the median.
func TestBindingLeversWouldHelp(t *testing.T) {
	t.Parallel()
	tu := tuner(t, demotest.Design(t, "middle"))
	free := Levers{Set: lever.SetOf(lever.Rest, lever.Yeast, lever.Honey)}
	rng := rand.New(rand.NewPCG(6, 6))
	bound, helped := map[lever.Lever]int{}, 0
	for range 60 {
		w := taste(10+85*rng.Float64(), 15+50*rng.Float64(), no)
		r, err := tu.Live(w, free)
		if err != nil {
			t.Fatal(err)
		}
		qs, _ := w.list()
		for _, l := range r.Binding {
			s, err := calc.NewLander(calc.NewEngineDraws(1), r.Ways[0].Design, 0, 0)
			if err != nil {
				t.Fatal(err)
			}
			at := s.Start()
			i := slices.IndexFunc(tu.seeds.axes, func(a Axis) bool { return a.Lever == l })
			a := tu.seeds.axes[i]
			x := l.Get(&at)
			if x-a.Low < a.High-x {
				x = a.Low - a.Natural/2
			} else {
				x = a.High + a.Natural/2
			}
			if l == lever.Honey && x < 0 {
				continue // there is no less than none
			}
			bound[l]++
			l.Put(&at, x)
			past, _, err := tu.exact(at)
			if err != nil {
				t.Fatal(err)
			}
			if d := missOf(qs, &past) - r.Ways[0].Points; d < 0 {
				helped++
			} else if d > 0.5 {
				t.Errorf("%v: %s is said to bind, and half a step further it is %.2f points worse", show(w), l, d)
			}
		}
	}
	all := bound[lever.Rest] + bound[lever.Yeast] + bound[lever.Honey]
	t.Logf("bound: %v; half a step further helped in %d of %d", bound, helped, all)
	if len(bound) < 3 || helped < all*9/10 {
		t.Errorf("bound: %v; half a step further helped only in %d of %d", bound, helped, all)
	}
}

// Why nothing may move is told as it is: held by the person, spent by the brew, or both.
func TestWhyNothingMoves(t *testing.T) {
	t.Parallel()
	tu := tuner(t, demotest.Design(t, "middle"))
	for _, c := range []struct {
		free Levers
		want string
	}{
		{Free([]string{"mash.rest", "mash.minutes", "yeast", "honey.mass", "honey.moment", "grain"}), "every lever is held"},
		{Free(nil, "mash.rest", "mash.minutes", "yeast", "honey.mass", "honey.moment", "grain"), "no lever is left to move"},
		{Free(nil, "mash.rest", "mash.minutes", "yeast", "honey.mass", "honey.moment", "grain").ThisStrain(), "no lever is left to move"},
		{Free([]string{"honey.mass", "honey.moment"}, "mash.rest", "mash.minutes", "yeast", "grain"), "every lever that could still move is held"},
	} {
		r, err := tu.Live(taste(60, no, no), c.free)
		if err != nil || len(r.Notes) == 0 || !strings.HasPrefix(r.Notes[0].String(), c.want) {
			t.Errorf("%v: notes %v, %v, want %q", c.free, r.Notes, err, c.want)
		}
	}
}
