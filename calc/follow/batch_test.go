package follow

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/recipe"
)

// middling are noiseless readings of the plan's own middle, honey at 52 h.
func middling(t testing.TB, d design.Design, hours ...float64) []design.Reading {
	x := &brewer{m: modelOf(t, d)}
	out := []design.Reading{reading(measured.Pitched, 0, 1)}
	if len(d.Honey) > 0 {
		x.m = loggedModel(t, d, 52)
	}
	x.m.run(&x.truth, &x.made)
	sg := func(h float64) float64 { return math.Round(x.made.At(h-calc.JustAfter).GravitySG*1e4) / 1e4 }
	out = append(out, reading(measured.OriginalGravity, 0, sg(0)))
	for _, h := range hours {
		out = append(out, reading(measured.Gravity, h, sg(h)))
		if len(d.Honey) > 0 && h > 52 && !slices.ContainsFunc(out, func(r design.Reading) bool { return r.What == measured.HoneyAdded }) {
			out = append(out, reading(measured.HoneyAdded, 52, d.Honey[0].MassKg))
		}
	}
	return out
}

// Honey that is past its planned hour and not logged is told of in the state,
// with how long and what to do; not before its hour, and not once it is in.
func TestOverdueHoney(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	in := append(middling(t, d, 24, 46), reading(measured.HoneyAdded, 50, d.Honey[0].MassKg))
	for _, c := range []struct {
		r    []design.Reading
		now  float64
		text string // "": not overdue
		todo string
	}{
		{middling(t, d, 24), 30, "", ""},
		{in, 60, "", ""},
		{middling(t, d, 24, 46), 80, "past the height: finished in", "add it now"},
		{middling(t, d, 24, 46), 120, "550 g of honey is overdue by", "needs time"},
	} {
		d.Reading = c.r
		b := follow(t, d, c.now)
		text, advice := b.State.Text.String(), fmt.Sprint(b.State.Advice)
		if c.text == "" {
			if b.State.Is(HoneyOverdue) || strings.Contains(text, "overdue") {
				t.Errorf("at %.0f h: %s", c.now, text)
			}
			continue
		}
		if !b.State.Is(HoneyOverdue) || !strings.Contains(text, c.text) || !strings.Contains(text, "overdue by") || !strings.Contains(advice, c.todo) || !strings.Contains(advice, "log it if it is in") {
			t.Errorf("at %.0f h: %s; %s", c.now, text, advice)
		}
		late := b.Moment.Planned[0].From
		if want := fmt.Sprintf("overdue by %.0f h (%.0f to %.0f)", -late.Mid, -late.High, -late.Low); !strings.Contains(text, want) {
			t.Errorf("at %.0f h: %q, want %q in it", c.now, text, want)
		}
	}
}

