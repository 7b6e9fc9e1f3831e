package calc

import (
	"math"
	"strings"
	"testing"

	"skep/assets/demotest"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/stress"
)

func stressed(t *testing.T, change func(*design.Design)) Prediction {
	t.Helper()
	d := demotest.Design(t, "middle")
	d.Yeast[0].TolerancePct, d.Yeast[0].ColdestC, d.Yeast[0].WarmestC = 11, 15, 23
	change(&d)
	p, err := NewEngine().Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// An ordinary beer is not stressed and its gravities are those of the sugar.
func TestOrdinaryBeerIsNotStressed(t *testing.T) {
	t.Parallel()
	p := stressed(t, func(*design.Design) {})
	for _, s := range p.YeastStress {
		if s.Risk > 0.2 {
			t.Errorf("%+v", s)
		}
	}
}

// Each limit gives its stress, its sentence, and where it may stop the beer a band
// that reaches up to sweeter ones; the middle does not move without a word.
func TestYeastStress(t *testing.T) {
	t.Parallel()
	plain := stressed(t, func(d *design.Design) { d.Batch.NutrientG = 20 })
	for what, change := range map[string]func(*design.Design){
		stress.Cold:  func(d *design.Design) { d.Yeast[0].TemperatureC = 13 },
		stress.Pitch: func(d *design.Design) { d.Yeast[0].CellsBillionPerL = 2 },
	} {
		p := stressed(t, func(d *design.Design) { d.Batch.NutrientG = 20; change(d) })
		if len(p.YeastStress) != 1 || p.YeastStress[0].What != what {
			t.Errorf("%s: %+v", what, p.YeastStress)
			continue
		}
		if !strings.Contains(message.InEnglish(p.Warnings, "\n"), "in 100") {
			t.Errorf("%s: no warning among %q", what, p.Warnings)
		}
		if !(p.FinalGravitySG.High > plain.FinalGravitySG.High+0.002) {
			t.Errorf("%s: the final gravity reaches to %.4f, unstressed to %.4f", what, p.FinalGravitySG.High, plain.FinalGravitySG.High)
		}
		if !(p.FinishedHours.Mid > plain.FinishedHours.Mid+10) {
			t.Errorf("%s: finished after %.0f h, unstressed after %.0f", what, p.FinishedHours.Mid, plain.FinishedHours.Mid)
		}
	}
}

// Beyond what the strain bears the strength is held there, and it is said.
func TestBeyondAnyYeast(t *testing.T) {
	t.Parallel()
	p := stressed(t, func(d *design.Design) {
		for i := range d.Grain {
			d.Grain[i].MassKg *= 4
		}
		d.Kit.VesselL, d.Kit.MashEfficiencyPct = 200, 80
	})
	if !(p.StrengthPct.High < 14 && p.StrengthPct.Mid > 9.5 && p.StrengthPct.Mid < 12) {
		t.Errorf("a strain for 11 %% makes %+v", p.StrengthPct)
	}
	s := p.YeastStress[0]
	if s.Value < 12 || !strings.Contains(message.InEnglish(p.Warnings, "\n"), "stops early") {
		t.Errorf("%+v, warnings %q", p.YeastStress, p.Warnings)
	}
	// The course ends where the prediction does.
	c, err := NewEngine().Course(demotest.Design(t, "middle"), 0)
	if err != nil {
		t.Fatal(err)
	}
	q, err := NewEngine().Predict(demotest.Design(t, "middle"))
	if err != nil {
		t.Fatal(err)
	}
	if end := c.GravitySG[len(c.GravitySG)-1].Mid; end-q.FinalGravitySG.Mid > 0.0005 {
		t.Errorf("the course ends at %.4f, predicted is %.4f", end, q.FinalGravitySG.Mid)
	}
}

// Nutrient is called for with a third of honey, and giving it ends the call.
func TestNutrientEndsItsOwnWarning(t *testing.T) {
	t.Parallel()
	much := func(d *design.Design) { d.Honey[0].MassKg *= 2.2 }
	find := func(p Prediction) (float64, bool) {
		for _, s := range p.YeastStress {
			if s.What == stress.Nitrogen {
				return s.Risk, true
			}
		}
		return 0, false
	}
	p := stressed(t, much)
	if _, ok := find(p); !ok || !strings.Contains(message.InEnglish(p.Warnings, "\n"), "nutrient") {
		t.Fatalf("stress %+v, warnings %q", p.YeastStress, p.Warnings)
	}
	q := stressed(t, func(d *design.Design) { much(d); d.Batch.NutrientG = 15 })
	if _, ok := find(q); ok {
		t.Errorf("with nutrient still %+v", q.YeastStress)
	}
	if !(q.FinishedHours.Mid < p.FinishedHours.Mid) {
		t.Errorf("fed it is finished after %.0f h, hungry after %.0f", q.FinishedHours.Mid, p.FinishedHours.Mid)
	}
}

// A beer that may stop early is one beer in every answer of the engine: the numbers,
// the curves at the rest that is set, and the comparison of the strains.
func TestTheTailIsEverywhere(t *testing.T) {
	t.Parallel()
	for name, change := range map[string]func(*design.Design){
		"cold":   func(d *design.Design) { d.Yeast[0].TemperatureC = 12 },
		"strong": func(d *design.Design) { d.Yeast[0].TolerancePct = 6 },
		"plain":  func(*design.Design) {},
	} {
		d := demotest.Design(t, "middle")
		d.Yeast[0].TolerancePct, d.Yeast[0].ColdestC, d.Yeast[0].WarmestC = 11, 15, 23
		change(&d)
		e := NewEngine()
		p, curves, err := e.Frame(d, 0, []float64{d.Mash.Rest[0].TemperatureC})
		if err != nil {
			t.Fatal(err)
		}
		strains, err := e.Strains(d)
		if err != nil {
			t.Fatal(err)
		}
		for o, want := range [Outcomes]Band{FinalGravity: p.FinalGravitySG, Strength: p.StrengthPct, Dryness: p.Dryness, Body: p.Body} {
			for where, got := range map[string]Band{"curve": curves.Bands[o][0], "strains": strains[0][o]} {
				if math.Abs(got.Low-want.Low)+math.Abs(got.Mid-want.Mid)+math.Abs(got.High-want.High) > 1e-9 {
					t.Errorf("%s, outcome %d: the %s has %v, predicted is %v", name, o, where, got, want)
				}
			}
		}
	}
}
