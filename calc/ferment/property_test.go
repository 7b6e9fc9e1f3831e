package ferment

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/sugar"
	"skep/calc/yeast"
)

func drawSugars(r *rapid.T, name string, most float64) sugar.Spectrum {
	v := func(kind string, share float64) float64 { return rapid.Float64Range(0, share*most).Draw(r, name+kind) }
	return sugar.Spectrum{
		Glucose: v("glucose", 0.2), Fructose: v("fructose", 0.1), Sucrose: v("sucrose", 0.1), Maltose: v("maltose", 0.5),
		Maltotriose: v("maltotriose", 0.2), Dextrin: v("dextrin", 0.3), Other: v("other", 0.1),
	}
}

func drawInput(r *rapid.T) Input {
	share := rapid.Float64Range(0, 1)
	in := Input{
		Wort: drawSugars(r, "wort ", 200),
		Take: yeast.Take{Simple: share.Draw(r, "simple"), Maltose: share.Draw(r, "maltose"),
			Maltotriose: share.Draw(r, "maltotriose"), Dextrin: share.Draw(r, "dextrin")},
		TemperatureC:     rapid.Float64Range(0, 50).Draw(r, "temperature"),
		PitchBillionPerL: rapid.Float64Range(0.1, 100).Draw(r, "pitch"),
		LagHours:         rapid.Float64Range(0.1, 60).Draw(r, "lag"),
		RateFactor:       rapid.Float64Range(0.2, 5).Draw(r, "rate"),
	}
	for range rapid.IntRange(0, 3).Draw(r, "additions") {
		in.Additions = append(in.Additions, Addition{
			AfterHeight: rapid.Bool().Draw(r, "after height"),
			Hours:       rapid.Float64Range(-60, 240).Draw(r, "hours"),
			Sugars:      drawSugars(r, "honey ", 80),
			Fermentable: share.Draw(r, "fermentable"),
			VolumeShare: rapid.Float64Range(0, 0.2).Draw(r, "volume"),
		})
	}
	return in
}

func TestEveryCourseIsSound(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		if why := unsound(drawInput(r)); why != "" {
			r.Fatal(why)
		}
	})
}

// A little that goes in last, after the finish of all before it: the course was
// once written down only to there, and ended below its own end.
func TestALateLittleIsInTheCourse(t *testing.T) {
	t.Parallel()
	even := sugar.Spectrum{Glucose: 1, Fructose: 1, Sucrose: 1, Maltose: 1, Maltotriose: 1, Dextrin: 1, Other: 1}
	in := Input{
		Wort: even, Take: yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 1, Dextrin: 0.5},
		TemperatureC: 1, PitchBillionPerL: 1, LagHours: 1, RateFactor: 1.75,
		Additions: []Addition{
			{Hours: 1, Sugars: even, Fermentable: 0.5, VolumeShare: 0.2},
			{Hours: 1, Sugars: even, Fermentable: 0.5, VolumeShare: 0.2},
			{AfterHeight: true, Hours: 240, Sugars: even, Fermentable: 1.0 / 256, VolumeShare: 0.2},
		},
	}
	in.Wort.Sucrose = 20
	if why := unsound(in); why != "" {
		t.Error(why)
	}
}

// unsound says what is wrong with the course of an input; empty: nothing.
func unsound(in Input) string {
	c, err := Run(in)
	if err != nil {
		return err.Error()
	}
	if why := sound(&c); why != "" {
		return why
	}
	// Mass: what is fermented, what can still be and what never will are all
	// that went in.
	last := len(c.Hours) - 1
	s := c.stepAt(c.Hours[last])
	if done := c.CO2TotalGPerL[last] / CO2PerExtract; done+c.FermentableGPerL[last] > s.extract+1e-6 {
		return fmt.Sprintf("%v g/L fermented and %v to come of %v", done, c.FermentableGPerL[last], s.extract)
	}
	// As the fermentable goes, gravity goes to the mass balance.
	gap := c.GravitySG[last] - c.FinalSG
	if left := 1 - c.Attenuated[last]; gap < -1e-9 || gap > left*0.5+1e-9 {
		return fmt.Sprintf("gravity is %v above its end with %v left", gap, left)
	}
	return ""
}

// Warmer, more yeast: everything earlier. Compared where the rates follow
// temperature.
func TestWarmerAndMoreYeastIsSooner(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		in := ale()
		in.TemperatureC = rapid.Float64Range(5, 28).Draw(r, "temperature")
		in.PitchBillionPerL = rapid.Float64Range(3, 30).Draw(r, "pitch")
		in.Take.Maltotriose = rapid.Float64Range(0, 1).Draw(r, "maltotriose")
		a, err := Run(in)
		if err != nil {
			r.Fatal(err)
		}
		warm, more := in, in
		warm.TemperatureC++
		more.PitchBillionPerL *= 1.2
		for what, other := range map[string]Input{"warmer": warm, "more yeast": more} {
			b, err := Run(other)
			if err != nil {
				r.Fatal(err)
			}
			if !(b.HeightHours < a.HeightHours && b.Window[0] < a.Window[0] && b.Window[1] < a.Window[1] && b.FinishedHours < a.FinishedHours) {
				r.Fatalf("%s: %+v after %+v", what, b.Times, a.Times)
			}
			if b.FinalSG != a.FinalSG {
				r.Fatalf("%s: the end moves from %v to %v", what, a.FinalSG, b.FinalSG)
			}
		}
	})
}

