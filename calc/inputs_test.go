package calc

import (
	"math"
	"testing"

	"skep/calc/crush"
	"skep/calc/design"
	"skep/calc/water"
)

// TestLiquorIons: the tap's ions and the salts' together, kind by kind, over all
// the liquor of the day; 1 mL of 88 % lactic acid is 1.206·0.88 g of 90.08 g/mol
// (density from memory), 11.78 mEq.
func TestLiquorIons(t *testing.T) {
	t.Parallel()
	d := demo(t, "middle")
	d.Water = &design.Water{
		Calcium: 40, Magnesium: 10, Sodium: 20, Chloride: 30, Sulphate: 50, Bicarbonate: 120,
		GypsumG: 1, CalciumChlorideG: 2, EpsomG: 3, TableSaltG: 4, BakingSodaG: 5, LacticAcid88ML: 6,
	}
	got, acid, ok := LiquorIons(d)
	p := Liquor(d)
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
	closely(t, "acid", acid*litres, 6*1000*1.206*0.88/90.08, 0.02*6*11.8)
	if _, mid, _, ok := MashPH(d); !ok || mid < 5 || mid > 6 {
		t.Errorf("mash pH %v, %v", mid, ok)
	}
	d.Water = nil
	if _, _, _, ok := MashPH(d); ok {
		t.Error("a design that says nothing of its water has a mash pH")
	}
}

// TestLateHoneyThins: honey that goes in cold, 1.42 kg to the litre, thins what
// came from the kettle; honey of the boil is in it already. Colour follows
// Morey's power, 0.6859.
func TestLateHoneyThins(t *testing.T) {
	t.Parallel()
	d := demo(t, "middle")
	d.Honey = nil
	bitter := Hops(d, 1.043, 16.4).Bitterness().Mid
	_, dark, _ := Colour(d, 16.4)
	d.Honey = []design.Honey{{MassKg: 0.55, MoisturePct: 17.5, Moment: design.MomentFermenting}, {MassKg: 1, MoisturePct: 17.5, Moment: design.MomentBoil}}
	into := d.Batch.IntoFermenterL
	thinner := into / (into + 0.55/1.42)
	closely(t, "bitterness", Hops(d, 1.043, 16.4).Bitterness().Mid/bitter, thinner, 0.001)
	_, pale, _ := Colour(d, 16.4)
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
	if w := Crush(nil).Word(); w != crush.Sound {
		t.Errorf("nothing said of the crush is %q", w)
	}
}

func closely(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tolerance)
	}
}
