package calc_test

import (
	"strconv"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
)

// moved changes one number of a design a little at every call, as a lever does.
func moved(b *testing.B, d *design.Design, key string, low, high float64, n int) {
	b.Helper()
	const steps = 997
	v := low + (high-low)*float64(n%steps)/steps
	if err := d.Set(key, strconv.FormatFloat(v, 'f', 6, 64)); err != nil {
		b.Fatal(err)
	}
}

// BenchmarkPredict is one design, all outputs, bands included; its honey moves,
// so that nothing but the mash is known from before.
func BenchmarkPredict(b *testing.B) {
	d, e := demotest.Design(b, "middle"), calc.NewEngine()
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		moved(b, &d, "honey.0.mass_kg", 0.3, 0.9, n)
		if _, err := e.Predict(d); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkPredictCold is the first prediction of a new engine.
func BenchmarkPredictCold(b *testing.B) {
	d := demotest.Design(b, "middle")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := calc.NewEngine().Predict(d); err != nil {
			b.Fatal(err)
		}
	}
}

// pictures is the temperatures of the window's four pictures.
func pictures() []float64 {
	var t []float64
	for c := lever.RestLowC; c <= lever.RestHighC; c += 0.5 {
		t = append(t, c)
	}
	return t
}

// BenchmarkCurves is what the window draws each frame, by the lever that moves.
func BenchmarkCurves(b *testing.B) {
	for _, lever := range []struct {
		name, key string
		low, high float64
	}{
		{"honey", "honey.0.mass_kg", 0.3, 0.9},
		{"attenuation", "yeast.0.attenuation_high_pct", 76, 84},
		{"rest", "mash.rest.0.temperature_c", 60, 71},
		{"minutes", "mash.rest.0.minutes", 40, 90},
	} {
		b.Run(lever.name, func(b *testing.B) {
			d, e, temps := demotest.Design(b, "middle"), calc.NewEngine(), pictures()
			b.ReportAllocs()
			for n := 0; b.Loop(); n++ {
				moved(b, &d, lever.key, lever.low, lever.high, n)
				if _, err := e.Curves(d, 0, temps); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkFrame is all that the window asks of the engine each frame, by the
// lever that moves.
func BenchmarkFrame(b *testing.B) {
	for _, lever := range []struct {
		name, key string
		low, high float64
	}{
		{"honey", "honey.0.mass_kg", 0.3, 0.9},
		{"hours", "honey.0.hours_after_height", 0, 48},
		{"attenuation", "yeast.0.attenuation_high_pct", 76, 84},
		{"yeast-temperature", "yeast.0.temperature_c", 16, 24},
		{"rest", "mash.rest.0.temperature_c", 60, 71},
		{"minutes", "mash.rest.0.minutes", 40, 90},
		{"grain", "grain.0.mass_kg", 3, 6},
	} {
		b.Run(lever.name, func(b *testing.B) {
			d, e, temps := demotest.Design(b, "middle"), calc.NewEngine(), pictures()
			b.ReportAllocs()
			for n := 0; b.Loop(); n++ {
				moved(b, &d, lever.key, lever.low, lever.high, n)
				if _, _, err := e.Frame(d, 0, temps); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkBands is the four bands of six yeasts of 1,024 draws each, the honey
// moving; on one core.
func BenchmarkBands(b *testing.B) {
	d, e := demotest.Design(b, "middle"), calc.NewEngineDraws(1024)
	strain := d.Yeast[0]
	d.Yeast = d.Yeast[:0]
	for i := range 6 {
		y := strain
		y.AttenuationLowPct += float64(3 * (i - 2))
		y.AttenuationHighPct += float64(3 * (i - 2))
		y.TemperatureC += float64(i)
		d.Yeast = append(d.Yeast, y)
	}
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		moved(b, &d, "honey.0.mass_kg", 0.3, 0.9, n)
		if _, err := e.Strains(d); err != nil {
			b.Fatal(err)
		}
	}
}
