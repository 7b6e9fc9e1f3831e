package water_test

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/water"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tolerance)
	}
}

// TestGateField works the example out by the trade's plain arithmetic: litres
// added, 4 % for cooling, no densities (common practice, no source). Masses
// move it by a tenth of a litre at most.
func TestGateField(t *testing.T) {
	t.Parallel()
	p := water.For(gateField())
	postBoil := (15 + 1 + 0.4) / 0.96
	near(t, "mash liquor", p.MashLiquor, 3*2.7+1.2, 1e-9)
	near(t, "post-boil", p.PostBoil, postBoil, 0.05)
	near(t, "pre-boil", p.PreBoil, postBoil+2.2, 0.15)
	near(t, "mash liquor and sparge", p.MashLiquor+p.Sparge, 16.4+2.2+0.9*2.7, 0.1)
	near(t, "into fermenter", p.IntoFermenter, 15, 1e-9)
	near(t, "cool", p.CoolL, 16.4, 1e-9)
	near(t, "fermenter", p.FermenterL, 15+0.55/1.42, 0.03)
	near(t, "packaged", p.Packaged, 0.95*(15+0.55/1.42), 0.03)
	near(t, "share kept", p.KeptShare, 15/16.4, 1e-9)
	// Water of 66.5 °C: 979.72 kg/m³ (water tables, between 65 and 70 °C).
	near(t, "level of the mash", p.MashLevelL, 9.3*998.2/979.72+0.619*2.7, 0.01)
	// 2.7 kg of 4.5 % moisture, 80.5 % on dry, 74 %
	near(t, "extract", p.GrainExtractKg, 1.536, 0.001)
	// Spent grain holds 75 to 80 % water (from memory); 70 to 85 is taken.
	wet := p.SpentGrainWaterKg / (p.SpentGrainWaterKg + p.SpentGrainDryKg)
	if wet < 0.70 || wet > 0.85 {
		t.Errorf("spent grain would hold %.0f %% water", 100*wet)
	}
	if len(p.Warnings) > 0 {
		t.Errorf("an ordinary brew warns: %q", p.Warnings)
	}
}

// TestConservation: what goes in comes out, to the gram.
func TestConservation(t *testing.T) {
	t.Parallel()
	const gram, waterKgPerL = 0.001, 0.9982030730984213
	rapid.Check(t, func(t *rapid.T) {
		d := anyBrew(t)
		p := water.For(d)
		waterIn := (p.MashLiquor+p.Sparge)*waterKgPerL + d.Grist.MoistureKg
		dryIn := d.Grist.MassKg - d.Grist.MoistureKg
		for _, h := range []water.Liquid{d.BoilHoney, d.WhirlpoolHoney, d.LateHoney} {
			waterIn += h.WaterKg
			dryIn += h.ExtractKg
		}
		left := p.CoolLiquid.Share((p.LeftWithBreakL + p.LeftInChillerL) / p.CoolL)
		beer := p.IntoFermenterWort.Plus(p.LateHoney)
		waterOut := beer.WaterKg + left.WaterKg + p.SteamL*waterKgPerL + p.SpentGrainWaterKg
		dryOut := beer.ExtractKg + left.ExtractKg + p.SpentGrainDryKg
		if math.Abs(waterIn-waterOut) > gram {
			t.Fatalf("water in %v kg, out %v", waterIn, waterOut)
		}
		if math.Abs(dryIn-dryOut) > gram {
			t.Fatalf("dry matter in %v kg, out %v", dryIn, dryOut)
		}
		// The vessel's masses and litres are the same wort.
		near := func(what string, a, b float64) {
			if math.Abs(a-b) > 1e-6 {
				t.Fatalf("%s: %v and %v", what, a, b)
			}
		}
		near("cool litres", p.CoolLiquid.VolumeL(), p.CoolL)
		near("into fermenter", p.IntoFermenterWort.VolumeL(), p.IntoFermenter)
		near("packaged", p.Packaged+p.LeftOnYeastL, p.FermenterL)
	})
}

// TestForwardUndoesBackward: the day run with the liquor it asks for fills the
// fermenter as asked.
func TestForwardUndoesBackward(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := anyBrew(t)
		back := water.For(d)
		forth, err := water.Forward(d, back.GrainExtractKg, back.MashLiquor, back.Sparge)
		if err != nil {
			t.Fatal(err)
		}
		a, b := back.Volumes, forth.Volumes
		for _, x := range [...][2]float64{
			{a.PreBoil, b.PreBoil}, {a.PostBoil, b.PostBoil}, {a.IntoFermenter, b.IntoFermenter}, {a.Packaged, b.Packaged},
			{back.CoolLiquid.ExtractKg, forth.CoolLiquid.ExtractKg}, {back.StrikeTemperatureC, forth.StrikeTemperatureC},
			{back.MashLevelL, forth.MashLevelL}, {back.LiquorLPerKg * back.GrainKg, forth.LiquorLPerKg * forth.GrainKg},
		} {
			if math.Abs(x[0]-x[1]) > 1e-7*(1+math.Abs(x[0])) {
				t.Fatalf("backward %+v\nforward  %+v", a, b)
			}
		}
	})
}

