package calc

import (
	"math"
	"testing"

	"skep/assets/demotest"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/mash"
	"skep/calc/recipe"
)

// The course starts and ends where the prediction has it, falls between, and
// its bands are in order and hold its middle.
func TestCourse(t *testing.T) {
	t.Parallel()
	e := NewEngine()
	for _, name := range []string{"dry", "middle", "soft"} {
		d := demotest.Design(t, name)
		p, err := e.Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		c, err := e.Course(d, 0)
		if err != nil {
			t.Fatal(err)
		}
		last := len(c.Hours) - 1
		if got, want := c.GravitySG[0], p.OriginalGravitySG; math.Abs(got.Mid-want.Mid) > 1e-9 || math.Abs(got.Low-want.Low) > 1e-9 || math.Abs(got.High-want.High) > 1e-9 {
			t.Errorf("%s: starts at %v, predicted %v", name, got, want)
		}
		// Live enzymes of honey are still at work when the picture ends.
		if got, want := c.GravitySG[last], p.FinalGravitySG; math.Abs(got.Mid-want.Mid) > 4e-4 || math.Abs(got.Low-want.Low) > 4e-4 || math.Abs(got.High-want.High) > 4e-4 {
			t.Errorf("%s: ends at %v, predicted %v", name, got, want)
		}
		if c.HeightHours != p.HeightHours || c.HoneyWindowHours != p.HoneyWindowHours || c.FinishedHours != p.FinishedHours {
			t.Errorf("%s: other times than predicted", name)
		}
		for k := range c.Hours {
			for _, b := range []Band{c.GravitySG[k], c.CO2RateGPerLH[k]} {
				if !(b.Low <= b.Mid && b.Mid <= b.High) || math.IsInf(b.Low, 0) || math.IsInf(b.High, 0) {
					t.Fatalf("%s, hour %d: band %+v", name, k, b)
				}
			}
		}
		// A brewer puts planned honey in once: the band rises within that hour, and
		// falls in every other.
		late := 0
		for _, h := range d.Honey {
			if h.Moment == design.MomentFermenting && h.MassKg > 0 {
				late++
			}
		}
		for which, at := range map[string]func(Band) float64{
			"low": func(b Band) float64 { return b.Low }, "middle": func(b Band) float64 { return b.Mid }, "high": func(b Band) float64 { return b.High },
		} {
			rises := 0
			for k := 1; k < len(c.Hours); k++ {
				if at(c.GravitySG[k]) > at(c.GravitySG[k-1])+1e-9 {
					rises++
				}
			}
			if rises != late {
				t.Errorf("%s: the %s of the band rises in %d hours, expected %d", name, which, rises, late)
			}
		}
		// Without honey gravity only falls.
		plain := d.Clone()
		for i := range plain.Honey {
			plain.Honey[i].Moment = design.MomentPitching
		}
		falls, err := e.Course(plain, 0)
		if err != nil {
			t.Fatal(err)
		}
		for k := range falls.Hours {
			if k > 0 && falls.GravitySG[k].Mid > falls.GravitySG[k-1].Mid+1e-9 {
				t.Errorf("%s: gravity rises at hour %d", name, k)
			}
		}
		for i, h := range d.Honey {
			if want := c.HoneyHours[i]; h.Moment == design.MomentFermenting && math.Abs(want-h.HoursAfterHeight-p.HeightHours.Mid) > 1e-9 {
				t.Errorf("%s: honey.%d goes in at %v", name, i, want)
			}
		}
	}
	if _, err := e.Course(demotest.Design(t, "middle"), 9); err == nil {
		t.Error("the course of yeast 9")
	}
}

// A draw's course begins at its original gravity and ends in its mass balance,
// whenever its honey goes in, and whatever it has.
func TestTheCourseEndsInTheBalance(t *testing.T) {
	t.Parallel()
	e := NewEngine()
	for _, name := range []string{"dry", "middle", "soft"} {
		for _, moment := range []string{design.MomentBoil, design.MomentPitching, design.MomentFermenting} {
			d := demotest.Design(t, name)
			for i := range d.Honey {
				d.Honey[i].Moment = moment
			}
			b, err := e.Brew(d, 0)
			if err != nil {
				t.Fatal(err)
			}
			var x Draw
			for i := range e.draws[:32] {
				in := b.Inputs(&e.draws[i])
				b.Ferment(&in, &x)
				if got, want := x.At(0).GravitySG, density.QuickSG(x.OriginalPlato); math.Abs(got-want) > 1e-12 {
					t.Errorf("%s, honey %s: the course begins at %v, the wort has %v", name, moment, got, want)
				}
				if got := x.EndSG(2160); math.Abs(got-x.FinalGravitySG) > 1e-9 {
					t.Errorf("%s, honey %s: the course ends at %v, the balance at %v", name, moment, got, x.FinalGravitySG)
				}
				if got := x.At(2160).GravitySG; math.Abs(got-x.FinalGravitySG) > 2e-5 {
					t.Errorf("%s, honey %s: after 90 days the course stands at %v, the balance at %v", name, moment, got, x.FinalGravitySG)
				}
			}
		}
	}
}

// The mash is there over time, and ends where the prediction has it.
func TestMashCourse(t *testing.T) {
	t.Parallel()
	d := steps(t)
	points, err := mash.Course(recipe.MashInput(d, 0), 1)
	if err != nil {
		t.Fatal(err)
	}
	w := middleDraw(t, d)
	last := points[len(points)-1]
	if len(points) < 80 || points[0].BetaLeft != 1 || last.BetaLeft > 0.2 {
		t.Errorf("%d points, beta-amylase from %v to %v", len(points), points[0].BetaLeft, last.BetaLeft)
	}
	// The middle beer's response is a little flatter than the laboratory's.
	if math.Abs(last.Wort.Maltose-w.MashWort.Maltose) > 0.01 || math.Abs(last.Conversion-w.Conversion) > 0.001 {
		t.Errorf("the course ends with maltose %v, conversion %v; predicted from %v, %v", last.Wort.Maltose, last.Conversion, w.MashWort.Maltose, w.Conversion)
	}
}
