package honey_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/honey"
)

// TestDiastase: between Crane's rows the half-life falls steadily, and the boil
// ends it within minutes.
func TestDiastase(t *testing.T) {
	t.Parallel()
	last := math.Inf(1)
	for c := honey.MinEnzymeC; c <= honey.MaxEnzymeC; c += 0.25 {
		d, err1 := honey.DiastaseHalfLifeHours(c)
		i, err2 := honey.InvertaseHalfLifeHours(c)
		if err1 != nil || err2 != nil || !(d < last) || !(i < d) {
			t.Fatalf("at %v °C: diastase %v h after %v, invertase %v (%v, %v)", c, d, last, i, err1, err2)
		}
		last = d
	}
	// One half-life at 60 °C is a day (Crane).
	if left, err := honey.DiastaseLeft(24, 60); err != nil || math.Abs(left-0.5) > 1e-12 {
		t.Errorf("after a day at 60 °C %v is left (%v), want one half", left, err)
	}
	// Warming to pour (an hour at 40 °C) stops nothing.
	if left, err := honey.DiastaseLeft(1, 40); err != nil || left < 0.99 {
		t.Errorf("after an hour at 40 °C %v is left (%v)", left, err)
	}
	if left, err := honey.DiastaseLeft(1, 100); err != nil || left > 1e-4 {
		t.Errorf("after an hour at the boil %v is left (%v)", left, err)
	}
}

// TestTrim: the doubt has nothing at its low end, rises with days, warmth and
// honey, never takes more than two fifths, and its quantiles are what they say.
func TestTrim(t *testing.T) {
	t.Parallel()
	const z90 = 1.2815515655446004
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Float64Range(1, 200).Draw(t, "g/L")
		days := rapid.Float64Range(0.5, 90).Draw(t, "days")
		c := rapid.Float64Range(2, 30).Draw(t, "temperature")
		trim := honey.DiastaseTrim(g, days, c)
		if trim.Low != 0 || !(trim.Mid > 0 && trim.Mid < trim.High && trim.High < 0.2) {
			t.Fatalf("trim %+v", trim)
		}
		for _, more := range []honey.Trim{
			honey.DiastaseTrim(g*1.1, days, c), honey.DiastaseTrim(g, days*1.1, c), honey.DiastaseTrim(g, days, c+1),
		} {
			if !(more.High > trim.High) {
				t.Fatalf("more gives %v, less %v", more.High, trim.High)
			}
		}
		for z, want := range map[float64]float64{-3: 0, -z90: 0, 0: trim.Mid, z90: trim.High} {
			if got := trim.At(z); math.Abs(got-want) > 1e-12 {
				t.Fatalf("quantile at z %v is %v, want %v", z, got, want)
			}
		}
		a := rapid.Float64Range(-4, 4).Draw(t, "z")
		if lo, hi := trim.At(a), trim.At(a+0.1); !(hi >= lo) || hi > 2*trim.High {
			t.Fatalf("quantiles %v, %v at %v of %+v", lo, hi, a, trim)
		}
	})
	for _, bad := range []honey.Trim{
		honey.DiastaseTrim(0, 10, 20), honey.DiastaseTrim(-1, 10, 20), honey.DiastaseTrim(math.NaN(), 10, 20),
		honey.DiastaseTrim(30, 0, 20), honey.DiastaseTrim(30, math.NaN(), 20), honey.DiastaseTrim(30, 10, math.NaN()),
	} {
		if bad != (honey.Trim{}) || bad.At(1) != 0 {
			t.Errorf("trim from nothing is %+v", bad)
		}
	}
}

// TestCharacterOrders: more honey is more; later keeps more; the hot side
// keeps less, the boil least.
func TestCharacterOrders(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Float64Range(1, 150).Draw(t, "g/L")
		v := rapid.Float64Range(0, 40).Draw(t, "CO2 to come")
		at := func(m honey.Moment, g, v float64) honey.Index {
			x := honey.Character(honey.CharacterInput{GramsPerL: g, Moment: m, CO2VolumesAfter: v})
			if !(x.Low >= 0 && x.Low < x.Mid && x.Mid < x.High && x.High <= 100) {
				t.Fatalf("index out of order: %+v", x)
			}
			return x
		}
		late := at(honey.Fermenting, g, v)
		if !(at(honey.Fermenting, g+1, v).Mid > late.Mid) || !(at(honey.Fermenting, g, v+1).Mid < late.Mid) {
			t.Fatalf("more honey or more CO2 goes the wrong way at %v g/L, %v L/L", g, v)
		}
		if at(honey.Pitching, g, v) != late {
			t.Fatal("cool additions with the same CO2 to come must agree")
		}
		whirlpool, boil := at(honey.Whirlpool, g, v), at(honey.Boil, g, v)
		if !(boil.Mid < whirlpool.Mid && whirlpool.Mid < late.Mid) {
			t.Fatalf("boil %v, whirlpool %v, cool %v", boil.Mid, whirlpool.Mid, late.Mid)
		}
		// Two halves of one addition are that addition.
		half := honey.CharacterInput{GramsPerL: g / 2, Moment: honey.Fermenting, CO2VolumesAfter: v}
		if got := honey.Character(half, half); math.Abs(got.Mid-late.Mid) > 1e-9 {
			t.Fatalf("two halves give %v, the whole %v", got.Mid, late.Mid)
		}
	})
}

func TestCharacterNothing(t *testing.T) {
	t.Parallel()
	if got := honey.Character(); got != (honey.Index{}) {
		t.Errorf("no honey has character %+v", got)
	}
	for _, bad := range []honey.CharacterInput{
		{GramsPerL: -5}, {GramsPerL: math.NaN()}, {GramsPerL: math.Inf(1)}, {GramsPerL: 5, CO2VolumesAfter: math.NaN()},
	} {
		if got := honey.Character(bad); got != (honey.Index{}) {
			t.Errorf("%+v has character %+v", bad, got)
		}
	}
	if got := honey.Character(honey.CharacterInput{GramsPerL: 20, CO2VolumesAfter: math.Inf(1)}); !(got.High <= 100) {
		t.Errorf("all stripped: %+v", got)
	}
}