func TestStates(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	plain := d.Clone()
	plain.Honey = nil
	for _, c := range []struct {
		name  string
		d     design.Design
		r     []design.Reading
		now   float64
		want  StateCode
		also  StateCode
		words string
	}{
		{"nothing read", d, nil, 0, NotPitched, "", "not pitched"},
		{"original gravity only", d, []design.Reading{reading(measured.OriginalGravity, -1, 1.0425)}, 0, NotPitched, "", "original gravity"},
		{"an hour in", d, middling(t, d), 4, Lag, "", "lag"},
		{"no fall yet", d, append(middling(t, d), reading(measured.Gravity, 7, 1.0402)), 8, Lag, "", "lag"},
		{"before the height", d, middling(t, d, 24), 24, OnCourse, "", "height is in"},
		{"after the height", d, middling(t, d, 24, 46), 46, PastHeight, "", "past the height"},
		{"slow", plain, append(middling(t, plain), reading(measured.Gravity, 60, 1.0395), reading(measured.Gravity, 96, 1.0350)), 97, Slow, "", "slower"},
		{"fast", plain, append(middling(t, plain), reading(measured.Gravity, 20, 1.0260), reading(measured.Gravity, 30, 1.0165)), 31, Fast, PastHeight, "faster"},
		{"stuck", plain, append(middling(t, plain, 30), reading(measured.Gravity, 120, 1.0200), reading(measured.Gravity, 170, 1.0198), reading(measured.Gravity, 220, 1.0200)), 221, Stuck, PastHeight, "stuck"},
		{"never began", plain, append(middling(t, plain), reading(measured.Gravity, 30, 1.0402), reading(measured.Gravity, 80, 1.0402)), 81, Stuck, "", "nothing has happened"},
		{"finished", plain, middling(t, plain, 30, 60, 240, 300), 301, Finished, PastHeight, "finished"},
		{"one reading at the end", plain, middling(t, plain, 30, 60, 300), 301, PastHeight, "", "past the height"},
		{"a reading contradicts", plain, append(middling(t, plain, 24, 36, 72, 96), reading(measured.Gravity, 50, 1.0150)), 97, PastHeight, Contradicts, "past the height"},
	} {
		c.d.Reading = c.r
		b := follow(t, c.d, c.now)
		if b.State.Code != c.want || c.also != "" && !b.State.Is(c.also) || !strings.Contains(b.State.Text.String(), c.words) {
			t.Errorf("%s: %s %v: %s", c.name, b.State.Code, b.State.Also, b.State.Text)
		}
		if c.also != Contradicts && b.State.Is(Contradicts) {
			t.Errorf("%s: %s", c.name, b.Doubts[0].Text)
		}
		if c.want == Stuck && len(b.State.Advice) == 0 {
			t.Errorf("%s: nothing is advised", c.name)
		}
		if b.ESS < 60 {
			t.Errorf("%s: effective sample size %.0f", c.name, b.ESS)
		}
	}
}

// The reading that is wrong is the one that is named, and it hardly moves the
// rest: the others overrule it.
func TestTheWrongReadingIsNamed(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Honey = nil
	good := middling(t, d, 20, 30, 40, 50, 72, 96, 140, 200)
	d.Reading = good
	right := follow(t, d, 201)
	if len(right.Doubts) != 0 {
		t.Fatalf("without a wrong reading: %s", right.Doubts[0].Text)
	}
	for i := 2; i < len(good); i++ {
		for _, off := range []float64{-0.006, 0.006} {
			r := slices.Clone(good)
			r[i].Value += off
			d.Reading = r
			b := follow(t, d, 201)
			k := slices.IndexFunc(b.Timeline.Points, func(p measured.Point) bool { return p.Index == i })
			if p := b.Timeline.Points[k]; p.Has(measured.Spike) || p.Has(measured.Absurd) {
				continue // found without statistics
			}
			if len(b.Doubts) == 0 || !slices.Contains(b.Doubts[0].Points, k) {
				t.Errorf("reading %d off by %+.3f: doubts %+v", i, off, b.Doubts)
				continue
			}
			if b.Doubts[0].Z*off < 0 || b.Doubts[0].Alone || !b.State.Is(Contradicts) {
				t.Errorf("reading %d off by %+.3f: z %.1f", i, off, b.Doubts[0].Z)
			}
			// Moved by less than the band is wide, though ten sds off.
			width := right.After.HeightHours.High - right.After.HeightHours.Low
			near(t, "height", b.After.HeightHours.Mid, right.After.HeightHours.Mid, width)
		}
	}
}

// A measured original gravity far from the plan is believed, and told of.
func TestAnOriginalGravityFarOff(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	for _, og := range []float64{1.0350, 1.0490} {
		d.Reading = []design.Reading{reading(measured.OriginalGravity, 0, og), reading(measured.Pitched, 0, 1)}
		b := follow(t, d, 1)
		if len(b.Doubts) != 1 || !b.Doubts[0].Alone || !strings.Contains(b.Doubts[0].Text.String(), "plan") {
			t.Errorf("%.4f: %+v", og, b.Doubts)
		}
		near(t, "original gravity after", b.After.OriginalGravitySG.Mid, og, 0.0012)
	}
}