// Small moves of an input are small moves of the milestones, over the worts
// and temperatures that are brewed: no second peak takes over.
func TestMilestonesDoNotJump(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		in := ale()
		in.TemperatureC = rapid.Float64Range(8, 30).Draw(r, "temperature")
		// Simple sugars 9 to 40 % of extract: all malt to much honey in the boil.
		simple := rapid.Float64Range(0.09, 0.40).Draw(r, "simple")
		in.Wort = wort12.Times((1 - simple) / (1 - 0.135))
		in.Wort.Glucose, in.Wort.Fructose, in.Wort.Sucrose = simple*125.6/2, simple*125.6/2, 0
		a, err := Run(in)
		if err != nil {
			r.Fatal(err)
		}
		in.Wort.Glucose *= 1.01
		in.TemperatureC += 0.05
		b, err := Run(in)
		if err != nil {
			r.Fatal(err)
		}
		if d := math.Abs(b.HeightHours/a.HeightHours - 1); d > 0.03 {
			r.Fatalf("the height jumps from %v to %v", a.HeightHours, b.HeightHours)
		}
		if d := math.Abs(b.Window[0]/a.Window[0] - 1); d > 0.03 {
			r.Fatalf("the opening jumps from %v to %v", a.Window[0], b.Window[0])
		}
	})
}

// One addition given as two halves at the same moment is the same brew, and
// an empty one is none.
func TestAdditionsAdd(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		in := ale()
		a := Addition{AfterHeight: true, Hours: rapid.Float64Range(-10, 100).Draw(r, "hours"),
			Sugars: honeyGPerL, Fermentable: rapid.Float64Range(0.5, 1).Draw(r, "fermentable"), VolumeShare: 0.04}
		in.Additions = []Addition{a}
		one, err := Run(in)
		if err != nil {
			r.Fatal(err)
		}
		half := a
		half.Sugars, half.VolumeShare = a.Sugars.Times(0.5), 0.02
		in.Additions = []Addition{half, {AfterHeight: true, Hours: 5}, half}
		two, err := Run(in)
		if err != nil {
			r.Fatal(err)
		}
		if math.Abs(one.FinalSG-two.FinalSG) > 1e-9 || math.Abs(one.FinishedHours-two.FinishedHours) > 0.05 {
			r.Fatalf("whole %v %v, halves %v %v", one.FinalSG, one.FinishedHours, two.FinalSG, two.FinishedHours)
		}
		for _, h := range []int{30, 60, 120} {
			if math.Abs(one.GravitySG[h]-two.GravitySG[h]) > 1e-6 {
				r.Fatalf("at %d h whole %v, halves %v", h, one.GravitySG[h], two.GravitySG[h])
			}
		}
	})
}

func FuzzRun(f *testing.F) {
	f.Add(20.0, 9.0, 8.0, 1.0, 10.0, 50.0, 15.0, 30.0, 1.0, 0.5, 12.0, 30.0, 0.93, 0.03, true)
	f.Add(4.0, 0.1, 0.01, 0.05, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, -48.0, 0.0, 0.0, 0.0, true)
	f.Add(math.NaN(), -1.0, math.Inf(1), 20.0, 700.0, 1e-300, 1e308, math.Copysign(0, -1), 1.0, 1.0, 2160.0, 1e-9, 1.0, 1.0, false)
	f.Add(50.0, 500.0, 120.0, 20.0, 0.0, 300.0, 0.0, 0.0, 1.0, 1.0, 2160.0, 300.0, 1.0, 1.0, true)
	f.Fuzz(func(t *testing.T, temp, pitch, lag, rate, glucose, maltose, triose, dextrin, take, takeD, hours, honey, fermentable, volume float64, after bool) {
		in := Input{
			Wort:         sugar.Spectrum{Glucose: glucose, Maltose: maltose, Maltotriose: triose, Dextrin: dextrin},
			Take:         yeast.Take{Simple: 1, Maltose: take, Maltotriose: take * take, Dextrin: takeD},
			TemperatureC: temp, PitchBillionPerL: pitch, LagHours: lag, RateFactor: rate,
			Additions: []Addition{{AfterHeight: after, Hours: hours, Sugars: sugar.Spectrum{Fructose: honey, Maltose: honey / 20},
				Fermentable: fermentable, VolumeShare: volume}},
		}
		c, err := Run(in)
		if err != nil {
			return
		}
		if why := sound(&c); why != "" {
			t.Fatal(why)
		}
	})
}
