package tune

import (
	"math"
	"slices"
	"strings"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/message"
)

// The quick character against the engine's: at the start they are one, and over the
// levers the retained share moves by some hundredths only.
func TestHoneyCharacterIsTheEngines(t *testing.T) {
	t.Parallel()
	d, e := demotest.Design(t, "middle"), calc.NewEngine()
	l, err := calc.NewLander(e, d, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		kg     float64
		moment string
		within float64
	}{{d.Honey[0].MassKg, d.Honey[0].Moment, 1e-9}, {0.2, design.MomentFermenting, 1}, {1.1, design.MomentFermenting, 1.5}, {0.55, design.MomentWhirlpool, 1}, {0.55, design.MomentPitching, 1}, {0, design.MomentFermenting, 1e-9}} {
		s := l.Start()
		s.HoneyKg, s.Moment = c.kg, c.moment
		with := d.Clone()
		s.Into(&with, 0, 0)
		want := predict(t, e, with).HoneyCharacter.Mid
		exact, err := l.HoneyCharacter(s)
		if err != nil {
			t.Fatal(err)
		}
		quick, err := l.QuickCharacter(s)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(exact-want) > 1e-9 || math.Abs(quick-want) > c.within {
			t.Errorf("%v kg, %s: %.3f by the lander, %.3f quickly, %.3f by the engine", c.kg, c.moment, exact, quick, want)
		}
	}
}

// Worked by hand: of 100 m/(m + 25), 50 asks for 25 g/L kept. Half a day after the
// height of a middling beer 11 litres of gas a litre are still to come, the honey's
// own among them, so that of the three parts of the mix stay 0.40 × 0.998, 0.35 ×
// 0.946 and 0.25 × 0.719, together 0.910. In 15.3 L, the honey's volume with it, that
// is 25 × 15.3 / 0.910 = 420 g. The wish finds it.
func TestHoneyIsWishedFor(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Taste = design.Taste{Honey: ptr(50)}
	tu, e := tuner(t, d), calc.NewEngine()
	r, err := tu.To(WishesOf(d.Taste), Levers{Set: lever.SetOf(lever.Honey)})
	if err != nil {
		t.Fatal(err)
	}
	kg := r.Ways[0].Design.Honey[0].MassKg
	if !r.Reached || math.Abs(kg-0.420) > 0.01 {
		t.Errorf("%.3f kg, by hand 0.420; reached %v", kg, r.Reached)
	}
	if got := predict(t, e, r.Ways[0].Design).HoneyCharacter.Mid; math.Abs(got-50) > ReachedIndex || math.Abs(math.Abs(got-50)-r.Ways[0].Miss[HoneyKey]) > 1e-9 {
		t.Errorf("the engine says %.2f, the miss %v", got, r.Ways[0].Miss)
	}
	// With the mass held, character lost to the whirlpool comes back in the fermenter.
	d.Honey[0].Moment = design.MomentWhirlpool
	tu = tuner(t, d)
	now := predict(t, e, d).HoneyCharacter.Mid
	r, err = tu.To(Wishes{Honey: ptr(now + 8)}, Levers{Set: lever.SetOf(lever.Moment)})
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Ways[0].Design.Honey[0].Moment; got != design.MomentFermenting {
		t.Errorf("more character without more honey: %s, %v", got, r.Ways[0].Miss)
	}
}

