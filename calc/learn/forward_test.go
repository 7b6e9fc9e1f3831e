package learn

import (
	"math"
	"os"
	"testing"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/doubt"
	"skep/calc/mash"
)

func readDemo(name string) (design.Design, error) {
	src, err := os.ReadFile("../../assets/demo/gate-field-" + name + ".toml")
	if err != nil {
		return design.Design{}, err
	}
	doc, findings := file.Parse(name, src)
	if err := design.FirstError(findings); err != nil {
		return design.Design{}, err
	}
	return doc.Design, nil
}

func demo(t testing.TB, name string) design.Design {
	t.Helper()
	d, err := readDemo(name)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// The mass balance restated here is the engine's: bands from the same draws.
func TestForwardIsTheEngine(t *testing.T) {
	t.Parallel()
	variants := map[string]func(d *design.Design){
		"as it is":          func(*design.Design) {},
		"no honey":          func(d *design.Design) { d.Honey = nil },
		"honey in the boil": func(d *design.Design) { d.Honey[0].Moment = design.MomentBoil },
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
		f, err := newForward(d, &tables{}, 4)
		if err != nil {
			t.Fatal(err)
		}
		var x [6][]float64
		for _, z := range doubt.New(calc.Draws) {
			b := f.beer(f.drawn(&z, efficiencySD, mash.MaltSDPoints, 1))
			for i, v := range []float64{b.ogSG, b.fgSG, b.abvPct, b.dryness, b.body, b.aaPct} {
				x[i] = append(x[i], v)
			}
		}
		for i, want := range []calc.Band{p.OriginalGravitySG, p.FinalGravitySG, p.StrengthPct, p.Dryness, p.Body, p.ApparentAttenuationPct} {
			low, mid, high := doubt.Percentiles(x[i])
			tol := []float64{2e-6, 2e-5, 0.005, 0.1, 0.1, 0.05}[i]
			near(t, name+" low", low, want.Low, tol)
			near(t, name+" mid", mid, want.Mid, tol)
			near(t, name+" high", high, want.High, tol)
		}
	}
}

// The prior of the time to the height is the engine's band of it.
func TestTimePriorIsTheEngines(t *testing.T) {
	t.Parallel()
	p, err := calc.NewEngine().Predict(demo(t, "middle"))
	if err != nil {
		t.Fatal(err)
	}
	b := p.HeightHours
	near(t, "10 to 90 of the logarithm", engineTimeSD, logWidth(b.Low, b.High), 0.03)
}

func logWidth(low, high float64) float64 { return math.Log(high/low) / (2 * doubt.Z90) }
