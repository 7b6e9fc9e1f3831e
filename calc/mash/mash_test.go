package mash

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/alcohol"
	"skep/calc/message"
	"skep/calc/sugar"
)

func malt() []Grain {
	return []Grain{{MassKg: 5, ExtractPct: 80.5, MoisturePct: 4.5, Enzymes: EnzymesOwn}}
}

func single(tC, minutes float64) Input {
	return Input{Grain: malt(), Rests: []Rest{{tC, minutes}}, LiquorLPerKg: 3}
}

func run(t testing.TB, in Input) Result {
	t.Helper()
	r, err := Run(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// each are the kinds of a spectrum.
func each(s sugar.Spectrum) [7]float64 {
	return [7]float64{s.Glucose, s.Fructose, s.Sucrose, s.Maltose, s.Maltotriose, s.Dextrin, s.Other}
}

func apart(a, b sugar.Spectrum) float64 {
	var d float64
	x, y := each(a), each(b)
	for i := range x {
		d = math.Max(d, math.Abs(x[i]-y[i]))
	}
	return d
}

// The committed reference wort is what the model gives for it.
func TestReference(t *testing.T) {
	t.Parallel()
	r := run(t, single(66, 60))
	if d := apart(r.Wort, Reference()); d > 2e-6 {
		t.Errorf("reference off by %g, the mash gives %#v", d, r.Wort)
	}
	if all := Reference(); math.Abs(all.Total()-1) > 1e-12 {
		t.Errorf("reference sums to %.15f", all.Total())
	}
	if math.Abs(r.Conversion-1) > 5e-5 {
		t.Errorf("conversion of the reference mash is %.6f, want 1: fullYield is stale", r.Conversion)
	}
}

// Over the lever's range: what a brewer relies on (issue 3; Hamilton & Lewis
// 1974; rows in testdata/mash/rows.csv). Above the optimum hotter is less
// fermentable and leaves more dextrin, at every tenth of a degree.
func TestHotterIsLessFermentable(t *testing.T) {
	t.Parallel()
	// A short mash has its optimum hotter.
	for minutes, optimumC := range map[float64]float64{30: 64, 60: 62.5, 90: 62.5} {
		var before Result
		for tC := optimumC; tC < 73; tC += 0.1 {
			r := run(t, single(tC, minutes))
			if tC > optimumC {
				if a, b := LimitAttenuationPct(before.Wort), LimitAttenuationPct(r.Wort); b >= a {
					t.Errorf("%g min, %.1f °C: limit attenuation rises from %.4f to %.4f", minutes, tC, a, b)
				}
				if r.Wort.Dextrin <= before.Wort.Dextrin {
					t.Errorf("%g min, %.1f °C: dextrin falls from %.5f to %.5f", minutes, tC, before.Wort.Dextrin, r.Wort.Dextrin)
				}
			}
			before = r
		}
	}
}

// With one yeast the beer becomes fuller and its final gravity higher from 62
// to 70 °C: what is left unfermented, by mass of grain, rises.
func TestBeerGetsFullerWithHeat(t *testing.T) {
	t.Parallel()
	// Takes all maltose and simple sugar; of maltotriose none, half or all.
	for _, triose := range []float64{0, 0.5, 1} {
		var before, beforeDextrin float64
		for i := range 81 {
			tC := 62 + float64(i)/10
			r := run(t, single(tC, 60))
			left := r.ExtractKg * (1 - r.Wort.Sugars() + (1-triose)*r.Wort.Maltotriose)
			dextrin := r.ExtractKg * r.Wort.Dextrin
			if left <= before || dextrin <= beforeDextrin {
				t.Errorf("at %.1f °C, maltotriose share %g: %.5f kg left of which dextrin %.5f, before %.5f and %.5f", tC, triose, left, dextrin, before, beforeDextrin)
			}
			before, beforeDextrin = left, dextrin
		}
	}
}

// No kink: second differences over 0.1 °C stay small and change slowly, also
// at 60 °C, where the published gelatinisation lines jump.
func TestSmooth(t *testing.T) {
	t.Parallel()
	const step = 0.1
	var att, conv []float64
	for i := range 151 { // 57.9 to 72.9: the lever and a step beyond
		in := single(57.9+step*float64(i), 60)
		in.Tolerance = 1e-9
		r := run(t, in)
		att = append(att, LimitAttenuationPct(r.Wort))
		conv = append(conv, 100*r.Conversion)
	}
	for name, v := range map[string][]float64{"attenuation": att, "conversion": conv} {
		last := math.NaN()
		for i := 1; i < len(v)-1; i++ {
			bend := (v[i+1] - 2*v[i] + v[i-1]) / (step * step)
			tC := 57.9 + step*float64(i)
			if math.Abs(bend) > 6 {
				t.Errorf("%s bends by %.2f points per K² at %.1f °C", name, bend, tC)
			}
			if d := math.Abs(bend - last); d > 0.6 {
				t.Errorf("the bend of %s jumps by %.2f at %.1f °C", name, d, tC)
			}
			last = bend
		}
	}
}

// Thickness has little effect with modern malt (design notes, section 2), and
// a thin mash is not the less fermentable through any large step.
func TestThicknessIsASmallEffect(t *testing.T) {
	t.Parallel()
	var low, high = math.Inf(1), math.Inf(-1)
	for _, l := range []float64{2, 2.5, 3, 4, 5} {
		in := single(66, 60)
		in.LiquorLPerKg = l
		a := LimitAttenuationPct(run(t, in).Wort)
		low, high = math.Min(low, a), math.Max(high, a)
	}
	t.Logf("limit attenuation at 66 °C, 2 to 5 L/kg: %.2f to %.2f %%", low, high)
	if high-low > 3 {
		t.Errorf("thickness moves the limit attenuation by %.1f points", high-low)
	}
	if high-low < 0.05 {
		t.Error("thickness has no effect at all")
	}
}

// Raw grain needs the base malt and its own heat: maize gelatinises at 70 to
// 75 °C (design notes), so a rest at 64 leaves much of it, flakes do not.
func TestRawGrain(t *testing.T) {
	t.Parallel()
	grist := func(gelC, base float64) Input {
		return Input{Grain: []Grain{{MassKg: base, ExtractPct: 80, Enzymes: EnzymesOwn},
			{MassKg: 1, ExtractPct: 80, Enzymes: EnzymesBorrowed, GelatinisationC: gelC}}, Rests: []Rest{{64, 60}}}
	}
	maize := run(t, grist(GelatinisationMaizeC, 3))
	wheat := run(t, grist(GelatinisationWheatC, 3))
	flakes := run(t, grist(GelatinisationFlakesC, 3))
	if !(maize.Conversion < 0.9 && wheat.Conversion > 0.97 && flakes.Conversion > 0.97) {
		t.Errorf("conversion with maize %.3f, wheat %.3f, flakes %.3f", maize.Conversion, wheat.Conversion, flakes.Conversion)
	}
	many := run(t, grist(GelatinisationFlakesC, 3))
	few := run(t, grist(GelatinisationFlakesC, 0.2))
	if LimitAttenuationPct(few.Wort) >= LimitAttenuationPct(many.Wort) {
		t.Error("fewer enzymes make a more fermentable wort")
	}
	if len(few.Warnings) == 0 {
		t.Error("a sixth of base malt: no warning")
	}
}

// Raw grain and malt of the same yield give the same extract where all of it is
// turned; grain given in two heaps, or its sugars in any unit, is the same mash.
func TestHeapsAndUnits(t *testing.T) {
	t.Parallel()
	raw := func(kg float64) Grain {
		return Grain{MassKg: kg, ExtractPct: 80, Enzymes: EnzymesBorrowed, GelatinisationC: GelatinisationFlakesC}
	}
	base := Grain{MassKg: 3, ExtractPct: 80, Enzymes: EnzymesOwn}
	rests := []Rest{{66, 90}, {72, 30}}
	one := run(t, Input{Grain: []Grain{base, raw(1)}, Rests: rests})
	two := run(t, Input{Grain: []Grain{raw(0.4), base, raw(0.6)}, Rests: rests})
	if apart(one.Wort, two.Wort) > 1e-9 || math.Abs(one.ExtractKg-two.ExtractKg) > 1e-9 {
		t.Errorf("one heap %+v, two %+v", one, two)
	}
	// Grains of different heat stay apart, in whatever order.
	maize := raw(1)
	maize.GelatinisationC = GelatinisationMaizeC
	a := run(t, Input{Grain: []Grain{base, maize, raw(1)}, Rests: rests[:1]})
	b := run(t, Input{Grain: []Grain{raw(1), base, maize}, Rests: rests[:1]})
	if apart(a.Wort, b.Wort) > 1e-9 || math.Abs(a.ExtractKg-b.ExtractKg) > 1e-9 {
		t.Errorf("maize before flakes %+v, after %+v", a, b)
	}
	none := run(t, Input{Grain: []Grain{base}, Rests: rests})
	if math.Abs(one.Conversion/none.Conversion-1) > 0.005 {
		t.Errorf("with a quarter of flakes %.4f of the extract, without %.4f", one.Conversion, none.Conversion)
	}
	// At the start all enzymes and all starch are there.
	points, err := Course(Input{Grain: []Grain{base, raw(3)}, Rests: rests}, 1)
	if err != nil {
		t.Fatal(err)
	}
	if p := points[0]; p.AlphaLeft != 1 || p.BetaLeft != 1 || p.LimitDextrinaseLeft != 1 || math.Abs(p.StarchLeft-1) > 1e-9 {
		t.Errorf("at the start %+v", p)
	}
	if p := points[len(points)-1]; p.StarchLeft > 0.02 {
		t.Errorf("at the end %v of the starch is left", p.StarchLeft)
	}
	for _, unit := range []float64{0.01, 1, 250} {
		own := sugar.Spectrum{Maltose: 3, Dextrin: 1}.Times(unit)
		s := run(t, Input{Grain: []Grain{{MassKg: 1, ExtractPct: 75, Enzymes: EnzymesNone, Brings: &own}}, Rests: rests})
		if apart(s.Wort, sugar.Spectrum{Maltose: 0.75, Dextrin: 0.25}) > 1e-12 || math.Abs(s.ExtractKg-0.75) > 1e-12 {
			t.Errorf("in unit %v: %+v", unit, s)
		}
		if got := LimitAttenuationPct(own); math.Abs(got-LimitAttenuationPct(s.Wort)) > 1e-9 {
			t.Errorf("limit attenuation in unit %v is %v", unit, got)
		}
	}
}

// A mash that heats twice as fast is on the way half as long; maltose guards
// beta-amylase, by half at its constant.
func TestRampsAndGuard(t *testing.T) {
	t.Parallel()
	for heat, want := range map[float64]float64{0: 10 + 20 + 30 + 5, 1: 10 + 20 + 30 + 5, 2: 10 + 10 + 30 + 5, 0.5: 10 + 40 + 30 + 5} {
		in := Input{Grain: malt(), Rests: []Rest{{52, 10}, {72, 30}, {72, 5}}, HeatKPerMin: heat, LiquorLPerKg: 3}
		points, err := Course(in, 1)
		if err != nil {
			t.Fatal(err)
		}
		if got := points[len(points)-1].Minute; math.Abs(got-want) > 1e-9 {
			t.Errorf("at %v K/min the mash takes %v min, want %v", heat, got, want)
		}
		if got := points[14].TemperatureC; math.Abs(got-(52+4*max(heat, 0.5))) > 1e-9 && heat != 0 {
			t.Errorf("at %v K/min it is at %v °C after 14 min", heat, got)
		}
	}
	k := Committed()
	if free, guarded := k.BetaLossAt(65, 0), k.BetaLossAt(65, k.BetaGuard); !(free > 0) || math.Abs(guarded/free-0.5) > 1e-12 {
		t.Errorf("beta-amylase is lost at %v, guarded at %v", free, guarded)
	}
}

// What has no enzymes goes in as it is.
func TestSpecialtyAndSugar(t *testing.T) {
	t.Parallel()
	s := run(t, Input{Grain: []Grain{{MassKg: 1, ExtractPct: 100, Enzymes: EnzymesNone}}, Rests: []Rest{{66, 60}}})
	if s.Wort != (sugar.Spectrum{Sucrose: 1}) || s.Conversion != 1 {
		t.Errorf("sugar alone gives %+v", s)
	}
	own := sugar.Spectrum{Maltose: 3, Dextrin: 1}
	s = run(t, Input{Grain: []Grain{{MassKg: 1, ExtractPct: 75, Enzymes: EnzymesNone, Brings: &own}}, Rests: []Rest{{66, 60}}})
	if s.Wort != (sugar.Spectrum{Maltose: 0.75, Dextrin: 0.25}) {
		t.Errorf("a grain with its own sugars gives %+v", s.Wort)
	}
	in := single(66, 60)
	plain := run(t, in)
	in.Grain = append(in.Grain, Grain{MassKg: 1, ExtractPct: 75, Enzymes: EnzymesNone})
	if with := run(t, in); LimitAttenuationPct(with.Wort) >= LimitAttenuationPct(plain.Wort) {
		t.Error("specialty malt makes the wort more fermentable")
	}
}

func TestCourse(t *testing.T) {
	t.Parallel()
	in := Input{Grain: malt(), Rests: []Rest{{52, 10}, {63, 30}, {72, 20}}, HeatKPerMin: 1, LiquorLPerKg: 3}
	points, err := Course(in, 1)
	if err != nil {
		t.Fatal(err)
	}
	last := points[len(points)-1]
	if want := 10 + 11 + 30 + 9 + 20.0; last.Minute != want || last.Minutes != want {
		t.Errorf("the course ends at %g min, want %g", last.Minute, want)
	}
	if len(points) != 81 {
		t.Errorf("%d points", len(points))
	}
	if end := run(t, in); apart(end.Wort, last.Wort) > 1e-12 || end.Conversion != last.Conversion {
		t.Error("the course does not end where the mash ends")
	}
	for i, p := range points {
		if i > 0 {
			q := points[i-1]
			if p.Minute <= q.Minute || p.Conversion < q.Conversion-1e-9 || p.BetaLeft > q.BetaLeft+1e-9 || p.AlphaLeft > q.AlphaLeft+1e-9 {
				t.Errorf("at %g min the mash runs backwards: %+v after %+v", p.Minute, p, q)
			}
		}
	}
	if p := points[15]; math.Abs(p.TemperatureC-57) > 1e-9 {
		t.Errorf("at 15 min %g °C, want 57", p.TemperatureC)
	}
	if _, err := Course(in, 0); err == nil {
		t.Error("a course every 0 min")
	}
}

// A rest cut in two is the same rest.
func TestRestsAdd(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		tC := rapid.Float64Range(45, 80).Draw(t, "temperature")
		a := rapid.Float64Range(1, 60).Draw(t, "first")
		b := rapid.Float64Range(1, 60).Draw(t, "second")
		one, err1 := Run(Input{Grain: malt(), Rests: []Rest{{tC, a + b}}})
		two, err2 := Run(Input{Grain: malt(), Rests: []Rest{{tC, a}, {tC, b}}})
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		if d := apart(one.Wort, two.Wort); d > 1e-5 {
			t.Fatalf("split at %g of %g min: off by %g", a, a+b, d)
		}
	})
}

