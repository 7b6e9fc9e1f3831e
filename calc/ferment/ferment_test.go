package ferment

import (
	"math"
	"strings"
	"testing"

	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/message"
	"skep/calc/sugar"
	"skep/calc/yeast"
)

// Balling: OE = 100 (2.0665 A + RE)/(100 + 1.0665 A) (Nielsen et al.; EBC).
// The gravity made by the mass balance must give the same original extract
// back through the inverse formulas.
func TestGravityIsBallings(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ plato, fermented float64 }{{8, 0.5}, {12, 0.64}, {12, 0}, {16, 0.8}, {20, 0.7}, {12, 1}} {
		extract := density.GramsPerLitre(c.plato)
		sg := GravitySG(extract, c.fermented*extract)
		re := alcohol.RealExtract(c.plato, density.PlatoFromSG(sg))
		a := alcohol.ABW(c.plato, re)
		f := c.plato * c.fermented
		// 100 g of wort leave 100 - 1.0665 f/2.0665 g of beer with f/2.0665 g of ethanol.
		want := 100 * (f / 2.0665) / (100 - 1.0665*f/2.0665)
		near(t, "alcohol by mass", a, want, 1e-9)
	}
	if sg := GravitySG(100, 100); sg >= 1 {
		t.Errorf("a beer with nothing left shows %v, expected below 1", sg)
	}
	if sg := GravitySG(0, 0); sg != 1 {
		t.Errorf("water shows %v", sg)
	}
}

func TestFinalGravityIsTheMassBalance(t *testing.T) {
	t.Parallel()
	for _, in := range []Input{ale(), honeyAle()} {
		in.HorizonHours = 900
		c := mustRun(t, in)
		last := len(c.Hours) - 1
		near(t, "gravity at the end", c.GravitySG[last], c.FinalSG, 1e-6)
		near(t, "share attenuated at the end", c.Attenuated[last], 1, 1e-6)
		// The balance by hand: what the strain takes of the wort and 93 % of
		// the honey, in the volume of both.
		fermented := 125.6 * (0.135 + 0.43 + 0.065)
		extract, volume := 125.6, 1.0
		if len(in.Additions) > 0 {
			fermented += 0.93 * 37
			extract += 37
			volume = 1.03
		}
		near(t, "final gravity", c.FinalSG, GravitySG(extract/volume, fermented/volume), 1e-9)
		near(t, "carbon dioxide", c.CO2TotalGPerL[last], fermented*0.9565/2.0665, 1e-4)
	}
}

func TestWhatTheStrainCannotTakeStays(t *testing.T) {
	t.Parallel()
	in := Input{Wort: wort12, TemperatureC: 20, HorizonHours: 600}
	in.Take = yeast.Take{Simple: 1, Maltose: 0.4}
	c := mustRun(t, in)
	last := len(c.Hours) - 1
	want := 125.6 * (0.135 + 0.4*0.43)
	near(t, "fermented of simple sugars and 40 % of the maltose", c.CO2TotalGPerL[last]*2.0665/0.9565, want, 1e-3)
}

// Honey past the height: maltose waits while the simple sugars last, gravity
// steps up by the mass balance, the rate of gas rises.
func TestHoneySlowsMaltose(t *testing.T) {
	t.Parallel()
	in := ale()
	in.Additions = []Addition{{Hours: 55, Sugars: sugar.Spectrum{Glucose: 40}, VolumeShare: 0}}
	maltose := func(in Input) map[float64]float64 {
		m := map[float64]float64{}
		if _, err := run(in, usualTolerance, func(h float64, y *State) { m[h] = y[iM] }); err != nil {
			t.Fatal(err)
		}
		return m
	}
	plain, honeyed := maltose(ale()), maltose(in)
	near(t, "maltose just before", honeyed[54], plain[54], 1e-3)
	before, after := plain[55]-plain[60], honeyed[55]-honeyed[60]
	if !(after < 0.8*before && after > 0) {
		t.Errorf("with 40 g/L of glucose %.2f mol/m³ of maltose go in five hours, without %.2f: expected clearly less", after, before)
	}
	c := mustRun(t, in)
	near(t, "gravity with the honey in", c.GravitySG[55],
		GravitySG(125.6+40, c.CO2TotalGPerL[55]*2.0665/0.9565), 1e-9)
	if c.GravitySG[55] <= c.GravitySG[54] {
		t.Error("gravity does not step up with honey")
	}
	if c.CO2RateGPerLH[56] <= 1.05*c.CO2RateGPerLH[54] {
		t.Errorf("the rate goes from %.3f to %.3f, expected a clear rise", c.CO2RateGPerLH[54], c.CO2RateGPerLH[56])
	}
}

