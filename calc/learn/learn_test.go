package learn

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
	"time"

	"skep/assets/demotest"

	"pgregory.net/rapid"

	"skep/calc"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/recipe"
)

// clean is a batch of the middle demo with true values known and readings
// without any error.
func clean(t testing.TB, change func(x *calc.Inputs)) (design.Design, calc.Beer) {
	t.Helper()
	d := demotest.Design(t, "middle")
	brew, err := brewedOf(d)
	if err != nil {
		t.Fatal(err)
	}
	x := brew.middle()
	change(&x)
	b := *brew.beer(&x)
	read := func(what string, hours, v float64) {
		d.Reading = append(d.Reading, design.Reading{What: what, At: monday.Add(time.Duration(hours * float64(time.Hour))), Value: v, TemperatureC: 20, Instrument: "hydrometer"})
	}
	read("volume-into-fermenter", -1, 15)
	read("original-gravity", -0.5, density.SGFromPlato(b.OriginalPlato))
	read("pitched", 0, 1)
	read("honey-added", 70, 0.55)
	read("final-gravity", 300, b.FinalGravitySG)
	return d, b
}

// What went in comes out of the readings: efficiency, strain, strength.
func TestMeasureFindsWhatWentIn(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ efficiency, strain float64 }{{74, 76}, {66, 71}, {81, 80.5}} {
		d, made := clean(t, func(x *calc.Inputs) { x.EfficiencyPct, x.Take = c.efficiency, calc.TakeOf(c.strain) })
		m, err := Measure(d)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "efficiency", m.EfficiencyPct.Mean, c.efficiency, 0.05)
		near(t, "strain", m.StrainPct.Mean, c.strain, 0.05)
		near(t, "strength", m.StrengthPct.Mean, made.ABVPct, 0.01)
		near(t, "attenuation", m.ApparentAttenuationPct.Mean, made.ApparentAttenuationPct(), 0.05)
		if m.SteamLPerH.Known || m.LogTime.Known || m.RestOffsetC.Known || m.DrynessOffset.Known {
			t.Errorf("something is said that nothing was read of: %+v", m)
		}
		if !m.At.Equal(monday) {
			t.Errorf("pitched at %v", m.At)
		}
	}
}

// The strength of the honey's step, against a plain before-and-after
// calculation: effective original gravity is above the one at pitching by the
// honey's own extract, 0.55 kg of 17.5 % moisture in about 15.4 L of beer (320
// points·L/kg at 17 %, design notes, section 5: 11 points).
func TestEffectiveGravityCountsTheHoney(t *testing.T) {
	t.Parallel()
	d, _ := clean(t, func(*calc.Inputs) {})
	m, err := Measure(d)
	if err != nil {
		t.Fatal(err)
	}
	points := 1000 * (m.EffectiveOriginalGravitySG.Mean - m.OriginalGravitySG.Mean)
	share := 0.55 / (0.55 + 15*1.045) // of honey's gravity, the rest of the beer's is thinned
	want := 320*0.55/15.4 - share*45*0.3
	near(t, "points", points, want, 1.5)
}

// The doubts of what was read go on into what is found, by the plain rules: a
// point of original gravity is 0.131 % of strength, attenuation is the fall over
// the points, efficiency is as uncertain as points and litres are together.
func TestDoubtsGoOn(t *testing.T) {
	t.Parallel()
	d, _ := clean(t, func(*calc.Inputs) {})
	m, err := Measure(d)
	if err != nil {
		t.Fatal(err)
	}
	og, fg := m.OriginalGravitySG, m.FinalGravitySG
	all := m.EffectiveOriginalGravitySG.Mean - 1
	near(t, "strength", m.StrengthPct.SD/(131*math.Hypot(og.SD, fg.SD)), 1, 0.12)
	near(t, "attenuation", m.ApparentAttenuationPct.SD/(100/all*math.Hypot(fg.SD, og.SD*(fg.Mean-1)/all)), 1, 0.08)
	near(t, "efficiency", m.EfficiencyPct.SD/m.EfficiencyPct.Mean,
		math.Hypot(og.SD/(og.Mean-1), m.IntoFermenterL.SD/m.IntoFermenterL.Mean), 1e-9)
}

