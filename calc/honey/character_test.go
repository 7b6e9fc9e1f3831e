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
	last, lastInvertase := math.Inf(1), math.Inf(1)
	for c := honey.MinEnzymeC; c <= honey.MaxEnzymeC; c += 0.25 {
		d, err1 := honey.DiastaseHalfLifeHours(c)
		i, err2 := honey.InvertaseHalfLifeHours(c)
		if err1 != nil || err2 != nil || !(d < last) || !(i < d) || !(i < lastInvertase) {
			t.Fatalf("at %v °C: diastase %v h after %v, invertase %v after %v (%v, %v)", c, d, last, i, lastInvertase, err1, err2)
		}
		last, lastInvertase = d, i
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

// TestTrimAt: twice the middle at the high end is a straight line, and no score
// goes beyond twice the high end; no number is nothing.
func TestTrimAt(t *testing.T) {
	t.Parallel()
	const z90 = 1.2815515655446004
	even := honey.Trim{Mid: 0.1, High: 0.2}
	for z, want := range map[float64]float64{-2 * z90: 0, -z90: 0, -z90 / 2: 0.05, 0: 0.1, z90: 0.2, 2 * z90: 0.3, 9 * z90: 0.4} {
		if got := even.At(z); math.Abs(got-want) > 1e-12 {
			t.Errorf("at %v %v, want %v", z, got, want)
		}
	}
	for _, x := range []honey.Trim{even, {Mid: 0.05, High: 0.2}} {
		if got := x.At(math.NaN()); got != 0 {
			t.Errorf("no number gives %v", got)
		}
	}
}

// TestRetained: nothing is stripped without CO2, more with more of it; what the
// hot side leaves and what stripping leaves multiply; the shares are in order.
func TestRetained(t *testing.T) {
	t.Parallel()
	at := func(m honey.Moment, v float64) [3]float64 {
		r := honey.Retained(honey.CharacterInput{GramsPerL: 1, Moment: m, CO2VolumesAfter: v})
		return [3]float64{r.Low, r.Mid, r.High}
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-12 {
			t.Errorf("%s is %v, want %v", what, got, want)
		}
	}
	for i := range 3 {
		near("all of a cool addition", at(honey.Fermenting, 0)[i], 1)
		near("before the start", at(honey.Fermenting, -1)[i], 1)
		for v := 1.0; v < 40; v++ {
			a, b := at(honey.Fermenting, v)[i], at(honey.Fermenting, v+1)[i]
			if !(b > 0 && b < a && a < 1) {
				t.Fatalf("after %v L/L %v is left, a litre later %v", v, a, b)
			}
			for _, hot := range []honey.Moment{honey.Boil, honey.Whirlpool} {
				near("hot and stripped", at(hot, v)[i], at(hot, 0)[i]*a)
			}
		}
	}
	for _, m := range []honey.Moment{honey.Boil, honey.Whirlpool, honey.Pitching, honey.Fermenting} {
		if r := at(m, 20); !(r[0] < r[1] && r[1] < r[2]) {
			t.Errorf("moment %v keeps %v", m, r)
		}
	}
}

// TestCharacterDoubts: each doubt alone is in order about the same middle, and
// the two together are their squares' sum.
func TestCharacterDoubts(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := honey.CharacterInput{
			GramsPerL: rapid.Float64Range(1, 150).Draw(t, "g/L"), CO2VolumesAfter: rapid.Float64Range(0.1, 40).Draw(t, "CO2"),
			Moment: honey.Moment(rapid.IntRange(0, 3).Draw(t, "moment")),
		}
		all := honey.Character(in)
		kept, strength := honey.CharacterDoubts(in)
		for _, x := range []honey.Index{kept, strength} {
			if !(x.Low > 0 && x.Low < x.Mid && x.Mid < x.High && x.High < 100) || x.Mid != all.Mid {
				t.Fatalf("%+v, together %+v", x, all)
			}
		}
		low := max(0, all.Mid-math.Hypot(all.Mid-kept.Low, all.Mid-strength.Low))
		high := min(100, all.Mid+math.Hypot(kept.High-all.Mid, strength.High-all.Mid))
		if math.Abs(low-all.Low) > 1e-9 || math.Abs(high-all.High) > 1e-9 {
			t.Fatalf("%v to %v, want %v to %v", all.Low, all.High, low, high)
		}
		whole := in
		whole.Moment, whole.CO2VolumesAfter = honey.Fermenting, 0
		if most := honey.Character(whole).Mid; kept.High > most {
			t.Fatalf("more is retained than went in: %v, %v", kept.High, most)
		}
		half := in
		half.GramsPerL /= 2
		if got := honey.Character(half, half); math.Abs(got.Low-all.Low)+math.Abs(got.High-all.High) > 1e-9 {
			t.Fatalf("two halves %+v, the whole %+v", got, all)
		}
	})
	if a, b := honey.CharacterDoubts(); a != (honey.Index{}) || b != a {
		t.Errorf("no honey has doubts %+v, %+v", a, b)
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
