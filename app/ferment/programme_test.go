package ferment

import (
	"math"
	"strings"
	"testing"

	"skep/app/stage"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/plotting"
)

// Steps are added, typed over, counted the other way and taken out; the course
// and the file follow.
func TestTemperatureProgramme(t *testing.T) {
	s := fermenting(t, 20, pitchedBatch()...)
	g := s.ferment.Side.programme
	s.ferment.Side.Turn(3)
	s.WaitIdle()
	start := s.Design().Yeast[0].TemperatureC
	plain := s.ferment.Batch().After.FinishedHours.Mid

	g.addRest()
	g.addCrash()
	s.WaitIdle()
	d := s.Design()
	if len(d.Temperature) != 2 || d.Temperature[0].AtAttenuationPct != restAtPct || d.Temperature[0].TemperatureC != start+restWarmerK || d.Temperature[1].AtHours < plain || d.Temperature[1].TemperatureC != crashToC {
		t.Fatalf("a rest and a crash are %+v", d.Temperature)
	}
	if n := len(g.steps.rows); n != 2 || g.steps.rows[0].to.Text == "" {
		t.Fatalf("%d rows stand there", n)
	}
	after := &s.ferment.Batch().After
	steps := plotting.StretchesOf(after.Hours, after.TemperatureC)
	if len(steps) != 3 || math.Abs(steps[1].TemperatureC-start-restWarmerK) > 1e-9 || math.Abs(steps[2].TemperatureC-crashToC) > 1e-9 || steps[2].FromHours != d.Temperature[1].AtHours {
		t.Errorf("the course is kept at %+v", steps)
	}

	g.steps.rows[0].to.SetText("24 °C")
	if !g.steps.rows[0].to.Take() {
		t.Fatal("24 °C is not taken")
	}
	g.turn(0)
	s.WaitIdle()
	if x := s.Design().Temperature[0]; x.TemperatureC != 24 || x.AtAttenuationPct != 0 || !(x.AtHours > 20) {
		t.Errorf("by the hours it is %+v", x)
	}
	g.steps.rows[0].when.SetText("3 days")
	if !g.steps.rows[0].when.Take() {
		t.Errorf("3 days are not taken: %q", stage.Texts(s.Window().Content()))
	}
	s.WaitIdle()
	if x := s.Design().Temperature[0]; x.AtHours != 72 {
		t.Errorf("3 days are %+v", x)
	}
	g.remove(0)
	s.WaitIdle()
	if d := s.Design(); len(d.Temperature) != 1 || d.Temperature[0].TemperatureC != crashToC || len(g.steps.rows) != 1 {
		t.Errorf("the first out leaves %+v in %d rows", d.Temperature, len(g.steps.rows))
	}
}

// A yeast far from what it likes is told of with what to do, and nutrient in grams
// ends the want of it.
func TestWhatTheYeastBears(t *testing.T) {
	s := fermenting(t, 0)
	s.ferment.Side.Turn(3)
	alter := func(f func(d *design.Design)) string {
		if err := s.Editor.Change("yeast", "", f); err != nil {
			t.Fatal(err)
		}
		s.ferment.Update()
		s.WaitIdle()
		return stage.Texts(s.Window().Content())
	}
	if text := alter(func(d *design.Design) { d.Yeast[0].TolerancePct = 11 }); !strings.Contains(text, "It bears about 11") {
		t.Errorf("its tolerance is not said: %s", text)
	}
	text := alter(func(d *design.Design) {
		d.Yeast[0].ColdestC, d.Yeast[0].WarmestC, d.Yeast[0].TemperatureC = 15, 24, 12
		d.Honey[0].MassKg = 2
	})
	if !strings.Contains(text, "in 100") || !strings.Contains(text, "ferment warmer") || !strings.Contains(text, "yeast nutrient (diammonium phosphate)") {
		t.Errorf("no stress is said: %s", text)
	}
	g := s.ferment.Side.programme
	g.nutrient.SetText("12 g")
	if !g.nutrient.Take() {
		t.Fatal("12 g are not taken")
	}
	s.WaitIdle()
	if got := s.Design().Batch.NutrientG; got != 12 {
		t.Errorf("12 g are %v", got)
	}
	if text := stage.Texts(s.Window().Content()); strings.Contains(text, "yeast nutrient (diammonium phosphate)") {
		t.Errorf("fed, and still told to feed: %s", text)
	}
}

// What was measured of the beer's temperature stands in the picture.
func TestMeasuredTemperaturesAreInThePicture(t *testing.T) {
	s := fermenting(t, 40, append(pitchedBatch(), read(measured.BeerTemperature, 10, 20), read(measured.BeerTemperature, 30, 22))...)
	s.WaitIdle()
	var c plotting.Course
	newFollower().fill(&c, s.ferment.Batch(), s.ferment.dayNote())
	if len(c.Measured) != 2 || c.Measured[1].TemperatureC != 22 || math.Abs(c.Measured[1].FromHours-30) > 1e-9 || len(c.After.TemperatureC) != len(c.After.Hours) {
		t.Errorf("measured %+v, %d of %d hours", c.Measured, len(c.After.TemperatureC), len(c.After.Hours))
	}
}