func TestAdditionsStandWhereAsked(t *testing.T) {
	t.Parallel()
	plain := mustRun(t, ale())
	c := mustRun(t, honeyAle())
	near(t, "height, honey or not", c.HeightHours, plain.HeightHours, 1e-9)
	near(t, "opening, honey or not", c.Window[0], plain.Window[0], 1e-9)
	near(t, "addition", c.AdditionHours[0], plain.HeightHours+12, 1e-9)

	in := honeyAle()
	in.Additions[0].Hours = -48
	c = mustRun(t, in)
	if c.AdditionHours[0] != 0 || len(c.Warnings) != 1 || !strings.Contains(c.Warnings[0].String(), "before pitching") {
		t.Errorf("honey 48 h before the height: at %v with %q, expected at pitching with a warning", c.AdditionHours[0], c.Warnings)
	}
	in.Additions[0] = Addition{Sugars: honeyGPerL, Fermentable: 0.93, VolumeShare: 0.03}
	d := mustRun(t, in)
	near(t, "final gravity, honey at pitching either way", c.FinalSG, d.FinalSG, 1e-12)
	near(t, "gravity at 40 h, honey at pitching either way", c.GravitySG[40], d.GravitySG[40], 1e-6)
}

// Litres of gas per litre of beer: 12 °P to 4 % by mass about 20, 1 kg of
// honey in 20 L about 10 more (design notes, section 5); in between it falls.
func TestCO2Still(t *testing.T) {
	t.Parallel()
	c := mustRun(t, honeyAle())
	total := c.CO2AfterLPerL(0)
	near(t, "gas in all", total, (125.6*0.63+0.93*37)*0.46286/1.03/1.8295, 0.02)
	for h := 0.0; h < 300; h += 7.3 {
		if a, b := c.CO2AfterLPerL(h), c.CO2AfterLPerL(h+1); b > a+1e-9 || b < 0 {
			t.Fatalf("gas still to come rises from %v to %v at %v h", a, b, h)
		}
	}
	near(t, "gas before pitching", c.CO2AfterLPerL(-5), total, 0)
	if late := c.CO2AfterLPerL(1e6); late > 0.01*total {
		t.Errorf("%v litres still come after the end", late)
	}
}

func TestDiastaticStrainIsSlow(t *testing.T) {
	t.Parallel()
	in := Input{Wort: wort12, Take: yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 1, Dextrin: 0.5}, TemperatureC: 22}
	c := mustRun(t, in)
	// Two to three weeks (common practice, no source).
	if d := c.FinishedHours / 24; d < 8 || d > 21 {
		t.Errorf("a diastatic strain is finished after %.1f days, expected two weeks or so", d)
	}
	if fg := c.GravitySG[len(c.Hours)-1]; fg > 1.003 {
		t.Errorf("and ends at %.4f", fg)
	}
}

func TestHotterAndColderThanKnownIsHeld(t *testing.T) {
	t.Parallel()
	for _, p := range []struct{ asked, held float64 }{{38, WarmestC}, {1, ColdestC}} {
		in := ale()
		in.TemperatureC = p.asked
		c := mustRun(t, in)
		in.TemperatureC = p.held
		d := mustRun(t, in)
		near(t, "height", c.HeightHours, d.HeightHours, 1e-9)
		if len(c.Warnings) != 1 || len(d.Warnings) != 0 {
			t.Errorf("warnings at %v °C: %q, at %v °C: %q", p.asked, c.Warnings, p.held, d.Warnings)
		}
	}
}

