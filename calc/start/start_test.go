package start

import (
	"fmt"
	"math"
	"testing"
	"time"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/learn"
	"skep/calc/recipe"
)

// larder is a usual grist and one quiet hop.
func larder() Larder {
	pale, wheat := design.NewGrain(), design.NewGrain()
	pale.Name, pale.MassKg = "Pale malt", 0.9
	wheat.Name, wheat.MassKg, wheat.ExtractPct = "Wheat malt", 0.1, 79
	hop := design.NewHop()
	hop.Name, hop.AlphaPct = "Goldings", 5.2
	return Larder{Grain: []design.Grain{pale, wheat}, Hop: hop}
}

// answers are a kettle of some litres and heather honey at hand.
func answers(vesselL, honeyKg, strengthPct float64) Answers {
	k := design.New().Kit
	k.VesselL, k.FermenterL = vesselL, vesselL
	k.SteamLPerH = vesselL / 14
	k.LeftWithBreakL = vesselL / 30
	h := design.NewHoney()
	h.Name, h.MassKg = "Heather", honeyKg
	clean, dry := design.NewYeast(), design.NewYeast()
	clean.Name = "Clean ale"
	dry.Name, dry.AttenuationLowPct, dry.AttenuationHighPct = "Belgian abbey", 78, 86
	return Answers{Title: "Hedge", LitresL: LitresFor(k), Kit: k, Honey: h, Yeast: []design.Yeast{clean, dry}, StrengthPct: strengthPct}
}

