package calc

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"skep/assets/demotest"

	"pgregory.net/rapid"

	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/mash"
	"skep/calc/taste"
)

// told is what a brewer's batches might have told.
func told() Doubts {
	return Doubts{
		EfficiencySD: 1.1, MaltSD: 2.6, SweetShare: 0.5, Clocks: []Clock{{1.25 * ferment.UsualLagHours, 1 / 1.25, 0.6}},
		RestShiftC: 1.5, Dryness: Palate{-6, 4}, Body: Palate{3, 5},
	}
}

// said is everything that an engine says of a design.
type said struct {
	predictions []Prediction
	courses     []Course
	curves      []Curves
	strains     [][Outcomes]Band
	landed      []Landed
	quick       Landed
	beer        Beer
	times       Times
}

func everything(t testing.TB, e *Engine, d design.Design) (s said) {
	t.Helper()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	for i := range d.Yeast {
		p, err := e.PredictYeast(d, i)
		must(err)
		c, err := e.Course(d, i)
		must(err)
		k, err := e.CurvesYeast(d, i, 0, []float64{60, 63.3, 67, 71})
		must(err)
		s.predictions, s.courses, s.curves = append(s.predictions, p), append(s.courses, c), append(s.curves, k)
	}
	var err error
	s.strains, err = e.Strains(d)
	must(err)
	l, err := NewLander(e, d, 0, 0)
	must(err)
	s.landed, err = l.Land(l.Start(), nil)
	must(err)
	s.quick, err = l.Quick(l.Start())
	must(err)
	b, err := e.Brew(d, 0)
	must(err)
	in := b.Inputs(&[doubt.Inputs]float64{doubt.Malt: 1, doubt.Efficiency: -1, doubt.MaltSweet: 0.5})
	var x Draw
	b.Ferment(&in, &x)
	s.beer, s.times = x.Beer, x.Times
	return s
}

// middleDraw is the beer with every uncertain input at its middle.
func middleDraw(t testing.TB, d design.Design) *Draw {
	t.Helper()
	b, err := NewEngine().Brew(d, 0)
	if err != nil {
		t.Fatal(err)
	}
	in, x := b.Middle(), new(Draw)
	b.Ferment(&in, x)
	return x
}

func doubting(t testing.TB, x Doubts) *Engine {
	t.Helper()
	e := NewEngine()
	if err := e.SetDoubts(x); err != nil {
		t.Fatal(err)
	}
	return e
}

// An engine whose doubts come and go says what one says that always had them:
// nothing is kept that the doubts are in, and nothing of theirs stays.
func TestDoubtsComeAndGo(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"dry", "middle", "soft"} {
		d := demotest.Design(t, name)
		own, theirs := everything(t, NewEngine(), d), everything(t, doubting(t, told()), d)
		if reflect.DeepEqual(own.landed, theirs.landed) || own.quick == theirs.quick {
			t.Errorf("%s: the doubts miss the landing points, or a warmer mash the middle draw", name)
		}
		e := NewEngine()
		for _, step := range []struct {
			x    Doubts
			want said
		}{{Doubts{}, own}, {told(), theirs}, {Doubts{}, own}, {Doubts{Clocks: []Clock{{}}}, own}, {told(), theirs}} {
			if err := e.SetDoubts(step.x); err != nil {
				t.Fatal(err)
			}
			if got := everything(t, e, d); !reflect.DeepEqual(got, step.want) {
				t.Errorf("%s: with %+v a used engine says otherwise than a new one", name, step.x)
			}
			if got := e.Doubts(); !reflect.DeepEqual(got, step.x) {
				t.Errorf("%s: the doubts are %+v, want %+v", name, got, step.x)
			}
		}
	}
}

// The engine's own doubts, spelt out, are the zeros (design notes, section 7:
// 2 points of efficiency).
func TestZeroIsTheEnginesOwn(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	spelt := Doubts{EfficiencySD: 2, MaltSD: mash.MaltSDPoints, SweetShare: 1, Clocks: []Clock{{ferment.UsualLagHours, 1, 1}}}
	got, want := everything(t, doubting(t, spelt), d), everything(t, NewEngine(), d)
	if !reflect.DeepEqual(got, want) {
		t.Error("the engine's own doubts spelt out say otherwise than zeros")
	}
}

