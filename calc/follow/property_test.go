package follow

import (
	"flag"
	"math"
	"os"
	"reflect"
	"testing"
	"time"

	"skep/assets/demotest"

	"pgregory.net/rapid"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/measured"
)

// An update costs a thousand times what an ordinary property does: fewer checks,
// unless the command line asks for a number.
func TestMain(m *testing.M) {
	flag.Parse()
	asked := false
	flag.Visit(func(f *flag.Flag) { asked = asked || f.Name == "rapid.checks" })
	if !asked {
		if err := flag.Set("rapid.checks", "20"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}

// sound fails on a number that is not finite, and on a band out of order.
func sound(t *rapid.T, v reflect.Value, at string) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatalf("%s is %v", at, x)
		}
	case reflect.Struct:
		if b, ok := v.Interface().(calc.Band); ok && !(b.Low <= b.Mid && b.Mid <= b.High) {
			t.Fatalf("%s is out of order: %+v", at, b)
		}
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				sound(t, v.Field(i), at+"."+f.Name)
			}
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			sound(t, v.Index(i), at)
		}
	}
}

// Whatever is entered, in whatever order, an update gives finite bands in
// order, the same ones each time, and never an unsteady beer within a bottle's
// rating.
func TestAnyReadings(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	var f Follower
	what := []string{measured.Pitched, measured.OriginalGravity, measured.Gravity, measured.Gravity, measured.Gravity, measured.FinalGravity, measured.BeerTemperature, measured.HoneyAdded, measured.Foam, measured.MashTemperature, measured.VolumeFermenter, measured.PreBoilGravity, measured.PreBoilVolume, "perceived-body"}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 9).Draw(t, "n")
		d.Reading = nil
		for range n {
			r := design.Reading{
				What:         rapid.SampledFrom(what).Draw(t, "what"),
				At:           at(rapid.Float64Range(-50, 900).Draw(t, "hours")),
				TemperatureC: rapid.SampledFrom([]float64{20, 20, 20, 5, 35, 60, -50, 200}).Draw(t, "sample"),
				Instrument:   rapid.SampledFrom([]string{"hydrometer", "hydrometer", "refractometer", ""}).Draw(t, "instrument"),
			}
			switch rapid.IntRange(0, 5).Draw(t, "kind") {
			case 0:
				r.Value = rapid.Float64().Draw(t, "wild")
			case 1:
				r.Value = rapid.Float64Range(0, 4).Draw(t, "small")
			case 2:
				r.Value = rapid.Float64Range(0, 100).Draw(t, "large")
			default:
				r.Value = rapid.Float64Range(0.99, 1.07).Draw(t, "gravity")
			}
			d.Reading = append(d.Reading, r)
		}
		now := at(rapid.Float64Range(0, 1000).Draw(t, "now"))
		if rapid.Bool().Draw(t, "no now") {
			now = time.Time{}
		}
		b, err := f.Follow(d, now, measured.Instruments{}, calc.Doubts{})
		if err != nil {
			t.Fatalf("%+v: %v", d.Reading, err)
		}
		for _, x := range []struct {
			name string
			v    any
		}{{"before", b.Before}, {"after", b.After}, {"moment", b.Moment}, {"bottle", b.Bottle}, {"honey", b.Honey}, {"inputs", b.Inputs}} {
			sound(t, reflect.ValueOf(x.v), x.name)
		}
		b.Next()
		if b.ESS < 1-1e-9 || b.State.Code == "" || b.Moment.Phase == "" || b.Bottle.Verdict == "" || len(b.Bottle.Reasons) == 0 {
			t.Fatalf("ESS %g, state %q, moment %q, bottle %q", b.ESS, b.State.Code, b.Moment.Phase, b.Bottle.Verdict)
		}
		if b.Bottle.Verdict == Within && !b.State.Steady.Yes {
			t.Fatalf("within the rating without two equal readings: %+v", b.Bottle)
		}
		if err := design.FirstError(b.Conditioned.Design.Validate()); err != nil {
			t.Fatalf("the conditioned design is not valid: %v", err)
		}
		again, err := f.Follow(d, now, measured.Instruments{}, calc.Doubts{})
		if err != nil || !reflect.DeepEqual(again.After, b.After) {
			t.Fatalf("another answer the second time: %v", err)
		}
	})
}

// Shuffling the readings changes nothing but the flag that says so.
func TestOrderDoesNotMatter(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	good := append(middling(t, d, 24, 48, 60, 120), reading(measured.Foam, 30, 2), reading(measured.BeerTemperature, 20, 20))
	d.Reading = good
	want := follow(t, d, 130)
	var f Follower
	rapid.Check(t, func(t *rapid.T) {
		d.Reading = rapid.Permutation(good).Draw(t, "order")
		got, err := f.Follow(d, at(130), measured.Instruments{}, calc.Doubts{})
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got.After, want.After) || !reflect.DeepEqual(got.State.Text, want.State.Text) {
			t.Fatalf("%s, in order: %s", got.State.Text, want.State.Text)
		}
	})
}

// A design that can't be followed is refused with what is wrong, never a panic.
func TestBadDesigns(t *testing.T) {
	t.Parallel()
	var f Follower
	for name, change := range map[string]func(d *design.Design){
		"no yeast":     func(d *design.Design) { d.Yeast = nil },
		"no rest":      func(d *design.Design) { d.Mash.Rest = nil },
		"hot":          func(d *design.Design) { d.Yeast[0].TemperatureC = 90 },
		"no volume":    func(d *design.Design) { d.Batch.IntoFermenterL = 0 },
		"not a number": func(d *design.Design) { d.Kit.MashEfficiencyPct = math.NaN() },
	} {
		d := demotest.Design(t, "middle")
		change(&d)
		if _, err := f.Follow(d, at(0), measured.Instruments{}, calc.Doubts{}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	// Hardly any grain is odd, but can be followed.
	d := demotest.Design(t, "middle")
	d.Grain[0].MassKg, d.Grain = 0, d.Grain[:1]
	d.Honey[0].Moment, d.Honey[0].MassKg = design.MomentPitching, 3
	d.Reading = []design.Reading{reading(measured.Pitched, 0, 1), reading(measured.Gravity, 60, 1.03)}
	if _, err := f.Follow(d, at(61), measured.Instruments{}, calc.Doubts{}); err != nil {
		t.Error(err)
	}
}

// Asked for by the property test: two slips of the keyboard, 35 and 5.3 kg of honey in
// the same second, were too much together, and the file was refused for it. The one
// that makes the wort heavier than any is left out, and says so.
func TestASlipOfHoneyRefusesNothing(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Reading = []design.Reading{reading(measured.HoneyAdded, 0.002, 5.345), reading(measured.HoneyAdded, 0, 35.0625), reading(measured.Pitched, 2.7, 0)}
	var f Follower
	b, err := f.Follow(d, time.Time{}, measured.Instruments{}, calc.Doubts{})
	if err != nil {
		t.Fatal(err)
	}
	left := 0
	for _, p := range b.Timeline.Points {
		if p.What == measured.HoneyAdded && p.Has(measured.Absurd) && !p.Used {
			left++
		}
	}
	if left != 1 {
		t.Errorf("%d of the two were left out, want one: %+v", left, b.Timeline.Points)
	}
	if err := design.FirstError(b.Conditioned.Design.Validate()); err != nil {
		t.Error(err)
	}
	if _, err := calc.NewEngine().Predict(b.Conditioned.Design); err != nil {
		t.Errorf("what was measured can't be predicted: %v", err)
	}
}