func TestMoment(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Reading = middling(t, d, 24)
	var f Follower
	last := -1
	order := []Phase{NotYet, Now, Closing, Past}
	for _, now := range []float64{25, 40, 50, 55, 60, 70, 80, 90, 100, 120, 160} {
		b, err := f.Follow(d, at(now), measured.Instruments{}, calc.Doubts{})
		if err != nil {
			t.Fatal(err)
		}
		m := b.Moment
		k := slices.Index(order, m.Phase)
		if k < last {
			t.Errorf("%s after %s at %.0f h", m.Phase, order[last], now)
		}
		last = k
		// With 6,000 draws it is open at 70 h with a chance of 0.37.
		if now == 70 {
			near(t, "chance that the window is open at 70 h", m.Open, 0.37, 0.06)
		}
		if m.Phase == Now && m.Open < 0.37 || m.Phase == NotYet && m.Opens.Mid < 0 || m.Phase == Past && m.Closes.Mid > 0 {
			t.Errorf("at %.0f h %s: open %.2f, opens %+v, closes %+v", now, m.Phase, m.Open, m.Opens, m.Closes)
		}
		near(t, "hours from now", m.Opens.Mid+now, b.After.WindowHours[0].Mid, 1e-9)
		if len(m.Planned) != 1 {
			t.Errorf("planned honey %+v", m.Planned)
		}
	}
	if last != 3 {
		t.Error("the window never closed")
	}
}