// The picture of an engine that has drawn before takes the malt's doubt.
func TestMaltDoubtReachesKeptRows(t *testing.T) {
	t.Parallel()
	d, e := demotest.Design(t, "middle"), NewEngine()
	temps := []float64{62, 66, 70}
	before, err := e.Curves(d, 0, temps)
	if err != nil {
		t.Fatal(err)
	}
	if err := e.SetDoubts(Doubts{MaltSD: 1}); err != nil {
		t.Fatal(err)
	}
	after, err := e.Curves(d, 0, temps)
	if err != nil {
		t.Fatal(err)
	}
	for k := range temps {
		a, b := before.Bands[FinalGravity][k], after.Bands[FinalGravity][k]
		if b.High-b.Low >= a.High-a.Low {
			t.Errorf("%v °C: the band of the final gravity is %+v, was %+v with four points of malt", temps[k], b, a)
		}
	}
}

// The extract of the wort is proportional to the efficiency, and original
// gravity nearly to extract: by hand, sd/efficiency of the malt's part.
func TestEfficiencySetsTheBandOfTheOriginalGravity(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Honey = nil
	for _, sd := range []float64{0.5, 1, 2, 4} {
		p, err := doubting(t, Doubts{EfficiencySD: sd}).Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		low, high := density.PlatoFromSG(p.OriginalGravitySG.Low), density.PlatoFromSG(p.OriginalGravitySG.High)
		mid := density.PlatoFromSG(p.OriginalGravitySG.Mid)
		want := 2 * doubt.Z90 * sd / d.Kit.MashEfficiencyPct * mid
		// °P is by mass, so it grows a little less than the extract by volume;
		// the conversion of the mash adds its own little doubt.
		if got := high - low; math.Abs(got-want) > 0.12*want {
			t.Errorf("efficiency ± %v: the original gravity is %.2f °P wide, want %.2f", sd, got, want)
		}
	}
}

// All times of the wort's own course, lag included, by one factor; less of the
// doubt of lag and rate is a narrower band around the same middle. Gravities
// stay.
func TestClockMovesTheHeight(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	usual := predict(t, d)
	const slow = 1.3
	p, err := doubting(t, Doubts{Clocks: []Clock{{slow * ferment.UsualLagHours, 1 / slow, 0}}}).Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	scaled := func(a, b Band) bool {
		return math.Abs(a.Low-slow*b.Low) < 1e-6*b.Low && math.Abs(a.Mid-slow*b.Mid) < 1e-6*b.Mid && math.Abs(a.High-slow*b.High) < 1e-6*b.High
	}
	for k, c := range [][2]Band{{p.HeightHours, usual.HeightHours}, {p.HoneyWindowHours[0], usual.HoneyWindowHours[0]}, {p.HoneyWindowHours[1], usual.HoneyWindowHours[1]}} {
		if !scaled(c[0], c[1]) {
			t.Errorf("milestone %d is %+v, want %v times %+v", k, c[0], slow, c[1])
		}
	}
	if p.Four() != usual.Four() || p.OriginalGravitySG != usual.OriginalGravitySG {
		t.Error("the clock moved a gravity")
	}
	middle := middleDraw(t, d).Times
	wide := usual.HeightHours.High / usual.HeightHours.Low
	for _, share := range []float64{0.7, 0.4, 0.1} {
		e := doubting(t, Doubts{Clocks: []Clock{{Share: share}}})
		p, err := e.Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		now := p.HeightHours.High / p.HeightHours.Low
		if now >= wide {
			t.Errorf("with a share of %v the height is %+v, no narrower", share, p.HeightHours)
		}
		wide = now
		// The median of a skewed sum is not the sum of the medians: with all of
		// the doubt it lies 6 % above the middle course; shape and flat top, which
		// no share narrows, move it by 3 %.
		if off := math.Abs(p.HeightHours.Mid/middle.HeightHours - 1); off > 0.03+0.06*share {
			t.Errorf("with a share of %v the middle is %v, the middle course has %v", share, p.HeightHours.Mid, middle.HeightHours)
		}
		c, err := e.Course(d, 0)
		if err != nil {
			t.Fatal(err)
		}
		if c.HeightHours != p.HeightHours || c.FinishedHours != p.FinishedHours {
			t.Errorf("the course has another clock than the prediction: %+v, %+v", c.HeightHours, p.HeightHours)
		}
	}
}