// Starch is neither made nor lost: sugars less the water they took up, and
// what is left, sum to it.
func TestStarchIsKept(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := drawInput(t)
		p, err := Committed().prepare(in)
		if err != nil {
			t.Fatal(err)
		}
		if err := p.run(nil); err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for i, v := range p.r.y {
			if i < iAlpha || i > iLimitase {
				sum += v
			}
		}
		want := 0.0
		if p.g.starchKg > 0 {
			want = 1
		}
		if math.Abs(sum-want) > 1e-9 {
			t.Fatalf("starch sums to %.12f", sum)
		}
	})
}

func drawInput(t *rapid.T) Input {
	f := func(a, b float64, name string) float64 { return rapid.Float64Range(a, b).Draw(t, name) }
	in := Input{LiquorLPerKg: f(1, 20, "liquor"), HeatKPerMin: f(0.05, 10, "heat")}
	for i := range rapid.IntRange(1, 4).Draw(t, "grains") {
		in.Grain = append(in.Grain, Grain{MassKg: f(0, 10, fmt.Sprint("mass ", i)) + 0.001, ExtractPct: f(1, 100, "extract"),
			MoisturePct: f(0, 20, "moisture"), GelatinisationC: f(30, 90, "gelatinisation"),
			Enzymes: rapid.SampledFrom([]string{"", EnzymesOwn, EnzymesNone, EnzymesBorrowed}).Draw(t, "enzymes")})
	}
	for range rapid.IntRange(1, 4).Draw(t, "rests") {
		in.Rests = append(in.Rests, Rest{f(20, 100, "temperature"), rapid.SampledFrom([]float64{0, 1, 17, 60, 240}).Draw(t, "minutes")})
	}
	return in
}