// TestWhereHoneyCounts: each moment moves the volumes after it and none before.
func TestWhereHoneyCounts(t *testing.T) {
	t.Parallel()
	kilogram := water.Honey(1, 17.5)
	with := func(boil, whirlpool, late water.Liquid) water.Plan {
		d := gateField()
		d.BoilHoney, d.WhirlpoolHoney, d.LateHoney = boil, whirlpool, late
		return water.For(d)
	}
	const room = 0.69 // L, about, of a kilogram of honey in wort
	none := with(water.Liquid{}, water.Liquid{}, water.Liquid{})
	for _, c := range []struct {
		moment                        string
		p                             water.Plan
		preBoil, postBoil, fermenterL float64 // what changes
	}{
		{"boil", with(kilogram, water.Liquid{}, water.Liquid{}), -room * 1.04, 0, 0},
		{"whirlpool", with(water.Liquid{}, kilogram, water.Liquid{}), -room * 1.04, -room * 1.04, 0},
		{"late", with(water.Liquid{}, water.Liquid{}, kilogram), 0, 0, room},
	} {
		p := c.p
		near(t, c.moment+" pre-boil", p.PreBoil-none.PreBoil, c.preBoil, 0.03)
		near(t, c.moment+" post-boil", p.PostBoil-none.PostBoil, c.postBoil, 0.03)
		near(t, c.moment+" fermenter", p.FermenterL-none.FermenterL, c.fermenterL, 0.03)
		near(t, c.moment+" into fermenter", p.IntoFermenter, 15, 1e-9)
	}
}

// heavy is pale malt of another mass.
func heavy(kg float64) water.Grist {
	malt := paleMalt
	malt.MassKg = kg
	return water.GristOf(malt)
}

// said is all of some warnings, a line each.
func said(all []water.Warning) string {
	var b strings.Builder
	for _, w := range all {
		b.WriteString(w.String() + "\n")
	}
	return b.String()
}

// TestWarnings: what does not fit is said, with what to change, and the numbers
// stay finite and not negative.
func TestWarnings(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(d *water.Input)
		says   string
		remedy string
	}{
		{"no sparge", func(d *water.Input) { d.LiquorLPerKg = 8 }, "no sparge", "mash.liquor_l_per_kg"},
		{"mash too large", func(d *water.Input) { d.Kit.VesselL = 10 }, "The mash takes", "less grain"},
		{"kettle too small", func(d *water.Input) { d.Kit.VesselL = 18 }, "before the boil", "smaller batch"},
		{"little head", func(d *water.Input) { d.Kit.VesselL = 20 }, "little room for foam", "stir it down"},
		{"boils dry", func(d *water.Input) { d.Kit.SteamLPerH, d.BoilMinutes = 20, 240 }, "boil dry", "boil.minutes"},
		{"weak heater", func(d *water.Input) { d.Kit.HeaterW = 1000 }, "can boil away 1.6 L/h", "kit.steam_l_per_h"},
		{"fermenter too small", func(d *water.Input) { d.Kit.FermenterL = 17 }, "foam over", "a larger one"},
		{"hops soak it up", func(d *water.Input) { d.HopsG = 400 }, "hops alone keep", "press"},
		{"syrup", func(d *water.Input) { d.Grist, d.IntoFermenterL = heavy(200), 1 }, "a syrup", "less grain"},
		{"strike too hot", func(d *water.Input) {
			d.LiquorLPerKg, d.GrainC, d.FirstRestC, d.Kit.UnderTheBedL = 1.5, -10, 80, 0
			d.AltitudeM, d.Kit.VesselHeatKJPerK = 4000, 0
		}, "Even boiling liquor", "mash.liquor_l_per_kg"},
		{"thick mash", func(d *water.Input) {
			d.Grist, d.IntoFermenterL, d.Kit.HeldByGrainLPerKg = heavy(6), 3, 0.3
		}, "too thick", "less grain"},
		{"boils down", func(d *water.Input) {
			d.Kit.VesselL, d.Kit.SteamLPerH = 13, 12
		}, "boils down to 1.0 L", "boil.minutes"},
		{"more extract than grain", func(d *water.Input) {
			d.Kit.MashEfficiencyPct, d.Grist = 100, water.GristOf(water.Malt{MassKg: 2.7, ExtractPct: 100})
		}, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := gateField()
			c.change(&d)
			p := water.For(d)
			all := said(p.Warnings)
			if c.says == "" {
				if strings.Contains(all, "weighs dry") {
					t.Errorf("all of the dry matter dissolved is possible, yet %q", all)
				}
				return
			}
			if !strings.Contains(all, c.says) || !strings.Contains(all, c.remedy) {
				t.Errorf("warnings %q do not say %q and %q", all, c.says, c.remedy)
			}
			for _, v := range []float64{p.MashLiquor, p.Sparge, p.PreBoil, p.PostBoil, p.IntoFermenter, p.Packaged, p.StrikeTemperatureC} {
				if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
					t.Errorf("%+v", p.Volumes)
				}
			}
		})
	}
}

