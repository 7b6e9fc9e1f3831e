package follow

import (
	"math"
	"os"
	"testing"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/sugar"
)

func demo(t testing.TB, name string) design.Design {
	t.Helper()
	src, err := os.ReadFile("../../assets/demo/gate-field-" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	doc, findings := file.Parse(name, src)
	if err := design.FirstError(findings); err != nil {
		t.Fatal(err)
	}
	return doc.Design
}

func modelOf(t testing.TB, d design.Design) *model {
	t.Helper()
	tl := Timeline{}
	c := Condition(d, &tl, 0)
	m, err := newModel(&c, calc.Doubts{}.Filled(1), &mashes{})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.6g, expected %.6g within %.2g", what, got, want, within)
	}
}

func nearBand(t testing.TB, what string, got, want calc.Band, within float64) {
	t.Helper()
	near(t, what+" low", got.Low, want.Low, within)
	near(t, what+" mid", got.Mid, want.Mid, within)
	near(t, what+" high", got.High, want.High, within)
}

func bandOf(x []float64) calc.Band {
	low, mid, high := doubt.Percentiles(x)
	return calc.Band{Low: low, Mid: mid, High: high}
}

// The beer of every draw is the engine's: with the engine's own draws the bands
// of its prediction come out. (Steps of the mash tables differ, 0.5 against 0.67
// °C: hence a tolerance at all.)
func TestBeersAreTheEngines(t *testing.T) {
	t.Parallel()
	variants := map[string]func(d *design.Design){
		"as it is":          func(*design.Design) {},
		"honey hot":         func(d *design.Design) { d.Honey[0].Moment = design.MomentBoil },
		"honey at pitching": func(d *design.Design) { d.Honey[0].Moment = design.MomentPitching },
		"two rests": func(d *design.Design) {
			d.Mash.Rest = append(d.Mash.Rest, design.Rest{TemperatureC: 72, Minutes: 20})
			d.Mash.Rest[0].TemperatureC = 63
		},
		"coarse": func(d *design.Design) { d.Crush = &design.Crush{ByEye: "coarse"} },
	}
	for name, change := range variants {
		d := demo(t, "middle")
		change(&d)
		p, err := calc.NewEngine().Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		m := modelOf(t, d)
		draws := doubt.New(calc.Draws)
		var x [4][]float64
		var b beer
		for _, z := range draws {
			var th theta
			copy(th[:], z[:])
			th[doubt.Strain], th[doubt.Efficiency] = unstretch(z[doubt.Strain]), unstretch(z[doubt.Efficiency])
			m.beerOf(&th, &b)
			for i, v := range []float64{b.fgSG, b.abvPct, b.dryness, b.body} {
				x[i] = append(x[i], v)
			}
		}
		nearBand(t, name+": final gravity", bandOf(x[0]), p.FinalGravitySG, 2e-5)
		nearBand(t, name+": strength", bandOf(x[1]), p.StrengthPct, 0.005)
		nearBand(t, name+": dryness", bandOf(x[2]), p.Dryness, 0.1)
		nearBand(t, name+": body", bandOf(x[3]), p.Body, 0.1)
	}
}

// unstretch inverts stretch by Newton's method.
func unstretch(v float64) float64 {
	z := v
	for range 50 {
		z -= (stretch(z) - v) / ((stretch(z+1e-4) - stretch(z-1e-4)) / 2e-4)
	}
	return z
}

// fermentInput is the middle draw for package ferment, by mass shares of ours.
func fermentInput(m *model, b *beer) ferment.Input {
	litres := m.d.Batch.IntoFermenterL
	in := ferment.Input{Wort: b.grain.Times(1000 / litres), Take: b.take, TemperatureC: m.beerC, PitchBillionPerL: m.yeast.CellsBillionPerL}
	add := func(after bool, hours float64, kg sugar.Spectrum, litresAdded float64) {
		if kg.Total() > 0 {
			in.Additions = append(in.Additions, ferment.Addition{AfterHeight: after, Hours: hours, Sugars: kg.Times(1000 / litres),
				Fermentable: kg.Sugars() / kg.Total(), VolumeShare: litresAdded / litres})
		}
	}
	add(false, 0, b.honey.hot, 0)
	add(false, 0, b.honey.pitched, b.honey.pitchedL)
	for i := range b.honey.lates {
		x := b.honey.late[i]
		add(x.fromHeight, x.hours, x.kg, x.volumeL)
	}
	return in
}

// The course is ferment.Run's: the same equations by another integrator.
// What differs is the balance: ours by mass, ferment's by volumes that add up.
func TestCourseIsFerments(t *testing.T) {
	t.Parallel()
	variants := map[string]func(d *design.Design){
		"as it is":          func(*design.Design) {},
		"no honey":          func(d *design.Design) { d.Honey = nil },
		"honey at pitching": func(d *design.Design) { d.Honey[0].Moment = design.MomentPitching },
		"cold":              func(d *design.Design) { d.Yeast[0].TemperatureC = 11 },
		"warm and much yeast": func(d *design.Design) {
			d.Yeast[0].TemperatureC, d.Yeast[0].CellsBillionPerL = 26, 40
		},
		"diastatic": func(d *design.Design) {
			y := &d.Yeast[0]
			y.AttenuationLowPct, y.AttenuationHighPct, y.EatsDextrin = 85, 95, true
		},
	}
	for name, change := range variants {
		d := demo(t, "middle")
		change(&d)
		for i := range d.Honey {
			d.Honey[i].Raw = false // trimming of dextrin is no part of package ferment
		}
		m := modelOf(t, d)
		var c course
		var b beer
		m.run(&theta{}, &b, &c)
		want, err := ferment.Run(fermentInput(m, &b))
		if err != nil {
			t.Fatal(err)
		}
		worst, worstRate := 0.0, 0.0
		for i, h := range want.Hours {
			sg, rate := c.gravity(h)
			worst = max(worst, math.Abs(sg-want.GravitySG[i]))
			worstRate = max(worstRate, math.Abs(rate-want.CO2RateGPerLH[i]))
		}
		t.Logf("%s: gravity within %.6f, rate within %.4f, height %.2f/%.2f window %.2f/%.2f %.2f/%.2f finished %.2f/%.2f", name, worst, worstRate,
			c.times.height, want.HeightHours, c.times.opens, want.Window[0], c.times.closes, want.Window[1], c.times.finished, want.FinishedHours)
		if worst > 2e-4 {
			t.Errorf("%s: gravity is off by %.5f", name, worst)
		}
		near(t, name+": height", c.times.height, want.HeightHours, 0.3)
		near(t, name+": opens", c.times.opens, want.Window[0], 0.3)
		near(t, name+": closes", c.times.closes, want.Window[1], 0.3)
		near(t, name+": finished", c.times.finished, want.FinishedHours, 0.5)
	}
}

func BenchmarkDraw(b *testing.B) {
	m := modelOf(b, demo(b, "middle"))
	var c course
	var x beer
	draws := scores()
	i := 0
	b.ReportAllocs()
	for b.Loop() {
		m.run(&draws[i%len(draws)], &x, &c)
		i++
	}
}