// Foam moves the height: falling foam says that it has passed, rising foam that
// it has not; both narrow the band.
func TestFoamMovesTheMoment(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Reading = []design.Reading{reading(measured.Pitched, 0, 1)}
	var f Follower
	// As likely as not at its height.
	hour := math.Round(follow(t, d, 1).After.HeightHours.Mid)
	with := func(foam float64) *Batch {
		x := d
		x.Reading = append(slices.Clone(d.Reading), reading(measured.Foam, hour, foam))
		b, err := f.Follow(x, at(hour), measured.Instruments{}, calc.Doubts{})
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	none, err := f.Follow(d, at(hour), measured.Instruments{}, calc.Doubts{})
	if err != nil {
		t.Fatal(err)
	}
	rising, height, falling := with(1), with(2), with(3)
	if !(rising.Moment.HeightPast < none.Moment.HeightPast && none.Moment.HeightPast < falling.Moment.HeightPast) {
		t.Errorf("height past: rising %.2f, nothing seen %.2f, falling %.2f", rising.Moment.HeightPast, none.Moment.HeightPast, falling.Moment.HeightPast)
	}
	if falling.Moment.HeightPast < 0.85 || rising.Moment.HeightPast > 0.25 {
		t.Errorf("height past: falling %.2f, rising %.2f", falling.Moment.HeightPast, rising.Moment.HeightPast)
	}
	near(t, "height by foam at its height", height.After.HeightHours.Mid, hour, 2)
	wide := none.After.HeightHours.High - none.After.HeightHours.Low
	for _, b := range []*Batch{rising, height, falling} {
		if got := b.After.HeightHours.High - b.After.HeightHours.Low; got > wide {
			t.Errorf("the band is %.1f h wide after foam, %.1f before", got, wide)
		}
	}
	if !(falling.After.WindowHours[0].Mid < none.After.WindowHours[0].Mid && rising.After.WindowHours[0].Mid > none.After.WindowHours[0].Mid) {
		t.Error("the window did not move with the foam")
	}
}

// What honey does, by a mass balance worked out here on its own: 0.55 kg of
// 17.5 % moisture into 15 L.
func TestHoneyLogged(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Reading = middling(t, d, 24, 48, 60, 240, 300)
	b := follow(t, d, 301)
	h := b.Honey
	if len(h.Steps) != 1 || h.Steps[0].Hours != 52 || h.Steps[0].MassKg != 0.55 {
		t.Fatalf("%+v", h.Steps)
	}
	oe := density.PlatoFromSG(b.After.OriginalGravitySG.Mid)
	wort := 15 * density.KgM3FromSG(b.After.OriginalGravitySG.Mid) / 1000
	solids := 0.55 * (1 - 0.175)
	effective := 100 * (oe/100*wort + solids) / (wort + 0.55)
	near(t, "effective original gravity", h.EffectiveOriginalGravitySG.Mid, density.SGFromPlato(effective), 3e-4)
	// About 300 points·L/kg in the volume that is there: 11 points.
	near(t, "step", h.Steps[0].StepSG.Mid, 0.550*0.825*1000/15.4*0.0004*0.96, 0.0012)
	fg := b.After.FinalGravitySG.Mid
	plain := alcohol.Strength(b.After.OriginalGravitySG.Mid, fg).StrengthPct
	whole := alcohol.Strength(density.SGFromPlato(effective), fg).StrengthPct
	near(t, "plain strength", h.PlainStrengthPct.Mid, plain, 0.05)
	near(t, "strength", h.StrengthPct.Mid, whole, 0.08)
	near(t, "missed", h.MissedPct.Mid, whole-plain, 0.06)
	// Honey logged before pitching is in the wort.
	d.Reading = []design.Reading{reading(measured.HoneyAdded, -3, 0.55), reading(measured.Pitched, 0, 1)}
	b = follow(t, d, 10)
	if got := b.Conditioned.Design.Honey[0]; got.Moment != design.MomentPitching || len(b.Honey.Steps) != 0 || len(b.Conditioned.HoneyLeft) != 0 {
		t.Errorf("honey before pitching: %+v, left %v", got, b.Conditioned.HoneyLeft)
	}
}

func TestBottle(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	plain := d.Clone()
	plain.Honey = nil
	steady := middling(t, plain, 24, 60, 240, 300)
	strong := plain.Clone()
	strong.Package.VolumesCO2 = 3.6
	brix := slices.Clone(steady)
	for i := range brix {
		if brix[i].What == measured.Gravity {
			brix[i].Instrument, brix[i].Value = "refractometer", map[bool]float64{true: 5.6, false: 9}[brix[i].At.After(at(200))]
		}
	}
	for _, c := range []struct {
		name  string
		d     design.Design
		r     []design.Reading
		want  Verdict
		words string
	}{
		{"nothing", plain, nil, Wait, "nothing is pitched"},
		{"no gravity", plain, middling(t, plain), Wait, "no gravity"},
		{"one gravity", plain, middling(t, plain, 300), Wait, "no two equal"},
		{"a day apart", plain, middling(t, plain, 276, 300), Wait, "no two equal"},
		{"still falling", plain, middling(t, plain, 60, 120), Wait, "no two equal"},
		{"steady", plain, steady, Within, "days apart"},
		{"steady, too much gas", strong, steady, Over, "made for"},
		{"by refractometer", plain, brix, Wait, "hydrometer"},
		{"stuck", plain, append(middling(t, plain, 30), reading(measured.Gravity, 200, 1.0200), reading(measured.Gravity, 260, 1.0200)), Wait, "has stopped above"},
		{"honey after the last", d, append(middling(t, d, 24, 40), reading(measured.HoneyAdded, 52, 0.55)), Wait, "honey went in after"},
		{"honey planned", d, steady, Wait, "planned and not logged"},
	} {
		c.d.Reading = c.r
		b := follow(t, c.d, 310)
		all := fmt.Sprint(b.Bottle.Reasons)
		if b.Bottle.Verdict != c.want || !strings.Contains(all, c.words) {
			t.Errorf("%s: %s: %s", c.name, b.Bottle.Verdict, all)
		}
		if strings.Contains(all, "safe") {
			t.Errorf("%s: called safe: %s", c.name, all)
		}
	}
	keg := plain.Clone()
	keg.Package.Vessel = "keg"
	keg.Reading = steady
	if b := follow(t, keg, 310); b.Bottle.Verdict != ByKeg {
		t.Errorf("a keg: %s", b.Bottle.Verdict)
	}
	// The warmest that was measured since counts.
	warm := plain.Clone()
	warm.Reading = append(slices.Clone(steady), reading(measured.BeerTemperature, 270, 24))
	if b := follow(t, warm, 310); b.Bottle.Package.WarmestSinceC != 24 {
		t.Errorf("warmest %.1f", b.Bottle.Package.WarmestSinceC)
	}
}

func TestConditionAndEvaluate(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Reading = append(middling(t, d, 24, 40), reading(measured.MashTemperature, -6, 67.2), reading(measured.VolumeFermenter, -1, 14.4), reading(measured.BeerTemperature, 10, 21), reading(measured.BeerTemperature, 36, 22))
	b := follow(t, d, 41)
	c := &b.Conditioned
	near(t, "rest", c.Design.Mash.Rest[0].TemperatureC, 67.2, 1e-9)
	near(t, "volume", c.Design.Batch.IntoFermenterL, 14.4, 1e-9)
	near(t, "beer", c.Design.Yeast[0].TemperatureC, 21.5, 0.3)
	hold := c.Hold()
	for _, l := range []string{"mash.rest", "mash.minutes", "grain", "yeast"} {
		if !slices.Contains(hold, l) {
			t.Errorf("%s is not held: %v", l, hold)
		}
	}
	for _, l := range []string{"honey.mass", "honey.moment", "yeast.temperature", "primer"} {
		if slices.Contains(hold, l) {
			t.Errorf("%s is held: %v", l, hold)
		}
	}
	if !slices.Equal(c.HoneyLeft, []int{0}) || len(c.Design.Validate()) > 0 && design.FirstError(c.Design.Validate()) != nil {
		t.Errorf("left %v, %v", c.HoneyLeft, c.Design.Validate())
	}
	// The same design evaluates to the posterior itself.
	same, err := b.Evaluate(c.Design)
	if err != nil {
		t.Fatal(err)
	}
	nearBand(t, "final gravity", same.FinalGravitySG, b.After.FinalGravitySG, 1e-9)
	nearBand(t, "finished", same.FinishedHours, b.After.FinishedHours, 1e-6)
	// More honey is stronger and drier; warmer from now on is sooner, and leaves
	// the height that has passed alone.
	more := c.Design.Clone()
	more.Honey[0].MassKg = 0.9
	m, err := b.Evaluate(more)
	if err != nil {
		t.Fatal(err)
	}
	if !(m.StrengthPct.Low > b.After.StrengthPct.Low+0.4 && m.Dryness.Mid > b.After.Dryness.Mid) {
		t.Errorf("more honey: %+v after %+v", m.StrengthPct, b.After.StrengthPct)
	}
	warm := c.Design.Clone()
	warm.Yeast[0].TemperatureC = 26
	w, err := b.Evaluate(warm)
	if err != nil {
		t.Fatal(err)
	}
	if !(w.FinishedHours.Mid < b.After.FinishedHours.Mid-5) {
		t.Errorf("warmer: finished %+v, was %+v", w.FinishedHours, b.After.FinishedHours)
	}
	near(t, "height", w.HeightHours.Low, b.After.HeightHours.Low, 1.5) // its flat top may reach into what is to come
	land, err := b.Land(more)
	if err != nil {
		t.Fatal(err)
	}
	nearBand(t, "strength landed", land[calc.Strength], m.StrengthPct, 0.25*(m.StrengthPct.High-m.StrengthPct.Low))

	// With the honey logged its levers are spent.
	d.Reading = append(d.Reading, reading(measured.HoneyAdded, 52, 0.6))
	hold = follow(t, d, 53).Conditioned.Hold()
	if !slices.Contains(hold, "honey.mass") || !slices.Contains(hold, "honey.moment") {
		t.Errorf("honey is in, held: %v", hold)
	}
}

// What a batch says after its readings is what its engine predicts, draws the
// course of and lands on, to the digit; and an engine told the same elsewhere.
func TestTheEngineSaysTheSame(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Reading = append(middling(t, d, 24, 60, 240, 300), reading(measured.MashTemperature, -5, 66.9))
	b := follow(t, d, 301)
	if len(b.Draws) != calc.Draws {
		t.Fatalf("%d draws", len(b.Draws))
	}
	for name, e := range map[string]*calc.Engine{"its engine": b.Engine, "a fork": b.Engine.Fork()} {
		p, err := e.Predict(b.Conditioned.Design)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(p, b.Prediction) {
			t.Errorf("%s predicts %+v, followed it is %+v", name, p, b.Prediction)
		}
		if got := bandsOf(&p); got.FinalGravitySG != b.After.FinalGravitySG || got.Dryness != b.After.Dryness || got.FinishedHours != b.After.FinishedHours {
			t.Errorf("%s: %+v, followed %+v", name, got, b.After)
		}
		c, err := e.Course(b.Conditioned.Design, 0)
		if err != nil {
			t.Fatal(err)
		}
		if c.GravitySG[100] != b.After.GravitySG[100] || c.CO2RateGPerLH[60] != b.After.CO2RateGPerLH[60] {
			t.Errorf("%s: the course stands at %+v, followed %+v", name, c.GravitySG[100], b.After.GravitySG[100])
		}
		curves, err := e.Curves(b.Conditioned.Design, 0, []float64{b.Conditioned.Design.Mash.Rest[0].TemperatureC})
		if err != nil {
			t.Fatal(err)
		}
		if curves.Bands[calc.Body][0] != p.Body {
			t.Errorf("%s: the curve has a body of %+v, predicted %+v", name, curves.Bands[calc.Body][0], p.Body)
		}
	}
}

// Nothing read is the plan, to the bit, with lessons or without; so is a reading
// that tells of nothing.
func TestNothingReadIsThePlan(t *testing.T) {
	t.Parallel()
	for _, x := range []calc.Doubts{{}, told()} {
		d := demotest.Design(t, "middle")
		e := calc.NewEngine()
		if err := e.SetDoubts(x); err != nil {
			t.Fatal(err)
		}
		want, err := e.Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		pitched := d.Clone()
		pitched.Reading = []design.Reading{reading(measured.Pitched, 0, 1)}
		for _, d := range []design.Design{d, pitched} {
			var f Follower
			k, err := f.Know(d, at(0), measured.Instruments{}, x)
			if err != nil {
				t.Fatal(err)
			}
			got, err := k.Engine.Predict(k.Conditioned.Design)
			if err != nil {
				t.Fatal(err)
			}
			if k.Draws != nil || !reflect.DeepEqual(got, want) {
				t.Errorf("%d readings: %+v, the plan is %+v", len(d.Reading), got, want)
			}
		}
	}
}

func TestFromNowHasNoNegativeHours(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		low, mid, high float64
		want           string
	}{
		{3, 9, 14, "in 9 h (3 to 14)"},
		{-0.3, 0.2, 0.9, "just about now"},
		{-7, -5, -2, "5 h (2 to 7) ago"},
		{-26, 5, 44, "between 26 h ago and 44 h from now"},
		{-13, -4, 2, "between 13 h ago and 2 h from now"},
		{-0.2, 3, 8, "in 3 h (0 to 8)"},
	} {
		got := FromNow(calc.Band{Low: c.low, Mid: c.mid, High: c.high}).String()
		if strings.ContainsAny(got, "-−") || got != c.want {
			t.Errorf("%v to %v: %q, want %q", c.low, c.high, got, c.want)
		}
	}
}