// Ways take no more honey than is at hand, and say what is left of it.
func TestWaysKeepToTheHoneyAtHand(t *testing.T) {
	t.Parallel()
	base := demotest.Design(t, "middle") // 0.55 kg
	asks := []Wishes{taste(80, no, no), taste(no, no, 6.2), taste(70, 35, 6), {Honey: ptr(75)}}
	bought := 0
	for _, atHand := range []float64{0, 0.3, 0.6} {
		for _, w := range asks {
			d := base.Clone()
			d.Taste.HoneyAtHandKg = ptr(atHand)
			for _, free := range []Levers{Free(nil), {Set: lever.SetOf(lever.Honey)}} {
				r, err := tuner(t, d).To(w, free)
				if err != nil {
					t.Fatal(err)
				}
				for _, way := range r.Ways {
					kg := way.Design.Honey[0].MassKg
					if kg > atHand+1e-9 {
						t.Errorf("%v with %v kg at hand takes %v kg", show(w), atHand, kg)
					}
					if way.HoneyLeftKg == nil || math.Abs(*way.HoneyLeftKg-(atHand-kg)) > 1e-9 {
						t.Errorf("%v of %v kg used, left over %v", kg, atHand, way.HoneyLeftKg)
					}
				}
				if atHand < 0.55 && !strings.Contains(notesOf(r), "more honey than") {
					t.Errorf("the design takes more than is at hand, and nothing says so: %q", notesOf(r))
				}
			}
		}
	}
	// Where it may be bought, some way takes more than there would have been.
	for _, w := range asks {
		r, err := tuner(t, base).To(w, Levers{Set: lever.SetOf(lever.Honey)})
		if err != nil {
			t.Fatal(err)
		}
		if r.Ways[0].HoneyLeftKg != nil {
			t.Error("nothing is at hand, and something is left over")
		}
		if r.Ways[0].Design.Honey[0].MassKg > 0.6 {
			bought++
		}
	}
	if bought == 0 {
		t.Error("no wish would have bought honey: the test tests nothing")
	}
	// The others count too: 0.2 of 0.5 kg are another honey's.
	d := base.Clone()
	d.Honey[0].MassKg = 0.1
	other := d.Honey[0]
	other.Name, other.MassKg = "Heather", 0.2
	d.Honey = append(d.Honey, other)
	d.Taste.HoneyAtHandKg = ptr(0.5)
	r, err := tuner(t, d).To(Wishes{Honey: ptr(90)}, Levers{Set: lever.SetOf(lever.Honey)})
	if err != nil {
		t.Fatal(err)
	}
	if kg := r.Ways[0].Design.Honey[0].MassKg; math.Abs(kg-0.3) > 1e-9 || *r.Ways[0].HoneyLeftKg != 0 || r.Reached {
		t.Errorf("%v kg beside 0.2 of 0.5", kg)
	}
	if !slices.Contains(r.Binding, lever.Honey) || !strings.Contains(notesOf(r), "at hand is used") {
		t.Errorf("the honey at hand binds: %v, %q", r.Binding, notesOf(r))
	}
	// Held, the honey stays, and the note says why nothing else is done.
	d = base.Clone()
	d.Taste.HoneyAtHandKg = ptr(0.3)
	r, err = tuner(t, d).To(taste(70, no, no), Levers{Set: lever.SetOf(lever.Rest)})
	if err != nil || !strings.Contains(notesOf(r), "held") || r.Ways[0].Design.Honey[0].MassKg != 0.55 {
		t.Errorf("%v, %q", err, notesOf(r))
	}
}

func notesOf(r Result) string {
	var out []string
	for _, n := range r.Notes {
		out = append(out, n.String())
	}
	return strings.Join(out, "; ")
}

// A mash cut below three quarters of an hour carries its caution; one that was short
// already, or is long enough, does not.
func TestAShortMashCarriesItsCaution(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		was, other, is float64
		caution        bool
	}{{60, 0, 40, true}, {60, 0, 45, false}, {60, 10, 35, false}, {30, 0, 30, false}, {30, 0, 40, false}, {60, 5, 30, true}} {
		d := demotest.Design(t, "middle")
		d.Mash.Rest[0].Minutes = c.was
		if c.other > 0 {
			d.Mash.Rest = append(d.Mash.Rest, design.Rest{TemperatureC: 72, Minutes: c.other})
		}
		tu := tuner(t, d)
		s := tu.start
		s.Minutes = c.is
		got := tu.cautions(&found{setting: s})
		if (len(got) == 1) != c.caution {
			t.Errorf("%v min and %v, cut to %v: %v", c.was, c.other, c.is, got)
		}
		if c.caution && !strings.Contains(got[0].String(), "iodine") {
			t.Errorf("%q does not say what to do", got[0])
		}
	}
}

