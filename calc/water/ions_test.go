package water_test

import (
	"testing"

	"skep/calc/design"
	"skep/calc/water"
)

// TestSalts: ions of 1 g in 1 L by atomic masses.
func TestSalts(t *testing.T) {
	t.Parallel()
	i := water.Salts{GypsumG: 2, CalciumChlorideG: 1, EpsomG: 1, TableSaltG: 1, BakingSodaG: 1}.Ions(2)
	near(t, "calcium", i.CalciumMgL, 232.8+272.6/2, 0.1)
	near(t, "magnesium", i.MagnesiumMgL, 98.6/2, 0.1)
	near(t, "sodium", i.SodiumMgL, (393.4+273.7)/2, 0.1)
	near(t, "chloride", i.ChlorideMgL, (482.3+606.6)/2, 0.1)
	near(t, "sulphate", i.SulphateMgL, 557.9+389.7/2, 0.1)
	near(t, "bicarbonate", i.BicarbonateMgL, 726.3/2, 0.1)
	chalk := water.Salts{ChalkG: 1}.Ions(1)
	near(t, "chalk's calcium", chalk.CalciumMgL, 400.4, 0.1)
	near(t, "chalk's alkalinity", water.ChalkMgL(chalk.AlkalinityMEqL()), 1000, 0.1)
	if got := (water.Salts{GypsumG: 1}).Ions(0); got != (water.Ions{}) {
		t.Errorf("salts in no liquor give %+v", got)
	}
}

// TestResidualAlkalinity: Kolbach 1953, worked out for Ca 80, Mg 10, HCO3 200.
func TestResidualAlkalinity(t *testing.T) {
	t.Parallel()
	i := water.Ions{CalciumMgL: 80, MagnesiumMgL: 10, BicarbonateMgL: 200}
	near(t, "residual alkalinity", i.ResidualAlkalinityMEqL(), 2.0196, 0.001)
	near(t, "as CaCO3", water.ChalkMgL(i.ResidualAlkalinityMEqL()), 101.1, 0.1)
}

// TestMashPH: soft water and pale malt mash at about 5.8 (J.-P. Hosom, article
// 18, after several authors: 5.6 to 6.0), which the band must hold; alkali
// raises it, acid, calcium and dark malt lower it.
func TestMashPH(t *testing.T) {
	t.Parallel()
	at := func(change func(d *design.Design)) (low, mid, high float64) {
		d := gateField()
		d.Water = &design.Water{}
		change(&d)
		low, mid, high, ok := water.MashPH(d)
		if !ok || !(low < mid && mid < high) {
			t.Fatalf("%v %v %v %v", low, mid, high, ok)
		}
		return low, mid, high
	}
	low, soft, high := at(func(*design.Design) {})
	near(t, "soft water", soft, 5.8, 0.05)
	if low > 5.7 || high < 5.9 {
		t.Errorf("band %v to %v is narrower than the sources", low, high)
	}
	_, hard, _ := at(func(d *design.Design) { d.Water.Bicarbonate = 250 })
	_, gypsum, _ := at(func(d *design.Design) { d.Water.GypsumG = 5 })
	_, acid, _ := at(func(d *design.Design) { d.Water.LacticAcid88ML = 3 })
	_, dark, _ := at(func(d *design.Design) { d.Grain[0].ColourEBC = 60 })
	if !(hard > soft && gypsum < soft && acid < soft && dark < soft) {
		t.Errorf("soft %v, hard %v, gypsum %v, acid %v, dark %v", soft, hard, gypsum, acid, dark)
	}
	sour := gateField()
	sour.Water = &design.Water{LacticAcid88ML: 500}
	if low, mid, high, ok := water.MashPH(sour); !ok || low < 3 || mid < low || high < mid {
		t.Errorf("half a litre of acid: %v %v %v %v", low, mid, high, ok)
	}
	if _, _, _, ok := water.MashPH(gateField()); ok {
		t.Error("a design that says nothing of its water has a mash pH")
	}
}
