package learn

import (
	"fmt"
	"math"
	"testing"
	"time"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/doubt"
)

// The prior of the time to the height is the engine's band of it.
func TestTimePriorIsTheEngines(t *testing.T) {
	t.Parallel()
	p, err := calc.NewEngine().Predict(demotest.Design(t, "middle"))
	if err != nil {
		t.Fatal(err)
	}
	b := p.HeightHours
	const noShare = 0.21 // of the course's shape and of the height's flat top, which pace does not narrow
	near(t, "10 to 90 of the logarithm", math.Hypot(engineTimeSD, noShare), logWidth(b.Low, b.High), 0.03)
}

func logWidth(low, high float64) float64 { return math.Log(high/low) / (2 * doubt.Z90) }

// engineEfficiencySD is the engine's own doubt of mash efficiency, points.
func engineEfficiencySD() float64 { return (calc.Doubts{}).Filled(0).EfficiencySD }

// What the lessons say reaches the engine: the bands of original gravity and
// height narrow, the height moves by the lesson's factor, and the palate acts
// as it does here.
func TestLessonsReachTheEngine(t *testing.T) {
	t.Parallel()
	batches, d := history(t, 12)
	l := Learn(batches, d)
	applied, doubts, _ := l.Apply(d, nil)
	predict := func(d design.Design, x calc.Doubts) calc.Prediction {
		t.Helper()
		e := calc.NewEngine()
		if err := e.SetDoubts(x); err != nil {
			t.Fatal(err)
		}
		p, err := e.Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	without, with := predict(applied, calc.Doubts{}), predict(applied, doubts.Engine())
	if a, b := without.OriginalGravitySG, with.OriginalGravitySG; (b.High-b.Low > a.High-a.Low) != (doubts.EfficiencySD > engineEfficiencySD()) {
		t.Errorf("efficiency ± %.2f: the original gravity is %+v, was %+v", doubts.EfficiencySD, b, a)
	}
	factor := doubts.Clock[0].TimeFactor
	if got := with.HeightHours.Mid / without.HeightHours.Mid; math.Abs(got/factor-1) > 0.035 { // less doubt of rate and lag is a smaller skew of the sum
		t.Errorf("the height moved by %.3f, want %.3f", got, factor)
	}
	for i := range d.Mash.Rest {
		if applied.Mash.Rest[i] != d.Mash.Rest[i] {
			t.Errorf("a rest set to %+v is %+v now", d.Mash.Rest[i], applied.Mash.Rest[i])
		}
	}
	unmoved := doubts
	unmoved.Dryness, unmoved.Body = TasteDoubts{}, TasteDoubts{}
	if got, want := with.Dryness.Mid-predict(applied, unmoved.Engine()).Dryness.Mid, doubts.Dryness.Offset; math.Abs(got-want) > 1 {
		t.Errorf("dryness moved by %v, want %v", got, want)
	}
	if got := predict(d, (Doubts{}).Engine()).HeightHours; got != predict(d, calc.Doubts{}).HeightHours {
		t.Error("nothing told, and the height is another")
	}
	wild := Doubts{EfficiencySD: 99, MaltSD: 99, SweetShare: 1, Clock: []ClockDoubts{{1e9, 99}, {1e-9, 0}, {}}, RestShiftC: 99, Body: TasteDoubts{1e6, 1e6, 1, true}}
	if err := calc.NewEngine().SetDoubts(wild.Engine()); err != nil {
		t.Error(err)
	}
}

// Through the engine, as the window predicts: brewers whose thermometer reads 2
// °C low (the mash is that much warmer than set) learn it in ten batches, and
// the final gravity predicted for the temperature set comes nearer to what they
// then make, as does each lesson's own outcome.
func TestTheEngineComesNearerToTheBrewer(t *testing.T) {
	t.Parallel()
	base := demotest.Design(t, "middle")
	const brewers, nexts = 12, 20
	engine := calc.NewEngine()
	predict := func(d design.Design, x Doubts) calc.Prediction {
		t.Helper()
		if err := engine.SetDoubts(x.Engine()); err != nil {
			t.Fatal(err)
		}
		p, err := engine.Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	five := func(p calc.Prediction) [5]calc.Band {
		return [5]calc.Band{p.FinalGravitySG, p.OriginalGravitySG, p.HeightHours, p.Dryness, p.Body}
	}
	var before, after [5]float64 // mean miss
	var rest float64             // with no lesson but the thermometer's
	held := 0.0
	for k := range brewers {
		b := newBrewer(uint64(1000+k), base, worlds[0])
		b.offset = 2
		var batches []Batch
		for n := range 10 {
			d := b.recipe(n)
			m := b.brew(d)
			d.Reading = b.readings(d, &m, monday.Add(time.Duration(n)*21*24*time.Hour))
			measured, err := Measure(d)
			if err != nil {
				t.Fatal(err)
			}
			batches = append(batches, Batch{ID: fmt.Sprint(n), Measured: measured})
		}
		l := Learn(batches, base)
		applied, doubts, _ := l.Apply(base, nil)
		if math.Abs(doubts.RestShiftC-2) > 0.8 {
			t.Errorf("brewer %d: the mash is %.2f K warmer, it is said, and it is 2", k, doubts.RestShiftC)
		}
		was, is := five(predict(base, Doubts{})), five(predict(applied, doubts))
		off := Switches{}
		for _, x := range l.Lessons {
			off[x.Key] = x.Key != Thermometer
		}
		only, shift, used := l.Apply(base, off)
		if len(used) != 1 || only.Mash.Rest[0] != base.Mash.Rest[0] {
			t.Fatalf("with the thermometer's lesson alone %v are used, the rest is %v", used, only.Mash.Rest[0])
		}
		moved := predict(only, shift).FinalGravitySG.Mid
		// Truth without the batches' luck, but for what no lesson can tell.
		var truth [5]float64
		for range nexts {
			o := b.brew(base).outcome
			now := [5]float64{o[1], o[0], o[3], o[5], o[6]}
			for i, v := range now {
				truth[i] += v / nexts
				if is[i].Low <= v && v <= is[i].High {
					held += 1.0 / (5 * nexts * brewers)
				}
			}
		}
		for i, v := range truth {
			before[i] += math.Abs(was[i].Mid-v) / brewers
			after[i] += math.Abs(is[i].Mid-v) / brewers
		}
		rest += math.Abs(moved-truth[0]) / brewers
	}
	t.Logf("missed by %.4g before, %.4g after ten batches; the final gravity by %.4g with the thermometer alone; %.0f %% held", before, after, rest, 100*held)
	for i, name := range []string{"final gravity", "original gravity", "time to the height", "dryness", "body"} {
		if after[i] > 0.6*before[i] {
			t.Errorf("%s is missed by %.4g after ten batches, %.4g before", name, after[i], before[i])
		}
	}
	if rest > 0.9*before[0] {
		t.Errorf("with the thermometer's lesson alone the final gravity is missed by %.4g, %.4g before", rest, before[0])
	}
	if math.Abs(held-0.8) > 0.08 {
		t.Errorf("%.0f %% are held, want four in five", 100*held)
	}
}