// sound fails on anything that is not a finite, whole answer.
func sound(t interface{ Fatalf(string, ...any) }, r Result) {
	for i, v := range each(r.Wort) {
		if !(v >= 0 && v <= 1) {
			t.Fatalf("share %d is %g", i, v)
		}
	}
	if math.Abs(r.Wort.Total()-1) > 1e-12 {
		t.Fatalf("shares sum to %.15f", r.Wort.Total())
	}
	for _, v := range []float64{r.AlphaLeft, r.BetaLeft, r.LimitDextrinaseLeft, r.StarchLeft} {
		if !(v >= 0 && v <= 1) {
			t.Fatalf("a share is %g in %+v", v, r)
		}
	}
	if !(r.Conversion > 0 && r.Conversion < 1.05) || !(r.ExtractKg > 0) {
		t.Fatalf("conversion %g, extract %g kg", r.Conversion, r.ExtractKg)
	}
	if a := LimitAttenuationPct(r.Wort); !(a >= 0 && a <= 100/alcohol.RealPerApparent+1e-9) {
		t.Fatalf("limit attenuation %g", a)
	}
}

func TestEveryMashHasAnAnswer(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r, err := Run(drawInput(t))
		if err != nil {
			t.Fatal(err)
		}
		sound(t, r)
	})
}