func predict(t *testing.T, d design.Design) calc.Prediction {
	t.Helper()
	p, err := calc.NewEngine().Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The strength of the design is the wished one as the window shows it, to a tenth,
// at the kit's own volume, whatever the kit, the honey and the strength.
func TestTheStrengthComesOut(t *testing.T) {
	t.Parallel()
	for _, vessel := range []float64{8, 18, 30, 60, 120} {
		for _, want := range []float64{2.8, 4.5, 5.2, 6.5, 8.5} {
			for _, perLitre := range []float64{0, 0.03, 0.06} {
				a := answers(vessel, 0, want)
				a.Honey.MassKg = perLitre * a.LitresL
				name := fmt.Sprintf("%g L kettle, %g %%, %g kg of honey", vessel, want, a.Honey.MassKg)
				began := time.Now()
				b, err := Design(calc.NewEngine(), a, larder(), nil)
				if err != nil {
					t.Errorf("%s: %v", name, err)
					continue
				}
				if err := design.FirstError(b.Design.Validate()); err != nil {
					t.Errorf("%s: %v", name, err)
				}
				p := predict(t, b.Design)
				if off := math.Abs(p.StrengthPct.Mid - want); off > 0.05 {
					t.Errorf("%s: %.3f %% in %v; %v", name, p.StrengthPct.Mid, time.Since(began), b.Notes)
				}
				if got := b.Prediction.StrengthPct.Mid; got != p.StrengthPct.Mid {
					t.Errorf("%s: said %.3f, the engine %.3f", name, got, p.StrengthPct.Mid)
				}
				if b.Design.Batch.IntoFermenterL != a.LitresL || b.Design.Kit != a.Kit {
					t.Errorf("%s: another kit or volume", name)
				}
			}
		}
	}
}

// What a handbook's mass balance makes of the same strength: by the wine and beer
// trade's rule of thumb, alcohol by volume is 131.25 times the fall in gravity
// (common practice; Daniels, Designing Great Beers, has it, from memory). The grist
// must carry the original gravity that this asks for, by 384 points a kg and litre
// of sucrose (the value of the sugar tables, 46.2 points a pound and US gallon).
func TestTheGristCarriesTheGravity(t *testing.T) {
	t.Parallel()
	a := answers(30, 0, 5)
	b, err := Design(calc.NewEngine(), a, larder(), nil)
	if err != nil {
		t.Fatal(err)
	}
	p := predict(t, b.Design)
	extract := 0.0
	for _, g := range b.Design.Grain {
		extract += g.MassKg * g.ExtractPct / 100 * (1 - g.MoisturePct/100)
	}
	plan := recipe.Liquor(b.Design)
	points := 384 * extract * b.Design.Kit.MashEfficiencyPct / 100 * plan.KeptShare / a.LitresL
	if og := 1 + points/1000; math.Abs(og-p.OriginalGravitySG.Mid) > 0.002 {
		t.Errorf("by the sugar tables 1+%.1f/1000, the engine %.4f", points, p.OriginalGravitySG.Mid)
	}
	thumb := 131.25 * (p.OriginalGravitySG.Mid - p.FinalGravitySG.Mid)
	if math.Abs(thumb-5) > 0.15 {
		t.Errorf("by the rule of thumb %.2f %%, wished 5", thumb)
	}
}

// A whole number of litres that the kettle boils without foaming over: a tenth of
// head room, common practice.
func TestLitresFitTheKettle(t *testing.T) {
	t.Parallel()
	for _, vessel := range []float64{5, 8, 18, 30, 60, 120, 400} {
		a := answers(vessel, 0.45, 5)
		b, err := Design(calc.NewEngine(), a, larder(), nil)
		if err != nil {
			t.Fatal(err)
		}
		plan := recipe.Liquor(b.Design)
		if plan.PreBoil > 0.93*vessel || plan.MashLevelL > vessel {
			t.Errorf("%g L: %g L is %.1f L before the boil and %.1f L of mash", vessel, a.LitresL, plan.PreBoil, plan.MashLevelL)
		}
		if a.LitresL < 0.4*vessel && vessel < 100 {
			t.Errorf("%g L brews only %g L", vessel, a.LitresL)
		}
	}
}

// Honey keeps to what is at hand, gives at most half, and what is left is said.
func TestHoneyKeepsToWhatIsAtHand(t *testing.T) {
	t.Parallel()
	a := answers(18, 0.45, 5.2)
	b, err := Design(calc.NewEngine(), a, larder(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if h := b.Design.Honey[0]; h.MassKg != 0.45 || h.Name != "Heather" || *b.Design.Taste.HoneyAtHandKg != 0.45 || b.HoneyLeftKg != 0 {
		t.Errorf("%+v, left %g", h, b.HoneyLeftKg)
	}
	a.Honey.MassKg = 8
	if b, err = Design(calc.NewEngine(), a, larder(), nil); err != nil {
		t.Fatal(err)
	}
	share, _ := honeyShare(&b.Design)
	if share > mostHoneyShare+0.01 || share < mostHoneyShare-0.03 || b.HoneyLeftKg < 1 || len(b.Notes) == 0 {
		t.Errorf("share %.3f, left %g, %v", share, b.HoneyLeftKg, b.Notes)
	}
	if off := math.Abs(b.Prediction.StrengthPct.Mid - 5.2); off > 0.05 {
		t.Errorf("%.3f %%", b.Prediction.StrengthPct.Mid)
	}
	a.Honey.MassKg, a.MayBuy = 0, true
	if b, err = Design(calc.NewEngine(), a, larder(), nil); err != nil {
		t.Fatal(err)
	}
	if share, _ = honeyShare(&b.Design); math.Abs(share-usualHoneyShare) > 0.01 || b.Design.Taste.HoneyAtHandKg != nil {
		t.Errorf("share %.3f", share)
	}
	a.MayBuy = false
	if b, err = Design(calc.NewEngine(), a, larder(), nil); err != nil || len(b.Design.Honey) != 0 {
		t.Errorf("%v, %v", b.Design.Honey, err)
	}
}

// A taste moves the mash and, where one may be found, the yeast; the strength stays.
func TestATasteIsLandedOn(t *testing.T) {
	t.Parallel()
	a := answers(30, 0.45, 5.2)
	base, err := Design(calc.NewEngine(), a, larder(), nil)
	if err != nil {
		t.Fatal(err)
	}
	dry, body := base.Prediction.Dryness.Mid-5, base.Prediction.Body.Mid+4
	a.Dryness, a.Body = &dry, &body
	b, err := Design(calc.NewEngine(), a, larder(), nil)
	if err != nil {
		t.Fatal(err)
	}
	near := func(p calc.Prediction) float64 { return math.Hypot(p.Dryness.Mid-dry, p.Body.Mid-body) }
	if was, is := near(base.Prediction), near(b.Prediction); is > was || is > 3 {
		t.Errorf("was %.1f away, is %.1f", was, is)
	}
	if off := math.Abs(b.Prediction.StrengthPct.Mid - 5.2); off > 0.05 {
		t.Errorf("%.3f %%", b.Prediction.StrengthPct.Mid)
	}
	veryDry, light := base.Prediction.Dryness.Mid+14, base.Prediction.Body.Mid-8
	a.Dryness, a.Body, a.Find = &veryDry, &light, true
	if b, err = Design(calc.NewEngine(), a, larder(), nil); err != nil {
		t.Fatal(err)
	}
	if b.Design.Yeast[0] != a.Yeast[1] {
		t.Errorf("found %s for a dry beer", b.Design.Yeast[0].Name)
	}
	if off := math.Abs(b.Prediction.StrengthPct.Mid - 5.2); off > 0.05 {
		t.Errorf("%.3f %%", b.Prediction.StrengthPct.Mid)
	}
}

// Wherever it is to land, the mash takes an ordinary time (45 to 90 minutes: common
// practice, no source).
func TestTheMashTakesAnOrdinaryTime(t *testing.T) {
	t.Parallel()
	for _, at := range [][2]float64{{90, 20}, {85, 60}, {30, 80}, {10, 90}, {60, 10}} {
		a := answers(30, 0.45, 5.2)
		a.Dryness, a.Body = &at[0], &at[1]
		b, err := Design(calc.NewEngine(), a, larder(), nil)
		if err != nil {
			t.Fatal(err)
		}
		if m := b.Design.Mash.Rest[0].Minutes; m < 45 || m > 90 {
			t.Errorf("dryness %g, body %g: mashed for %g minutes", at[0], at[1], m)
		}
	}
}

// With what finished batches have taught, the strength comes out in these hands,
// and the file keeps the kit's own figures.
func TestTheStrengthComesOutInTheseHands(t *testing.T) {
	t.Parallel()
	a := answers(30, 0.45, 5.2)
	poor := func(d design.Design) (*calc.Engine, design.Design, error) {
		d = d.Clone()
		d.Kit.MashEfficiencyPct -= 10
		e := calc.NewEngine()
		return e, d, e.SetDoubts(learn.Doubts{}.Engine())
	}
	b, err := Design(calc.NewEngine(), a, larder(), poor)
	if err != nil {
		t.Fatal(err)
	}
	_, as, _ := poor(b.Design)
	if p := predict(t, as); math.Abs(p.StrengthPct.Mid-5.2) > 0.05 || b.Design.Kit != a.Kit {
		t.Errorf("%.3f %%, efficiency %g", p.StrengthPct.Mid, b.Design.Kit.MashEfficiencyPct)
	}
	plain, err := Design(calc.NewEngine(), a, larder(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if b.Design.Grain[0].MassKg <= plain.Design.Grain[0].MassKg {
		t.Error("a poorer kit takes no more grain")
	}
}

// Silly answers get an error or a note, never a panic or a silent other beer.
func TestSillyAnswers(t *testing.T) {
	t.Parallel()
	for name, alter := range map[string]func(*Answers){
		"no litres":   func(a *Answers) { a.LitresL = 0 },
		"NaN litres":  func(a *Answers) { a.LitresL = math.NaN() },
		"a sea":       func(a *Answers) { a.LitresL = 1e9 },
		"NaN honey":   func(a *Answers) { a.Honey.MassKg = math.NaN() },
		"minus honey": func(a *Answers) { a.Honey.MassKg = -1 },
		"spirits":     func(a *Answers) { a.StrengthPct = 40 },
		"no strength": func(a *Answers) { a.StrengthPct = 0 },
		"NaN":         func(a *Answers) { a.StrengthPct = math.NaN() },
		"no yeast":    func(a *Answers) { a.Yeast = nil },
		"broken kit":  func(a *Answers) { a.Kit.VesselL = -3 },
		"no taste":    func(a *Answers) { x := 400.0; a.Dryness = &x },
	} {
		a := answers(18, 0.45, 5)
		alter(&a)
		if _, err := Design(calc.NewEngine(), a, larder(), nil); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	a := answers(18, 0.45, 5)
	a.LitresL = 60 // far more than the kettle: a design with warnings, as a file of it would have
	b, err := Design(calc.NewEngine(), a, larder(), nil)
	if err != nil || len(b.Prediction.Warnings) == 0 {
		t.Errorf("%v, %v", b.Prediction.Warnings, err)
	}
}
