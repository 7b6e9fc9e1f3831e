package recipe_test

import (
	"math"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/crush"
	"skep/calc/design"
	"skep/calc/recipe"
	"skep/calc/water"
)

// TestLiquorIons: the tap's ions and the salts' together, kind by kind, over all
// the liquor of the day; 1 mL of 88 % lactic acid is 1.206·0.88 g of 90.08 g/mol
// (density from memory), 11.78 mEq.
func TestLiquorIons(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Water = &design.Water{
		Calcium: 40, Magnesium: 10, Sodium: 20, Chloride: 30, Sulphate: 50, Bicarbonate: 120,
		GypsumG: 1, CalciumChlorideG: 2, EpsomG: 3, TableSaltG: 4, BakingSodaG: 5, LacticAcid88ML: 6,
	}
	got, acid, ok := recipe.LiquorIons(d)
	p := recipe.Liquor(d)
	litres := p.MashLiquor + p.Sparge
	salts := water.Salts{GypsumG: 1, CalciumChlorideG: 2, EpsomG: 3, TableSaltG: 4, BakingSodaG: 5}.Ions(litres)
	if !ok {
		t.Fatal("refused")
	}
	closely(t, "calcium", got.CalciumMgL-salts.CalciumMgL, 40, 1e-9)
	closely(t, "magnesium", got.MagnesiumMgL-salts.MagnesiumMgL, 10, 1e-9)
	closely(t, "sodium", got.SodiumMgL-salts.SodiumMgL, 20, 1e-9)
	closely(t, "chloride", got.ChlorideMgL-salts.ChlorideMgL, 30, 1e-9)
	closely(t, "sulphate", got.SulphateMgL-salts.SulphateMgL, 50, 1e-9)
	closely(t, "bicarbonate", got.BicarbonateMgL-salts.BicarbonateMgL, 120, 1e-9)
	closely(t, "acid", acid*litres, 6*1000*1.206*0.88/90.08*0.972, 0.01)
	if _, mid, _, ok := recipe.MashPH(d); !ok || mid < 5 || mid > 6 {
		t.Errorf("mash pH %v, %v", mid, ok)
	}
	d.Water = nil
	if _, _, _, ok := recipe.MashPH(d); ok {
		t.Error("a design that says nothing of its water has a mash pH")
	}
}

// TestMashAcid: CK-49's way, 30 to 45 mEq/(kg pH) from the pH as it is to the one
// wanted, by the acid's equivalents; the mash is then at the wanted pH and ferments
// further than at 5.9.
func TestMashAcid(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Water = &design.Water{Bicarbonate: 120}
	_, before, _, _ := recipe.MashPH(d)
	dry, err := calc.NewEngine().Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, _, _, ok := recipe.MashAcid(d); ok {
		t.Error("no pH is wanted, and acid is dosed")
	}
	wanted := 5.4
	d.Water.MashPHWanted, d.Water.Acid = &wanted, "phosphoric 10 %"
	acid, low, mid, high, ok := recipe.MashAcid(d)
	mEq := (before - wanted) * recipe.Grist(d).MassKg
	if !ok || acid != "phosphoric 10 %" || !(low < mid && mid < high) {
		t.Fatalf("%q %v %v %v %v", acid, low, mid, high, ok)
	}
	closely(t, "low", low, 30*mEq/1.09, 0.01*low)
	closely(t, "high", high, 45*mEq/1.09, 0.01*high)
	if _, ph, _, _ := recipe.MashPH(d); ph != wanted {
		t.Errorf("the mash is at %v, wanted %v", ph, wanted)
	}
	sour, err := calc.NewEngine().Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	if fall := dry.FinalGravitySG.Mid - sour.FinalGravitySG.Mid; before < 5.75 || fall < 0.0002 || fall > 0.003 {
		t.Errorf("from pH %v to %v the final gravity falls by %v, want a point or so", before, wanted, fall)
	}
	tooHigh := 6.4
	d.Water.MashPHWanted = &tooHigh
	if _, _, _, _, ok := recipe.MashAcid(d); ok {
		t.Error("acid is dosed to raise a pH")
	}
}

// TestLateHoneyThins: honey that goes in cold, 1.42 kg to the litre, thins what
// came from the kettle; honey of the boil is in it already. Colour follows
// Morey's power, 0.6859.
func TestLateHoneyThins(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Honey = nil
	bitter := recipe.Hops(d, 1.043, 16.4).Bitterness().Mid
	_, dark, _ := recipe.Colour(d, 16.4)
	d.Honey = []design.Honey{{MassKg: 0.55, MoisturePct: 17.5, Moment: design.MomentFermenting}, {MassKg: 1, MoisturePct: 17.5, Moment: design.MomentBoil}}
	into := d.Batch.IntoFermenterL
	thinner := into / (into + 0.55/1.42)
	closely(t, "bitterness", recipe.Hops(d, 1.043, 16.4).Bitterness().Mid/bitter, thinner, 0.001)
	_, pale, _ := recipe.Colour(d, 16.4)
	closely(t, "colour", pale/dark, math.Pow(thinner, 0.6859), 0.001)
}

// TestCrushWords: the file's words are the physics'.
func TestCrushWords(t *testing.T) {
	t.Parallel()
	k, ok := design.KeyOf("crush.by_eye")
	known := crush.Words()
	if !ok || len(k.Words) != len(known) {
		t.Fatalf("the file's words are %v", k.Words)
	}
	for i, w := range k.Words {
		if w != known[i] {
			t.Errorf("word %d of the file is %q", i, w)
		}
	}
	if w := recipe.Crush(nil).Word(); w != crush.Sound {
		t.Errorf("nothing said of the crush is %q", w)
	}
}

func closely(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tolerance)
	}
}