// Steam is found by the litres before the boil, by their gravity, and by both
// together, which says more than either.
func TestSteamBothWays(t *testing.T) {
	t.Parallel()
	find := func(litres, gravity bool) Value {
		d, made := clean(t, func(*calc.Inputs) {})
		wetter := d
		wetter.Kit.SteamLPerH += 0.5
		p := recipe.LiquorForExtract(wetter, made.GrainKg/recipe.Liquor(d).KeptShare)
		read := func(what string, v float64) {
			d.Reading = append(d.Reading, design.Reading{What: what, At: monday.Add(-3 * time.Hour), Value: v, TemperatureC: 20, Instrument: "hydrometer"})
		}
		if litres {
			read("pre-boil-volume", p.PreBoil)
		}
		if gravity {
			read("pre-boil-gravity", p.PreBoilGravitySG)
		}
		m, err := Measure(d)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "steam", m.SteamLPerH.Mean, wetter.Kit.SteamLPerH, 0.15)
		return m.SteamLPerH
	}
	a, b, both := find(true, false), find(false, true), find(true, true)
	near(t, "precision", 1/(both.SD*both.SD), 1/(a.SD*a.SD)+1/(b.SD*b.SD), 1e-6)
	near(t, "mean", both.Mean, (a.Mean/(a.SD*a.SD)+b.Mean/(b.SD*b.SD))*both.SD*both.SD, 1e-6)
}

// What each batch says is told against the mean found, and their weights make
// one.
func TestEvidenceIsWeighed(t *testing.T) {
	t.Parallel()
	heard, ref := history(t, 5)
	l := Learn(heard, ref)
	for i := range l.Lessons {
		x := &l.Lessons[i]
		if len(x.Evidence) == 0 {
			continue
		}
		sum := 0.0
		for _, e := range x.Evidence {
			sum += e.Weight
			if !strings.Contains(x.Key, "/") { // a strain's is told beside the malt's share
				near(t, x.Key+" residual", e.Residual, e.Value-x.Posterior.Mean, 1e-9)
			}
		}
		near(t, x.Key+" weights", sum, 1, 1e-9)
	}
}

// A whole simulated batch: every lesson hears it, and within five of its own sd.
func TestEveryLessonIsHeard(t *testing.T) {
	t.Parallel()
	b := newBrewer(3, demotest.Design(t, "middle"), worlds[0])
	d := b.recipe(0)
	m := b.brew(d)
	d.Reading = b.readings(d, &m, monday)
	got, err := Measure(d)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what string
		v    Value
		want float64
	}{
		{"efficiency", got.EfficiencyPct, m.x.EfficiencyPct}, {"steam", got.SteamLPerH, b.steam}, {"rest", got.RestOffsetC, m.offset},
		{"time", got.LogTime, math.Log(m.factor)}, {"height", got.HeightHours, m.factor * midHeight(d)},
		{"dryness", got.PerceivedDryness, m.outcome[5]}, {"body", got.PerceivedBody, m.outcome[6]},
	} {
		if !c.v.Known || math.Abs(c.v.Mean-c.want) > 5*c.v.SD {
			t.Errorf("%s: %+v, truly %.4g", c.what, c.v, c.want)
		}
	}
	if !got.StrainPct.Known || !got.DrynessOffset.Known || !got.BodyOffset.Known {
		t.Errorf("not heard: %+v", got)
	}
	l := Learn([]Batch{{ID: "a", Measured: got}}, d)
	for i := range l.Lessons {
		x := &l.Lessons[i]
		if strings.Contains(x.Key, "/") && x.Strain != d.Yeast[0].Name {
			if len(x.Evidence) != 0 || x.Borrowed != 1 {
				t.Errorf("%s: %d of its own, %d borrowed", x.Key, len(x.Evidence), x.Borrowed)
			}
			continue
		}
		if len(x.Evidence) != 1 || x.Kept <= 0 || x.Kept >= 1 || !strings.Contains(x.Found().String(), "one batch") {
			t.Errorf("%s: %+v, %q", x.Key, x, x.Found())
		}
	}
}

func history(t testing.TB, n int) ([]Batch, design.Design) {
	t.Helper()
	b := newBrewer(11, demotest.Design(t, "middle"), worlds[0])
	var out []Batch
	for i := range n {
		d := b.recipe(i)
		m := b.brew(d)
		d.Reading = b.readings(d, &m, monday.Add(time.Duration(i)*500*time.Hour))
		got, err := Measure(d)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, Batch{ID: fmt.Sprintf("%02d", i), Measured: got})
	}
	return out, b.base
}

// The order in which batches come does not matter, to the last bit.
func TestOrderDoesNotMatter(t *testing.T) {
	t.Parallel()
	batches, ref := history(t, 7)
	want := Learn(batches, ref)
	rapid.Check(t, func(t *rapid.T) {
		mixed := rapid.Permutation(batches).Draw(t, "order")
		if got := Learn(mixed, ref); !reflect.DeepEqual(got.Lessons, want.Lessons) {
			t.Fatal("another order teaches something else")
		}
	})
}