func TestBadInputIsRefused(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	for name, change := range map[string]func(*Input){
		"temperature is NaN":              func(in *Input) { in.TemperatureC = nan },
		"temperature is -3":               func(in *Input) { in.TemperatureC = -3 },
		"temperature is 60":               func(in *Input) { in.TemperatureC = 60 },
		"lag is -1":                       func(in *Input) { in.LagHours = -1 },
		"rate factor is +Inf":             func(in *Input) { in.RateFactor = math.Inf(1) },
		"pitch is -9":                     func(in *Input) { in.PitchBillionPerL = -9 },
		"take of maltose is 1.2":          func(in *Input) { in.Take.Maltose = 1.2 },
		"take of dextrin is NaN":          func(in *Input) { in.Take.Dextrin = nan },
		"wort maltose is -1":              func(in *Input) { in.Wort.Maltose = -1 },
		"addition 1 glucose is -20":       func(in *Input) { in.Additions = []Addition{{Sugars: sugar.Spectrum{Glucose: -20}}} },
		"addition 1 at is NaN":            func(in *Input) { in.Additions = []Addition{{Hours: nan}} },
		"addition 1 volume share is -1":   func(in *Input) { in.Additions = []Addition{{VolumeShare: -1}} },
		"addition 1 fermentable share":    func(in *Input) { in.Additions = []Addition{{Fermentable: 2}} },
		"extract in all is 945.6":         func(in *Input) { in.Additions = []Addition{{Sugars: sugar.Spectrum{Maltose: 410, Dextrin: 410}}} },
		"addition 1 at is -3000":          func(in *Input) { in.Additions = []Addition{{Hours: -3000}} },
		"extract in all is 900":           func(in *Input) { in.Wort = sugar.Spectrum{Maltose: 450, Dextrin: 450} },
		"horizon is 1e+09, expected 1 to": func(in *Input) { in.HorizonHours = 1e9 },
	} {
		in := ale()
		change(&in)
		if _, err := Run(in); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("Run says %v, expected %q", err, name)
		}
	}
}

func TestNoCourseAtAll(t *testing.T) {
	t.Parallel()
	var c Course
	if sg, co2 := c.At(12); sg != 1 || co2 != 0 || c.CO2AfterLPerL(3) != 0 {
		t.Errorf("an empty course shows %v, %v", sg, co2)
	}
}

func TestNothingFerments(t *testing.T) {
	t.Parallel()
	for name, in := range map[string]Input{
		"a strain that takes nothing": {Wort: wort12, TemperatureC: 20},
		"water":                       {Take: neutralAle, TemperatureC: 20},
	} {
		c := mustRun(t, in)
		if why := sound(&c); why != "" {
			t.Errorf("%s: %s", name, why)
		}
		if len(c.Warnings) == 0 {
			t.Errorf("%s: no warning", name)
		}
		near(t, name+": final gravity", c.FinalSG, c.GravitySG[0], 0)
	}
}

// Honey alone, and honey into a wort that does not ferment.
func TestOnlyHoneyFerments(t *testing.T) {
	t.Parallel()
	mead := Input{TemperatureC: 20, Take: neutralAle, Additions: []Addition{{Sugars: honeyGPerL.Times(6), Fermentable: 0.95}}}
	c := mustRun(t, mead)
	if why := sound(&c); why != "" {
		t.Error(why)
	}
	if len(c.Warnings) != 0 {
		t.Errorf("20 °P of honey warns %q", c.Warnings)
	}
	if c.FinalSG >= 1.005 {
		t.Errorf("honey alone ends at %.4f", c.FinalSG)
	}
	strong := mead
	strong.Additions = []Addition{{Sugars: honeyGPerL.Times(9), Fermentable: 0.95}}
	if c := mustRun(t, strong); len(c.Warnings) != 1 || !strings.Contains(c.Warnings[0].String(), "above 1.101") {
		t.Errorf("29 °P of honey warns %q", c.Warnings)
	}
	late := Input{Wort: wort12, TemperatureC: 20, Additions: []Addition{{AfterHeight: true, Hours: 24, Sugars: honeyGPerL, Fermentable: 0.93}}}
	c = mustRun(t, late)
	if why := sound(&c); why != "" {
		t.Error(why)
	}
	near(t, "honey counts from the end of the lag", c.AdditionHours[0], UsualLagHours+24, 1e-9)
	if c.FinishedHours <= c.AdditionHours[0] {
		t.Errorf("finished at %v h, before the honey", c.FinishedHours)
	}
}