// Every yeast has its own clock.
func TestClocksAreByYeast(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Yeast = []design.Yeast{d.Yeast[0], d.Yeast[0]}
	e := doubting(t, Doubts{Clocks: []Clock{{}, {2 * ferment.UsualLagHours, 0.5, 0}}})
	a, err := e.PredictYeast(d, 0)
	if err != nil {
		t.Fatal(err)
	}
	b, err := e.PredictYeast(d, 1)
	if err != nil {
		t.Fatal(err)
	}
	if want := predict(t, d).HeightHours; a.HeightHours != want || math.Abs(b.HeightHours.Mid-2*want.Mid) > 1e-6*want.Mid {
		t.Errorf("the heights are %+v and %+v, want %+v and twice that", a.HeightHours, b.HeightHours, want)
	}
}

// A Lander keeps the doubts that it was made with.
func TestLanderKeepsItsDoubts(t *testing.T) {
	t.Parallel()
	d, e := demotest.Design(t, "middle"), NewEngine()
	l, err := NewLander(e, d, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	before, err := l.Land(l.Start(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := e.SetDoubts(told()); err != nil {
		t.Fatal(err)
	}
	after, err := l.Land(l.Start(), nil)
	if err != nil || !reflect.DeepEqual(before, after) {
		t.Error("the landing points moved with the engine's doubts", err)
	}
	made, err := NewLander(e, d, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	points, err := made.Land(made.Start(), nil)
	if err != nil {
		t.Fatal(err)
	}
	p, err := e.Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	if got := made.Bands(points); got != p.Four() {
		t.Errorf("the bands are %+v, the prediction has %+v", got, p.Four())
	}
}

// What is refused is named, and leaves the engine as it was.
func TestBadDoubtsAreRefused(t *testing.T) {
	t.Parallel()
	nan, inf := math.NaN(), math.Inf(1)
	d, e := demotest.Design(t, "middle"), doubting(t, told())
	want := everything(t, e, d)
	for _, c := range []struct {
		x    Doubts
		says string
	}{
		{Doubts{EfficiencySD: nan}, "mash efficiency is NaN, expected 0 to 20 points"},
		{Doubts{EfficiencySD: -1}, "mash efficiency is -1"},
		{Doubts{MaltSD: inf}, "malt is +Inf"},
		{Doubts{SweetShare: 1.5}, "sweetness is 1.5, expected 0 to 1"},
		{Doubts{Clocks: []Clock{{}, {LagHours: nan}}}, "lag of yeast.1 is NaN"},
		{Doubts{Clocks: []Clock{{LagHours: -3}}}, "lag of yeast.0 is -3, expected 0.01 to 500 hours"},
		{Doubts{Clocks: []Clock{{RateFactor: 40}}}, "rate factor of yeast.0 is 40"},
		{Doubts{Clocks: []Clock{{Share: nan}}}, "clock of yeast.0 is NaN"},
		{Doubts{RestShiftC: 11}, "shift of the mash rests is 11, expected -10 to 10 K"},
		{Doubts{Dryness: Palate{nan, 1}}, "shift of dryness is NaN"},
		{Doubts{Body: Palate{1, inf}}, "shift of body is +Inf"},
	} {
		if err := e.SetDoubts(c.x); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: %v, want %q", c.x, err, c.says)
		}
	}
	if got := everything(t, e, d); !reflect.DeepEqual(got, want) {
		t.Error("what was refused changed the engine")
	}
}

// Whatever is not refused gives a sound prediction.
func TestAnyDoubtsPredict(t *testing.T) {
	t.Parallel()
	d, e := demotest.Design(t, "middle"), NewEngine()
	for _, x := range []Doubts{
		{EfficiencySD: 20, MaltSD: 20, SweetShare: 1, Clocks: []Clock{{120, 0.05, 4}}},
		{EfficiencySD: 1e-300, MaltSD: 1e-300, SweetShare: 1e-300, Clocks: []Clock{{0.01, 20, 1e-300}}},
	} {
		if err := e.SetDoubts(x); err != nil {
			t.Fatal(err)
		}
		p, err := e.Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		sound(t, &p)
	}
	rapid.Check(t, func(t *rapid.T) {
		orZero := func(name string, low, high float64) float64 {
			return rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(low, high)).Draw(t, name)
		}
		x := Doubts{
			EfficiencySD: orZero("efficiency", 0, 20), MaltSD: orZero("malt", 0, 20), SweetShare: orZero("sweet", 0, 1),
			Clocks:     []Clock{{orZero("lag", 0.01, 40), orZero("rate", 0.05, 3), orZero("share", 0, 4)}},
			RestShiftC: orZero("rest", -10, 10),
			Dryness:    Palate{orZero("dry", -100, 100), orZero("dry sd", 0, 100)}, Body: Palate{orZero("body", -100, 100), orZero("body sd", 0, 100)},
		}
		if err := e.SetDoubts(x); err != nil {
			t.Fatal(err)
		}
		p, err := e.Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		sound(t, &p)
	})
}

// A mash that is warmer than set is one that is set warmer: what a design set
// to s makes with a shift is what one set to s plus the shift makes without, in
// every number and for every draw; with several rests too.
func TestAWarmerMashIsOneSetWarmer(t *testing.T) {
	t.Parallel()
	const by = -2.25
	for _, name := range []string{"middle", "steps"} {
		d := demotest.Design(t, "middle")
		if name == "steps" {
			d = steps(t)
		}
		warm := d.Clone()
		for i := range warm.Mash.Rest {
			warm.Mash.Rest[i].TemperatureC += by
		}
		e := doubting(t, Doubts{RestShiftC: by})
		got, want := predict2(t, e, d), predict2(t, NewEngine(), warm)
		for _, b := range []struct {
			what      string
			got, want Band
			within    float64
		}{
			// The tables' nodes lie elsewhere.
			{"final gravity", got.FinalGravitySG, want.FinalGravitySG, 2e-5}, {"original gravity", got.OriginalGravitySG, want.OriginalGravitySG, 2e-5},
			{"dryness", got.Dryness, want.Dryness, 0.1}, {"body", got.Body, want.Body, 0.1}, {"height", got.HeightHours, want.HeightHours, 0.05},
		} {
			if math.Abs(b.got.Low-b.want.Low) > b.within || math.Abs(b.got.Mid-b.want.Mid) > b.within || math.Abs(b.got.High-b.want.High) > b.within {
				t.Errorf("%s: %s is %+v, set as warm as it is %+v", name, b.what, b.got, b.want)
			}
		}
		if cold := predict2(t, NewEngine(), d); math.Abs(cold.FinalGravitySG.Mid-got.FinalGravitySG.Mid) < 2e-4 {
			t.Errorf("%s: the shift moves nothing: %+v", name, got.FinalGravitySG)
		}
		if got.StrikeTemperatureC == want.StrikeTemperatureC {
			t.Errorf("%s: strike water is for the mash as set, not %v", name, got.StrikeTemperatureC)
		}
		// The axis of every picture is what is set.
		for rest := range d.Mash.Rest {
			c, err := e.Curves(d, rest, []float64{60, d.Mash.Rest[rest].TemperatureC, 72})
			if err != nil {
				t.Fatal(err)
			}
			if f := c.Bands[FinalGravity][1]; math.Abs(f.Mid-got.FinalGravitySG.Mid) > 5e-5 {
				t.Errorf("%s, rest %d: the curve passes at %+v, the prediction is %+v", name, rest, f, got.FinalGravitySG)
			}
			l, err := NewLander(e, d, rest, 0)
			if err != nil {
				t.Fatal(err)
			}
			points, err := l.Land(l.Start(), nil)
			if err != nil {
				t.Fatal(err)
			}
			if l.Bands(points) != got.Four() {
				t.Errorf("%s, rest %d: lands on %+v, predicted is %+v", name, rest, l.Bands(points), got.Four())
			}
		}
	}
}

func predict2(t testing.TB, e *Engine, d design.Design) Prediction {
	t.Helper()
	p, err := e.Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A palate moves dryness and body, their words too, and nothing else; its doubt
// and the index's are independent, so that their distances from the middle add
// in squares. The same in prediction, curves, strains and landing points.
func TestAPalateMovesTheIndices(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	own := predict(t, d)
	many := NewEngineDraws(4096) // the rule of squares wants more draws than the engine's
	ownMany := predict2(t, many, d)
	for _, x := range []Doubts{{Dryness: Palate{-15, 0}}, {Dryness: Palate{-15, 5}, Body: Palate{20, 7}}, {Body: Palate{0, 3}}} {
		e := doubting(t, x)
		got := predict2(t, e, d)
		if err := many.SetDoubts(x); err != nil {
			t.Fatal(err)
		}
		gotMany := predict2(t, many, d)
		for _, c := range []struct {
			what     string
			got, was Band
			p        Palate
		}{{"dryness", gotMany.Dryness, ownMany.Dryness, x.Dryness}, {"body", gotMany.Body, ownMany.Body, x.Body}} {
			wide := doubt.Z90 * c.p.SD
			want := Band{c.was.Mid + c.p.Shift - math.Hypot(c.was.Mid-c.was.Low, wide), c.was.Mid + c.p.Shift, c.was.Mid + c.p.Shift + math.Hypot(c.was.High-c.was.Mid, wide)}
			// Squares add exactly for normals only; the index is a little skewed.
			within := 1e-9 + 0.07*c.p.SD
			if math.Abs(c.got.Low-want.Low) > within || math.Abs(c.got.Mid-want.Mid) > within || math.Abs(c.got.High-want.High) > within {
				t.Errorf("%+v: %s is %+v, want %+v", x, c.what, c.got, want)
			}
		}
		if got.DrynessWord != taste.DrynessWord(got.Dryness.Mid) || got.BodyWord != taste.BodyWord(got.Body.Mid) {
			t.Errorf("%+v: %q and %q", x, got.DrynessWord, got.BodyWord)
		}
		rest := got
		rest.Dryness, rest.Body, rest.DrynessWord, rest.BodyWord = own.Dryness, own.Body, own.DrynessWord, own.BodyWord
		if !reflect.DeepEqual(rest, own) {
			t.Errorf("%+v: something else moved", x)
		}
		said := everything(t, e, d)
		l, err := NewLander(e, d, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		at, err := e.Curves(d, 0, []float64{d.Mash.Rest[0].TemperatureC})
		if err != nil {
			t.Fatal(err)
		}
		for o, b := range got.Four() {
			if said.strains[0][o] != b || l.Bands(said.landed)[o] != b || at.Bands[o][0] != b {
				t.Errorf("%+v: outcome %d is %+v, with the strains %+v, landed %+v, on the curve %+v", x, o, b, said.strains[0][o], l.Bands(said.landed)[o], at.Bands[o][0])
			}
		}
		if plain := everything(t, NewEngine(), d); math.Abs(said.quick.Dryness-plain.quick.Dryness-x.Dryness.Shift) > 1e-9 || math.Abs(said.quick.Body-plain.quick.Body-x.Body.Shift) > 1e-9 {
			t.Errorf("%+v: the middle draw lands on %+v, without a palate on %+v", x, said.quick, plain.quick)
		}
	}
	// The scale ends at 0 and 100, for every draw.
	e := doubting(t, Doubts{Dryness: Palate{-90, 10}, Body: Palate{95, 10}})
	for _, p := range everything(t, e, d).landed {
		if p.Dryness < 0 || p.Body > 100 {
			t.Fatalf("a draw lands on %+v", p)
		}
	}
}