// No batch, no change: the design and the engine's own doubts.
func TestWithoutBatchesThePriorsStand(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	l := Learn(nil, d)
	got, doubts, used := l.Apply(d, nil)
	if !reflect.DeepEqual(got, d) || !reflect.DeepEqual(doubts, Doubts{}) || len(used) != 0 {
		t.Errorf("changed without a batch: %+v %v", doubts, used)
	}
	near(t, "efficiency", l.Lessons[0].NextSD, engineEfficiencySD(), 1e-12)
	near(t, "rest", l.Lessons[2].NextSD, d.Kit.RestErrorC, 1e-12)
}

// A switch takes exactly its lesson out; a lever still moves what it moved.
// What was learnt is applied the way it was found: each lever moves from the
// design's own by as much as the belief did from its prior, and a strain's range
// holds its 10th to 90th percentile about its middle.
func TestApplyMovesTheWayItWasFound(t *testing.T) {
	t.Parallel()
	batches, d := history(t, 6)
	l := Learn(batches, d)
	on, doubts, _ := l.Apply(d, nil)
	for key, by := range map[string]float64{
		Efficiency:  on.Kit.MashEfficiencyPct - d.Kit.MashEfficiencyPct,
		BoilOff:     on.Kit.SteamLPerH - d.Kit.SteamLPerH,
		Thermometer: doubts.RestShiftC,
	} {
		found := false
		for i := range l.Lessons {
			if x := &l.Lessons[i]; x.Key == key {
				found = true
				near(t, key, by, x.Posterior.Mean-x.Prior.Mean, 1e-9)
				if x.Prior.Mean == x.Posterior.Mean || x.Posterior.SD >= x.Prior.SD {
					t.Errorf("%s: nothing learnt: %+v", key, x)
				}
			}
		}
		if !found {
			t.Errorf("no lesson %s", key)
		}
	}
	if x, ok := l.strains[group(d.Yeast[0].Name)]; !ok {
		t.Error("nothing learnt of the strain")
	} else {
		was, is := d.Yeast[0], on.Yeast[0]
		near(t, "strain", (is.AttenuationLowPct+is.AttenuationHighPct-was.AttenuationLowPct-was.AttenuationHighPct)/2, x.Posterior.Mean-x.Prior.Mean, 1e-9)
		near(t, "range", is.AttenuationHighPct-is.AttenuationLowPct, 2*doubt.Z90*x.Posterior.SD, 1e-9)
	}
	if !(doubts.SweetShare > 0 && doubts.SweetShare < 1) {
		t.Errorf("share of the palate's doubt left: %v", doubts.SweetShare)
	}
	// What a batch says of the palate is what was tasted less what was made.
	for i := range batches {
		m := &batches[i].Measured
		if m.PerceivedDryness.Known {
			near(t, "dryness", m.DrynessOffset.Mean, m.PerceivedDryness.Mean-m.PredictedDryness, 1e-9)
		}
		if m.PerceivedBody.Known {
			near(t, "body", m.BodyOffset.Mean, m.PerceivedBody.Mean-m.PredictedBody, 1e-9)
		}
	}
	// The ends hold: no lever leaves its range, whatever was learnt.
	low, high := d.Clone(), d.Clone()
	k, _ := design.KeyOf("kit.mash_efficiency_pct")
	low.Kit.MashEfficiencyPct, high.Kit.MashEfficiencyPct = k.Min, k.Max
	low.Yeast[0].AttenuationLowPct, low.Yeast[0].AttenuationHighPct = 30, 32
	high.Yeast[0].AttenuationLowPct, high.Yeast[0].AttenuationHighPct = 98, 100
	for _, x := range []design.Design{low, high} {
		got, _, _ := l.Apply(x, nil)
		if err := design.FirstError(got.Validate()); err != nil {
			t.Error(err)
		}
	}
}