// A wort that is just as it was planned before the boil, read cool as a gravity is
// while its volume is read hot, leaves the original gravity where it was.
func TestPlannedBeforeTheBoil(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	plan, og := recipe.Liquor(d), follow(t, d, 0).After.OriginalGravitySG.Mid
	d.Reading = []design.Reading{
		reading(measured.PreBoilVolume, -6, plan.PreBoil),
		reading(measured.PreBoilGravity, -6, 1+(plan.PreBoilGravitySG-1)*(og-1)/(plan.PostBoilGravitySG-1)),
	}
	near(t, "original gravity", follow(t, d, 0).After.OriginalGravitySG.Mid, og, 0.0002)
}

// A slip of the keyboard, 0.99 L of a brew of 15, is set aside and refuses nothing.
func TestAVolumeThatCannotBe(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Reading = []design.Reading{reading(measured.Pitched, 0, 1), reading(measured.VolumeFermenter, -1, 0.99)}
	b := follow(t, d, 1)
	if p := b.Timeline.Points[0]; p.What != measured.VolumeFermenter || p.Used || len(p.Flags) == 0 {
		t.Errorf("%+v", p)
	}
	if got := b.Conditioned.Design.Batch.IntoFermenterL; got != d.Batch.IntoFermenterL {
		t.Errorf("%v L", got)
	}
}