// Another strain that brings a beer two points nearer, of a band of eleven, comes
// after what the other levers do; one that brings it six nearer does not.
func TestAStrainForNextToNothingComesLast(t *testing.T) {
	t.Parallel()
	qs, _ := taste(60, no, no).list()
	at := func(dryness float64, strain bool, change float64, pattern string) found {
		f := found{land: calc.Landed{Dryness: dryness}, cloud: 11, moved: 1, change: change, pattern: pattern}
		f.miss = missOf(qs, &f.land)
		if strain {
			f.yeast, f.odd = &design.Yeast{Name: "Other"}, true
		}
		return f
	}
	for _, c := range []struct {
		own, other float64 // where they land, of 60 wished
		first      string
	}{
		{61.5, 60, "mash.rest+ "}, // both reach: 1.5 points of 11
		{55, 57, "mash.rest+ "},   // neither does: 2 of 11
		{55, 60, "yeast+ "},       // only the strain reaches: 5 of 11
		{57.5, 60, "mash.rest+ "}, // only the strain reaches, by 2.5 of 11
		{51, 57, "yeast+ "},       // 6 of 11
		{61.5, 61.4, "mash.rest+ "},
	} {
		out := choose([]found{at(c.other, true, 1, "yeast+ "), at(c.own, false, 9, "mash.rest+ ")}, qs)
		if len(out) != 2 || out[0].pattern != c.first {
			t.Errorf("own strain at %v, another at %v: %s first", c.own, c.other, out[0].pattern)
		}
	}
	// Where nothing else moves there is nothing to come after.
	out := choose([]found{at(57, true, 1, "yeast+ "), {land: calc.Landed{Dryness: 56}, miss: 4, cloud: 11}}, qs)
	if out[0].yeast == nil {
		t.Error("the strain is all that may move, and comes after doing nothing")
	}
}

// What is asked for, and whether two wishes are the same: every quality counts.
func TestEveryWishCounts(t *testing.T) {
	t.Parallel()
	if !(Wishes{}).Empty() || !(Wishes{}).Equal(Wishes{}) {
		t.Error("no wish is no wish")
	}
	one := []Wishes{{Dryness: ptr(5)}, {Body: ptr(5)}, {StrengthPct: ptr(5)}, {Honey: ptr(5)}}
	two := []Wishes{{Dryness: ptr(6)}, {Body: ptr(6)}, {StrengthPct: ptr(6)}, {Honey: ptr(6)}}
	for i, w := range one {
		if w.Empty() || w.Equal(Wishes{}) || (Wishes{}).Equal(w) || w.Equal(two[i]) || w.Equal(one[(i+1)%len(one)]) {
			t.Errorf("wish %d does not count", i)
		}
		same := []Wishes{{Dryness: ptr(5)}, {Body: ptr(5)}, {StrengthPct: ptr(5)}, {Honey: ptr(5)}}[i]
		if !w.Equal(same) {
			t.Errorf("wish %d is not itself", i)
		}
		qs, err := w.list()
		if err != nil || len(qs) != 1 {
			t.Fatalf("%v, %v", qs, err)
		}
	}
}

// The price names what is left over, once, and nothing where nothing is.
func TestThePriceNamesWhatIsLeftOver(t *testing.T) {
	t.Parallel()
	of := func(left *float64) string {
		w := Way{HoneyLeftKg: left}
		return message.InEnglish(w.Price(), "; ")
	}
	if got := of(ptr(0.15)); got != "150 g of honey left over" {
		t.Errorf("%q", got)
	}
	if got := of(nil) + of(ptr(0)); got != "" {
		t.Errorf("%q", got)
	}
}

// Two qualities off by more than half a point pull against each other by name; where
// one alone is off, all that were asked for do.
func TestConflictNamesTheQualities(t *testing.T) {
	t.Parallel()
	qs, _ := taste(60, 40, 5).list()
	at := func(dryness, body, strength float64) string {
		return strings.Join(conflict(qs, &found{land: calc.Landed{Dryness: dryness, Body: body, StrengthPct: strength}}), " ")
	}
	for got, want := range map[string]string{
		at(63, 44, 5): "dryness body", at(60.2, 44, 5.2): "body strength_pct", at(64, 40, 5): "dryness body strength_pct", at(61, 41, 5.1): "dryness body strength_pct",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	alone, _ := taste(60, no, no).list()
	if got := conflict(alone, &found{land: calc.Landed{Dryness: 70}}); len(got) != 0 {
		t.Errorf("one quality pulls against %v", got)
	}
}