func TestSwitches(t *testing.T) {
	t.Parallel()
	batches, d := history(t, 6)
	l := Learn(batches, d)
	on, doubts, used := l.Apply(d, nil)
	if doubts.EfficiencySD == 0 || doubts.MaltSD == 0 || doubts.Clock == nil || !doubts.Dryness.Known || doubts.SweetShare == 0 || len(used) < 7 {
		t.Fatalf("six batches leave the engine its own: %+v, %d used", doubts, len(used))
	}
	if on.Kit.MashEfficiencyPct == d.Kit.MashEfficiencyPct || on.Yeast[0].AttenuationHighPct-on.Yeast[0].AttenuationLowPct <= 0 {
		t.Errorf("not applied: %+v", on.Kit)
	}
	off := Switches{Efficiency: true}
	got, without, _ := l.Apply(d, off)
	if got.Kit.MashEfficiencyPct != d.Kit.MashEfficiencyPct || without.EfficiencySD != 0 {
		t.Error("efficiency is left out and still used")
	}
	got.Kit.MashEfficiencyPct = on.Kit.MashEfficiencyPct
	if !reflect.DeepEqual(got, on) {
		t.Error("the switch of efficiency changed something else")
	}
	all := Switches{}
	for i := range l.Lessons {
		all[l.Lessons[i].Key] = true
	}
	if got, doubts, used := l.Apply(d, all); !reflect.DeepEqual(got, d) || !reflect.DeepEqual(doubts, Doubts{}) || len(used) != 0 {
		t.Error("everything is left out and something is used")
	}
	moved := d.Clone()
	moved.Yeast[0].AttenuationLowPct -= 4
	moved.Yeast[0].AttenuationHighPct -= 4
	got, _, _ = l.Apply(moved, nil)
	near(t, "four points less by the lever", got.Yeast[0].AttenuationLowPct, on.Yeast[0].AttenuationLowPct-4, 1e-9)
	if err := design.FirstError(on.Validate()); err != nil {
		t.Error(err)
	}
}

// A batch the person leaves out is not heard.
func TestLeavingABatchOut(t *testing.T) {
	t.Parallel()
	batches, d := history(t, 3)
	want := Learn(batches[:2], d)
	batches[2].LeaveOut = true
	got := Learn(batches, d)
	if !reflect.DeepEqual(got.Lessons, want.Lessons) {
		t.Error("a batch that is left out was heard")
	}
}

// Whatever stands in the readings: no panic, no number that is none, and a
// design that is still one.
func TestBadReadings(t *testing.T) {
	t.Parallel()
	kinds := []string{"pre-boil-volume", "volume-into-fermenter", "pre-boil-gravity", "original-gravity", "gravity", "final-gravity", "mash-temperature",
		"beer-temperature", "pitched", "honey-added", "foam", "perceived-dryness", "perceived-body"}
	base := demotest.Design(t, "middle")
	rapid.Check(t, func(t *rapid.T) {
		d := base.Clone()
		for range rapid.IntRange(0, 12).Draw(t, "readings") {
			r := design.Reading{
				What:         rapid.SampledFrom(kinds).Draw(t, "what"),
				At:           monday.Add(time.Duration(rapid.IntRange(-200, 2000).Draw(t, "hour")) * time.Hour),
				Value:        rapid.OneOf(rapid.Float64Range(0, 100), rapid.Float64Range(0.98, 1.2), rapid.SampledFrom([]float64{0, 1, 1.5, 1000})).Draw(t, "value"),
				TemperatureC: rapid.Float64Range(0, 100).Draw(t, "sample"),
				Instrument:   rapid.SampledFrom([]string{"hydrometer", "refractometer"}).Draw(t, "instrument"),
			}
			d.Reading = append(d.Reading, r)
		}
		if rapid.Bool().Draw(t, "no grain") {
			d.Grain[0].MassKg, d.Grain[1].MassKg = 0, 0
		}
		m, err := Measure(d)
		if err != nil {
			return // not a design that can be brewed: says so
		}
		l := Learn([]Batch{{ID: "x", Measured: m}}, base)
		for i := range l.Lessons {
			x := l.Lessons[i]
			for _, v := range []float64{x.Posterior.Mean, x.Posterior.SD, x.NextSD, x.BatchSD, x.Kept} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%s is %+v", x.Key, x)
				}
			}
		}
		got, _, _ := l.Apply(base, nil)
		if err := design.FirstError(got.Validate()); err != nil {
			t.Fatal(err)
		}
	})
	if _, err := Measure(design.Design{}); err == nil {
		t.Error("an empty design was measured")
	}
}

func BenchmarkMeasure(b *testing.B) {
	w := newBrewer(1, demotest.Design(b, "middle"), worlds[0])
	d := w.recipe(0)
	m := w.brew(d)
	d.Reading = w.readings(d, &m, monday)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Measure(d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLearn1000(b *testing.B) {
	few, ref := history(b, 20)
	rng := rand.New(rand.NewPCG(1, 1))
	var many []Batch
	for i := range 1000 {
		x := few[rng.IntN(len(few))]
		x.ID = fmt.Sprint(i)
		many = append(many, x)
	}
	for b.Loop() {
		Learn(many, ref)
	}
}
