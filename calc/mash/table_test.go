package mash

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func table(t testing.TB) *Table {
	t.Helper()
	tab, err := Tabulate(single(66, 60), 0, 50, 82, 0.5)
	if err != nil {
		t.Fatal(err)
	}
	return tab
}

// The table is the mash, between its nodes too.
func TestTableAgreesWithRun(t *testing.T) {
	t.Parallel()
	tab := table(t)
	worst := 0.0
	for i := range 640 {
		tC := 50 + float64(i)*0.05
		r := run(t, single(tC, 60))
		wort, conversion := tab.At(tC, Laboratory())
		worst = math.Max(worst, math.Max(apart(r.Wort, wort), math.Abs(r.Conversion-conversion)))
	}
	t.Logf("largest difference %.1e", worst)
	if worst > 2e-4 {
		t.Errorf("table and mash differ by %g", worst)
	}
}

func TestTableAtIsSound(t *testing.T) {
	t.Parallel()
	tab := table(t)
	rapid.Check(t, func(t *rapid.T) {
		tC := rapid.Float64().Draw(t, "temperature")
		d := Doubt{rapid.Float64().Draw(t, "points"), rapid.Float64().Draw(t, "response")}
		if rapid.Bool().Draw(t, "ordinary") {
			tC = rapid.Float64Range(45, 85).Draw(t, "ordinary temperature")
			d = Doubt{rapid.Float64Range(-15, 15).Draw(t, "ordinary points"), rapid.Float64Range(0, 1.2).Draw(t, "ordinary response")}
		}
		wort, conversion := tab.At(tC, d)
		for i, v := range each(wort) {
			if !(v >= 0 && v <= 1) {
				t.Fatalf("share %d is %g", i, v)
			}
		}
		if math.Abs(wort.Total()-1) > 1e-14 {
			t.Fatalf("shares sum to %.17f", wort.Total())
		}
		if !(conversion > 0 && conversion < 1.05) {
			t.Fatalf("conversion %g", conversion)
		}
	})
	if w, _ := tab.At(math.NaN(), Doubt{math.NaN(), math.NaN()}); math.IsNaN(w.Total()) {
		t.Error("not a number in, not a number out")
	}
}

// Smooth in temperature for every response: the slope has no jump.
func TestTableHasNoKink(t *testing.T) {
	t.Parallel()
	tab := table(t)
	att := func(tC float64, d Doubt) float64 {
		w, _ := tab.At(tC, d)
		return LimitAttenuationPct(w)
	}
	const h = 0.01
	for _, d := range []Doubt{Laboratory(), {3, 0.5}, {-3, 0.1}} {
		for tC := 58.0; tC < 72; tC += h {
			a, b, c := att(tC-h, d), att(tC, d), att(tC+h, d)
			if jump := math.Abs((c-b)-(b-a)) / h; jump > 0.1 {
				t.Errorf("%+v: the slope jumps by %.3f points per K at %.2f °C", d, jump, tC)
			}
		}
	}
}

// Above the optimum hotter is less fermentable for every doubt that responds.
func TestTableFallsForEveryDoubt(t *testing.T) {
	t.Parallel()
	tab := table(t)
	rapid.Check(t, func(t *rapid.T) {
		d := Doubt{rapid.Float64Range(-9, 9).Draw(t, "points"), rapid.Float64Range(responseLeast, responseMost).Draw(t, "response")}
		a := rapid.Float64Range(62.5, 79).Draw(t, "cooler")
		b := a + rapid.Float64Range(0.01, 3).Draw(t, "by")
		wa, _ := tab.At(a, d)
		wb, _ := tab.At(b, d)
		if LimitAttenuationPct(wb) >= LimitAttenuationPct(wa) || wb.Dextrin <= wa.Dextrin {
			t.Fatalf("%+v: from %g to %g °C the attenuation goes from %g to %g", d, a, b, LimitAttenuationPct(wa), LimitAttenuationPct(wb))
		}
	})
}

func TestAttenuationPoints(t *testing.T) {
	t.Parallel()
	tab := table(t)
	base, _ := tab.At(66, Laboratory())
	for _, points := range []float64{-6, -3, 3, 6} {
		w, _ := tab.At(66, Doubt{points, 1})
		if d := LimitAttenuationPct(w) - LimitAttenuationPct(base) - points; math.Abs(d) > 1e-9 {
			t.Errorf("%g points shift the attenuation by %g more", points, d)
		}
		if math.Abs(w.Maltose/w.Maltotriose-base.Maltose/base.Maltotriose) > 1e-9 || w.Simple() != base.Simple() || w.Other != base.Other {
			t.Errorf("%g points touch more than dextrin, maltose and maltotriose", points)
		}
	}
}

func TestTableSteppedMash(t *testing.T) {
	t.Parallel()
	in := Input{Grain: malt(), Rests: []Rest{{52, 10}, {64, 40}, {72, 20}}, LiquorLPerKg: 3.5}
	tab, err := Tabulate(in, 1, 55, 75, 0.5)
	if err != nil {
		t.Fatal(err)
	}
	in.Rests[1].TemperatureC = 66.3
	want := run(t, in)
	got, conversion := tab.At(66.3, Laboratory())
	if apart(want.Wort, got) > 1e-4 || math.Abs(want.Conversion-conversion) > 1e-4 {
		t.Errorf("tabulated %+v, run %+v", got, want.Wort)
	}
	if low, high := tab.RangeC(); low != 55 || high != 75 {
		t.Errorf("range %g to %g", low, high)
	}
	if in.Rests[1].TemperatureC != 66.3 {
		t.Error("Tabulate changed its input")
	}
}

func TestTabulateRefusals(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	for _, c := range []struct {
		rest            int
		low, high, step float64
	}{{1, 50, 82, 0.5}, {-1, 50, 82, 0.5}, {0, 82, 50, 0.5}, {0, nan, 82, 0.5}, {0, 50, 101, 0.5},
		{0, 50, 82, 0}, {0, 50, 82, nan}, {0, 50, 82, math.Inf(1)}, {0, 50, 82, 30}, {0, 20, 100, 0.011}} {
		if _, err := Tabulate(single(66, 60), c.rest, c.low, c.high, c.step); err == nil {
			t.Errorf("%+v was tabulated", c)
		}
	}
	if _, err := Tabulate(Input{Rests: []Rest{{66, 60}}}, 0, 50, 82, 0.5); err == nil {
		t.Error("no grain was tabulated")
	}
}

func TestNoAllocation(t *testing.T) {
	tab := table(t)
	if n := testing.AllocsPerRun(100, func() { tab.At(67.3, Doubt{2, 0.7}) }); n != 0 {
		t.Errorf("Table.At allocates %g times", n)
	}
	p, err := Committed().prepare(single(66, 60))
	if err != nil {
		t.Fatal(err)
	}
	if n := testing.AllocsPerRun(20, func() {
		if err := p.run(nil); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("the integration allocates %g times", n)
	}
}

// BenchmarkMash is one 60-minute rest, all states. Aim: 50 µs.
func BenchmarkMash(b *testing.B) {
	in := single(66, 60)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Run(in); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTabulate(b *testing.B) {
	in := single(66, 60)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Tabulate(in, 0, 50, 82, 0.5); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTableAt(b *testing.B) {
	tab := table(b)
	b.ReportAllocs()
	for b.Loop() {
		tab.At(67.31, Doubt{1.5, 0.7})
	}
}
