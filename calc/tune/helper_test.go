package tune

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc"
	"skep/calc/design"
)

func tuner(t testing.TB, d design.Design) *Tuner {
	t.Helper()
	tu, err := New(calc.NewEngine(), d)
	if err != nil {
		t.Fatal(err)
	}
	return tu
}

func ptr(x float64) *float64 { return &x }

// taste makes wishes; NaN is not asked.
func taste(dryness, body, strength float64) Wishes {
	var w Wishes
	for _, q := range []struct {
		p **float64
		x float64
	}{{&w.Dryness, dryness}, {&w.Body, body}, {&w.StrengthPct, strength}} {
		if !math.IsNaN(q.x) {
			*q.p = ptr(q.x)
		}
	}
	return w
}

var no = math.NaN()

// ordinary is an everyday honey beer.
func ordinary(t *rapid.T, base design.Design) design.Design {
	d := base.Clone()
	step := func(label string, low, high int, unit float64) float64 {
		return float64(rapid.IntRange(low, high).Draw(t, label)) * unit
	}
	d.Grain[0].MassKg = step("malt", 180, 380, 0.01)
	d.Grain[1].MassKg = step("wheat", 0, 60, 0.01)
	d.Kit.MashEfficiencyPct = step("efficiency", 65, 82, 1)
	d.Kit.RestErrorC = step("thermometer", 2, 12, 0.1)
	d.Mash.Rest[0].TemperatureC = step("rest", 122, 138, 0.5)
	d.Mash.Rest[0].Minutes = step("minutes", 8, 18, 5)
	low := step("attenuation", 64, 78, 1)
	d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct = low, low+step("width", 3, 8, 1)
	d.Honey[0].MassKg = step("honey", 0, 18, 0.05)
	d.Honey[0].Moment = rapid.SampledFrom([]string{design.MomentPitching, design.MomentFermenting, design.MomentWhirlpool}).Draw(t, "moment")
	d.Honey[0].Raw = rapid.Bool().Draw(t, "raw")
	return d
}

// set applies settings as --set does.
func set(t testing.TB, d design.Design, settings map[string]any) design.Design {
	t.Helper()
	d = d.Clone()
	for k, v := range settings {
		if err := d.Set(k, fmt.Sprint(v)); err != nil {
			t.Fatalf("--set %s=%v: %v", k, v, err)
		}
	}
	return d
}

func predict(t testing.TB, e *calc.Engine, d design.Design) calc.Prediction {
	t.Helper()
	p, err := e.Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// distance between two points of the plane, index points.
func (p Point) distance(q Point) float64 { return math.Hypot(p.Dryness-q.Dryness, p.Body-q.Body) }

// Contains tells whether a point lies within a closed outline.
func Contains(outline []Point, p Point) bool {
	in := false
	for i, j := 0, len(outline)-1; i < len(outline); j, i = i, i+1 {
		a, b := outline[i], outline[j]
		if (a.Body > p.Body) != (b.Body > p.Body) &&
			p.Dryness < a.Dryness+(p.Body-a.Body)/(b.Body-a.Body)*(b.Dryness-a.Dryness) {
			in = !in
		}
	}
	return in
}