// Issue 4, bad input: a finite answer with a warning, or a refusal with the
// range.
func TestBadInput(t *testing.T) {
	t.Parallel()
	nan, inf := math.NaN(), math.Inf(1)
	raw := []Grain{{MassKg: 1, ExtractPct: 80, Enzymes: EnzymesBorrowed}}
	warns := []struct {
		name string
		in   Input
		says string
	}{
		{"cold", single(40, 60), "hardly gelatinises"},
		{"hot", single(80, 60), "beta-amylase is lost"},
		{"no time", single(66, 0), "0 minutes"},
		{"no base malt", Input{Grain: raw, Rests: []Rest{{66, 60}}}, "no base malt"},
		{"boiling", single(100, 60), "beta-amylase is lost"},
	}
	for _, c := range warns {
		r := run(t, c.in)
		sound(t, r)
		if !strings.Contains(message.InEnglish(r.Warnings, "\n"), c.says) {
			t.Errorf("%s: warnings %q do not say %q", c.name, r.Warnings, c.says)
		}
	}
	if r := run(t, single(66, 60)); len(r.Warnings) != 0 {
		t.Errorf("an ordinary mash warns: %q", r.Warnings)
	}
	change := func(f func(*Input)) Input {
		in := single(66, 60)
		f(&in)
		return in
	}
	refusals := []struct {
		name string
		in   Input
		says string
	}{
		{"no grain", Input{Rests: []Rest{{66, 60}}}, "no grain"},
		{"no rest", Input{Grain: malt()}, "no rest"},
		{"frozen", single(-1, 60), "20 to 100"},
		{"NaN temperature", single(nan, 60), "20 to 100"},
		{"negative time", single(66, -1), "0 to 1440"},
		{"endless", single(66, inf), "0 to 1440"},
		{"NaN liquor", change(func(i *Input) { i.LiquorLPerKg = nan }), "1 to 20"},
		{"dry", change(func(i *Input) { i.LiquorLPerKg = 0.1 }), "1 to 20"},
		{"heat", change(func(i *Input) { i.HeatKPerMin = -1 }), "0.01 to 100"},
		{"tolerance", change(func(i *Input) { i.Tolerance = nan }), "tolerance"},
		{"mass", change(func(i *Input) { i.Grain[0].MassKg = -1 }), "mass_kg"},
		{"extract", change(func(i *Input) { i.Grain[0].ExtractPct = 101 }), "extract_pct"},
		{"no extract", change(func(i *Input) { i.Grain[0].ExtractPct = 0 }), "extract_pct"},
		{"moisture", change(func(i *Input) { i.Grain[0].MoisturePct = nan }), "moisture_pct"},
		{"enzymes", change(func(i *Input) { i.Grain[0].Enzymes = "many" }), "enzymes"},
		{"gelatinisation", change(func(i *Input) { i.Grain[0].GelatinisationC = inf }), "30 to 90"},
		{"nothing brought", change(func(i *Input) { i.Grain[0].Brings = &sugar.Spectrum{} }), "sum"},
		{"negative brought", change(func(i *Input) { i.Grain[0].Brings = &sugar.Spectrum{Glucose: -1} }), "share"},
	}
	for _, c := range refusals {
		if _, err := Run(c.in); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want it to say %q", c.name, err, c.says)
		}
	}
}

// FuzzRun: whatever the numbers, an error or a sound answer.
func FuzzRun(f *testing.F) {
	f.Add(5.0, 80.0, 4.5, uint8(0), 0.0, 66.0, 60.0, 3.0, 1.0)
	f.Add(1.0, 75.0, 0.0, uint8(2), 72.5, 40.0, 0.0, 1.0, 0.01)
	f.Add(math.NaN(), math.Inf(1), -1.0, uint8(9), 1e300, 100.0, 1440.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, mass, extract, moisture float64, kind uint8, gelC, tC, minutes, liquor, heat float64) {
		kinds := []string{"", EnzymesOwn, EnzymesNone, EnzymesBorrowed, "other"}
		r, err := Run(Input{
			Grain: []Grain{{MassKg: 1, ExtractPct: 80, Enzymes: EnzymesOwn},
				{MassKg: mass, ExtractPct: extract, MoisturePct: moisture, Enzymes: kinds[int(kind)%len(kinds)], GelatinisationC: gelC}},
			Rests: []Rest{{tC, minutes}, {66, 5}}, LiquorLPerKg: liquor, HeatKPerMin: heat})
		if err == nil {
			sound(t, r)
		}
	})
}