// One sugar alone, all fermented, warms the wort by its own heat: 91.2, 226.3
// and 361.3 kJ/mol of hexose, maltose and maltotriose (Gee & Ramirez 1994), 4.19
// kJ/(L K). An ordinary wort makes some 587 kJ for a kilogram of extract
// fermented (a textbook's figure, from memory), honey included.
func TestHeat(t *testing.T) {
	t.Parallel()
	all := yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 1, Dextrin: 1}
	for _, c := range []struct {
		wort  sugar.Spectrum
		kJMol float64
		gMol  float64
	}{
		{sugar.Spectrum{Glucose: 50}, 91.2, 180.156}, {sugar.Spectrum{Fructose: 50}, 91.2, 180.156},
		{sugar.Spectrum{Maltose: 50}, 226.3, 342.297}, {sugar.Spectrum{Maltotriose: 50}, 361.3, 504.438},
		{sugar.Spectrum{Dextrin: 50}, 91.2, 180.156},
	} {
		got := mustRun(t, Input{Wort: c.wort, Take: all, TemperatureC: 20})
		near(t, "rise", got.AdiabaticRiseK, 50/c.gMol*c.kJMol/4.19, 1e-6)
		// The same sugar added later, in a tenth more volume, warms that much.
		late := mustRun(t, Input{Wort: c.wort, Take: all, TemperatureC: 20, Additions: []Addition{{Hours: 60, Sugars: c.wort, Fermentable: 1, VolumeShare: 0.1}}})
		near(t, "rise with as much again", late.AdiabaticRiseK, 2*got.AdiabaticRiseK/1.1, 1e-6)
	}
	for _, in := range []Input{ale(), honeyAle()} {
		c := mustRun(t, in)
		fermented := c.CO2TotalGPerL[len(c.Hours)-1] / CO2PerExtract
		if in.Additions != nil {
			fermented /= 1.03
		}
		near(t, "heat, kJ/kg", c.AdiabaticRiseK*4.19/fermented*1000, 587, 0.15*587)
	}
}

// Between the hours gravity and gas go the straight way.
func TestBetweenTheHours(t *testing.T) {
	t.Parallel()
	c := mustRun(t, ale())
	for h := 0; h < 150; h++ {
		for _, u := range []float64{0, 0.25, 0.5, 1} {
			sg, co2 := c.At(float64(h) + u)
			near(t, "gas", co2, (1-u)*c.CO2TotalGPerL[h]+u*c.CO2TotalGPerL[h+1], 1e-9)
			near(t, "gravity", sg, (1-u)*c.GravitySG[h]+u*c.GravitySG[h+1], 1e-5)
		}
	}
}

// Additions may be listed in any order.
func TestOrderOfTheList(t *testing.T) {
	t.Parallel()
	a := Addition{Hours: 40, Sugars: sugar.Spectrum{Glucose: 20}, Fermentable: 1}
	b := Addition{Hours: 90, Sugars: sugar.Spectrum{Glucose: 30}, Fermentable: 1, VolumeShare: 0.02}
	c := Addition{AfterHeight: true, Hours: 100, Sugars: sugar.Spectrum{Maltose: 10}, Fermentable: 1}
	run := func(list ...Addition) Course {
		in := ale()
		in.Additions = list
		return mustRun(t, in)
	}
	want := run(a, b, c)
	for _, got := range []Course{run(b, a, c), run(c, b, a), run(b, c, a), run(a, c, b), run(c, a, b)} {
		near(t, "finish", got.FinishedHours, want.FinishedHours, 1e-6)
		for h := range want.Hours {
			near(t, "gravity", got.GravitySG[h], want.GravitySG[h], 1e-9)
		}
	}
}

