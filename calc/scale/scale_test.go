package scale_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/scale"
)

// Twice the volume: the same proportions within the grain bill, the same
// strength and bitterness, and less than twice the grain, as what the kit keeps
// back does not double.
func TestScalingKeepsProportions(t *testing.T) {
	e := calc.NewEngine()
	for _, c := range []struct {
		name     string
		intoL    float64
		strength float64
	}{{"double", 30, 0}, {"small", 6, 0}, {"stronger", 15, 7.5}, {"both", 40, 3.5}} {
		d := demotest.Design(t, "middle")
		d.Hop = append(d.Hop, design.Hop{Name: "late", AlphaPct: 4, MassG: 20, When: "whirlpool"})
		before, err := e.Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		out, err := scale.To(e, d, c.intoL, c.strength)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		after, err := e.Predict(out)
		if err != nil {
			t.Fatal(err)
		}
		want := c.strength
		if want == 0 {
			want = before.StrengthPct.Mid
		}
		if math.Abs(after.StrengthPct.Mid-want) > 0.02 {
			t.Errorf("%s: %.3f %%, want %.3f", c.name, after.StrengthPct.Mid, want)
		}
		if math.Abs(after.BitternessIBU.Mid-before.BitternessIBU.Mid) > 0.1 {
			t.Errorf("%s: %.2f IBU, was %.2f", c.name, after.BitternessIBU.Mid, before.BitternessIBU.Mid)
		}
		k := out.Grain[0].MassKg / d.Grain[0].MassKg
		for what, got := range map[string]float64{
			"second grain": out.Grain[1].MassKg / d.Grain[1].MassKg, "honey": out.Honey[0].MassKg / d.Honey[0].MassKg,
		} {
			if math.Abs(got/k-1) > 2e-3 {
				t.Errorf("%s: the %s grew by %.4f, the first grain by %.4f", c.name, what, got, k)
			}
		}
		if h := out.Hop[1].MassG / d.Hop[1].MassG; math.Abs(h/(out.Hop[0].MassG/d.Hop[0].MassG)-1) > 2e-3 {
			t.Errorf("%s: hops out of proportion", c.name)
		}
		if ratio := c.intoL / d.Batch.IntoFermenterL; c.name == "double" && !(k < ratio && k > 0.8*ratio) {
			t.Errorf("grain grew by %.3f for %.1f times the volume", k, ratio)
		}
		if out.Mash.Rest[0] != d.Mash.Rest[0] || out.Kit != d.Kit || out.Boil != d.Boil {
			t.Errorf("%s: temperatures, times or the kit changed", c.name)
		}
	}
}

// What can't be scaled says why, in words that a window can translate.
func TestScalingRefuses(t *testing.T) {
	d := demotest.Design(t, "middle")
	water := d.Clone()
	for i := range water.Grain {
		water.Grain[i].MassKg = 0
	}
	water.Honey = nil
	for _, c := range []struct {
		d        design.Design
		into, to float64
		says     string
	}{{d, 300, 0, "200"}, {d, math.NaN(), 0, "200"}, {water, 20, 0, "no strength"}, {d, 15, 90, "no amount"}} {
		_, err := scale.To(calc.NewEngine(), c.d, c.into, c.to)
		var e *message.Error
		if !errors.As(err, &e) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v L at %v %%: %v, want it to say %q", c.into, c.to, err, c.says)
		}
	}
}