// TestNoEmptyWarnings: what is not there is not warned of.
func TestNoEmptyWarnings(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(d *water.Input)
		not    string
	}{
		{"no grain", func(d *water.Input) { d.Grist, d.LiquorLPerKg = water.Grist{}, 1 }, "too thick"},
		{"no heater", func(d *water.Input) { d.Kit.HeaterW = 0 }, "can boil away"},
		{"no boil", func(d *water.Input) { d.Kit.HeaterW, d.BoilMinutes = 100, 0 }, "can boil away"},
		{"no boil in a small vessel", func(d *water.Input) { d.Kit.VesselL, d.BoilMinutes = 1, 0 }, "boils down"},
		{"no fermenter", func(d *water.Input) { d.Kit.FermenterL = 0 }, "foam over"},
	} {
		d := gateField()
		c.change(&d)
		for _, w := range water.For(d).Warnings {
			if strings.Contains(w.String(), c.not) {
				t.Errorf("%s: %s", c.name, w)
			}
		}
	}
}

// TestWaterAlone: without grain and honey the vessel holds water of 20 °C,
// 0.9982 kg to the litre.
func TestWaterAlone(t *testing.T) {
	t.Parallel()
	d := gateField()
	d.Grist, d.LateHoney = water.Grist{}, water.Liquid{}
	p := water.For(d)
	near(t, "water", p.CoolLiquid.WaterKg, 16.4*0.9982031, 1e-5)
	near(t, "gravity", p.PreBoilGravitySG, 1, 0)
}

// TestNoSpargeAdvice: who does as the warning says is not warned again.
func TestNoSpargeAdvice(t *testing.T) {
	t.Parallel()
	d := gateField()
	d.LiquorLPerKg = 8
	for _, w := range water.For(d).Warnings {
		_, after, found := strings.Cut(w.String(), "set the mash to ")
		if !found {
			continue
		}
		n, err := strconv.ParseFloat(strings.Fields(after)[0], 64)
		if err != nil {
			t.Fatal(err)
		}
		d.LiquorLPerKg = n
		if p := water.For(d); n < 3 || len(p.Warnings) != 0 {
			t.Errorf("at %v L/kg: %q", n, p.Warnings)
		}
		return
	}
	t.Error("no advice")
}

// TestNoSpargeBalances: with too much mash liquor the litres are still those
// that fill the fermenter.
func TestNoSpargeBalances(t *testing.T) {
	t.Parallel()
	d := gateField()
	want := water.For(d)
	d.LiquorLPerKg = 8
	p := water.For(d)
	near(t, "sparge", p.Sparge, 0, 0)
	near(t, "mash liquor", p.MashLiquor, want.MashLiquor+want.Sparge, 1e-9)
	near(t, "thickness", p.LiquorLPerKg, (p.MashLiquor-1.2)/2.7, 1e-9)
}

// TestForwardRunsDry: each way to have no wort is refused with a reason.
func TestForwardRunsDry(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		liquor  float64
		extract float64
		minutes float64
		says    string
	}{
		{"all in the grain", 2, 1.5, 60, "grain holds"},
		{"no wort for the extract", 3.0, 1.5, 60, "cannot hold"},
		{"boiled dry", 6, 1.5, 240, "the boil takes"},
		{"left behind", 3.5, 0.1, 0, "break and chiller"},
		{"not a number", math.NaN(), 1.5, 60, "grain holds"},
	} {
		d := gateField()
		d.BoilMinutes = c.minutes
		_, err := water.Forward(d, c.extract, c.liquor, 0)
		var dry *water.DryError
		if !errors.As(err, &dry) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.name, err, c.says)
		}
	}
}

// TestMoreAsksForMore: litres move the way they must.
func TestMoreAsksForMore(t *testing.T) {
	t.Parallel()
	liquor := func(change func(d *water.Input)) float64 {
		d := gateField()
		change(&d)
		p := water.For(d)
		return p.MashLiquor + p.Sparge
	}
	base := liquor(func(*water.Input) {})
	for name, change := range map[string]func(d *water.Input){
		"batch":   func(d *water.Input) { d.IntoFermenterL++ },
		"boil":    func(d *water.Input) { d.BoilMinutes += 30 },
		"steam":   func(d *water.Input) { d.Kit.SteamLPerH++ },
		"grain":   func(d *water.Input) { d.Grist = heavy(3.7) },
		"break":   func(d *water.Input) { d.Kit.LeftWithBreakL++ },
		"chiller": func(d *water.Input) { d.Kit.LeftInChillerL++ },
		"held":    func(d *water.Input) { d.Kit.HeldByGrainLPerKg += 0.1 },
	} {
		if got := liquor(change); got <= base {
			t.Errorf("more %s takes %v L, not more than %v", name, got, base)
		}
	}
}