// The yeast starts as pitched and grows; a course is written a day beyond its
// finish, however short it was asked for, and as far as it was asked for.
func TestYeastAndHorizon(t *testing.T) {
	t.Parallel()
	in := ale()
	in.PitchBillionPerL, in.HorizonHours = 7, 1
	c := mustRun(t, in)
	near(t, "yeast at pitching", c.YeastBillionPerL[0], 7, 1e-9)
	for i := range c.Hours[1:] {
		if c.YeastBillionPerL[i+1] < c.YeastBillionPerL[i]-1e-9 {
			t.Fatalf("yeast falls at hour %d", i)
		}
	}
	last := c.Hours[len(c.Hours)-1]
	near(t, "end of the course", last, math.Ceil(c.FinishedHours)+24, 0)
	in.HorizonHours = 700
	c = mustRun(t, in)
	near(t, "end as asked", c.Hours[len(c.Hours)-1], 700, 0)
}

// A course may not write beyond 90 days, even when nothing moves.
func TestStuckEnds(t *testing.T) {
	t.Parallel()
	in := ale()
	in.TemperatureC, in.RateFactor, in.PitchBillionPerL = 4, 0.05, 0.1
	c := mustRun(t, in)
	if len(c.Hours) != longestHours+1 {
		t.Errorf("%d hours", len(c.Hours))
	}
	if len(c.Warnings) == 0 || !strings.Contains(message.InEnglish(c.Warnings, " "), "not finished") {
		t.Errorf("warnings %q", c.Warnings)
	}
	if why := sound(&c); why != "" {
		t.Error(why)
	}
}

// Two additions within 1e-15 h of each other, and three at one moment: no step is
// left between them, and none is asked for.
func TestAdditionsAtNearlyOneMoment(t *testing.T) {
	t.Parallel()
	one := ale()
	one.Additions = []Addition{{Hours: 50, Sugars: sugar.Spectrum{Glucose: 30}, Fermentable: 1, VolumeShare: 0.03}}
	want := mustRun(t, one)
	third := Addition{Sugars: sugar.Spectrum{Glucose: 10}, Fermentable: 1, VolumeShare: 0.01}
	for _, hours := range [][3]float64{{50, 50, 50}, {50, 50 + 1e-15, 50 - 7e-15}, {50, math.Nextafter(50, 60), math.Nextafter(50, 0)}, {50, 50 + 1e-9, 50 + 2e-7}} {
		in := ale()
		for _, h := range hours {
			third.Hours = h
			in.Additions = append(in.Additions, third)
		}
		c := mustRun(t, in)
		if why := sound(&c); why != "" {
			t.Fatal(why)
		}
		near(t, "finish", c.FinishedHours, want.FinishedHours, 1e-3)
		for h := range want.Hours {
			if h != 50 { // then some are in and some not
				near(t, "gravity", c.GravitySG[h], want.GravitySG[h], 1e-6)
			}
		}
	}
}

func TestClockRunsBothWays(t *testing.T) {
	t.Parallel()
	for _, c := range []clock{{8, 1, 0, 0}, {3, 1.5, 0, 0}, {15, 0.6, 0, 0}, {0.01, 20, 0, 0}, {8, 1, 1.6, 30}, {12, 0.8, 0.7, 40}} {
		before := -1.0
		for tau := 0.0; tau < 60; tau += 0.37 {
			wall := c.wall(tau)
			got, _ := c.yeast(wall)
			near(t, "yeast(wall)", got, tau, 1e-9)
			if wall < before {
				t.Fatalf("%v: the clock runs back at %v", c, tau)
			}
			before = wall
		}
		if c.half == 0 { // The lag is the time lost.
			end := 1.5*c.lag + 10
			tau, activity := c.yeast(end)
			near(t, "time lost", end-tau/c.s, c.lag, 1e-9)
			near(t, "activity", activity, c.s, 0)
		} else { // The half-way hour stays.
			plain := clock{lag: c.lag, s: c.s}
			near(t, "half-way", c.wall(c.half), plain.wall(c.half), 1e-9)
		}
		// Activity is the slope.
		for _, u := range []float64{0.6, 0.9, 1.2, 1.49, 1.6} {
			at, d := u*c.lag, 1e-6*c.lag
			up, _ := c.yeast(at + d)
			down, _ := c.yeast(at - d)
			_, a := c.yeast(at)
			near(t, "slope", (up-down)/(2*d), a, 1e-4*c.s)
		}
	}
}

// Rate and lag are a change of clock: the wort's own milestones move by it
// exactly, once activity is full.
func TestTheClockScales(t *testing.T) {
	t.Parallel()
	middle := mustRun(t, ale())
	for _, z := range [][2]float64{{1.5, 0}, {-2, 0}, {0, 1}, {0, -1}, {1, -1.5}} {
		in := ale()
		in.RateFactor, in.LagHours = RateFactor(z[0]), UsualLagHours*LagFactor(z[1])
		c := mustRun(t, in)
		at := func(hours float64) float64 { return in.LagHours + (hours-UsualLagHours)/in.RateFactor }
		near(t, "height", c.HeightHours, at(middle.HeightHours), 1e-6)
		near(t, "opening", c.Window[0], at(middle.Window[0]), 1e-6)
		near(t, "closing", c.Window[1], at(middle.Window[1]), 1e-6)
		near(t, "finish", c.FinishedHours, at(middle.FinishedHours), 1e-6)
	}
}

// In the heart of the start-up the height must move without a jump.
func TestHeightIsSmoothInTheLag(t *testing.T) {
	t.Parallel()
	at := func(z float64) Course {
		in := ale()
		in.TemperatureC, in.LagHours, in.HorizonHours = 28, UsualLagHours*LagFactor(z), 1
		return mustRun(t, in)
	}
	before := at(-2.5)
	for z := -2.45; z < 2; z += 0.05 { // a lag of 2 to 52 h
		now := at(z)
		lagStep := 0.05 / 1.28155 * math.Log(lagSpread) * UsualLagHours * LagFactor(z) * 1.2
		for i, d := range []float64{now.HeightHours - before.HeightHours, now.Window[0] - before.Window[0], now.Window[1] - before.Window[1]} {
			if d < -0.02 || d > lagStep+0.02 {
				t.Fatalf("milestone %d moves by %.3f h in one step at a score of %.2f", i, d, z)
			}
		}
		before = now
	}
}

// A temperature programme: exact against two walks glued by hand, since all that
// a temperature does is to run the yeast's clock faster.
func TestTemperatureProgramme(t *testing.T) {
	t.Parallel()
	pitched := Pitched{Fermentable: neutralAle.Fermented(wort12), TemperatureC: 12, LagHours: 8, RateFactor: 1}
	var plain, warmed Walk
	plain.Run(pitched, nil)
	warmed.Run(pitched, []Event{{Change: true, AtShare: 0.5, ToC: 20}})
	k := Trade()
	if len(warmed.Events) != 1 {
		t.Fatalf("events %+v", warmed.Events)
	}
	at := warmed.Events[0].Hours
	near(t, "half is done at the step", warmed.At(at).FermentedGPerL, plain.AllGPerL()/2, 1e-3)
	faster := k.Activity(20) / k.Activity(12)
	for _, h := range []float64{1, 10, 30, 60} {
		near(t, "fermented after the step", warmed.At(at+h).FermentedGPerL, plain.At(at+h*faster).FermentedGPerL, 1e-2)
	}
	near(t, "finish", warmed.FinishedHours-at, (plain.FinishedHours-at)/faster, 0.05)
	// A cold crash all but stops it.
	var crashed Walk
	crashed.Run(pitched, []Event{{Change: true, Hours: at, ToC: 2}})
	if a, b := crashed.At(at+48).FermentedGPerL-crashed.At(at).FermentedGPerL, plain.At(at+48).FermentedGPerL-plain.At(at).FermentedGPerL; !(a < 0.5*b && a > 0) {
		t.Errorf("two days at 2 °C ferment %.1f g/L, at 12 °C %.1f", a, b)
	}
}
