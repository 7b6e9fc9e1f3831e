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

// TestLiquor: the tap's ions and the salts' together, kind by kind, over all
// the liquor of the day; 1 mL of 88 % lactic acid is 1.206·0.88 g of 90.08 g/mol
// (density from memory), 11.78 mEq.
func TestLiquor(t *testing.T) {
	t.Parallel()
	d := gateField()
	d.Water = &design.Water{
		Calcium: 40, Magnesium: 10, Sodium: 20, Chloride: 30, Sulphate: 50, Bicarbonate: 120,
		GypsumG: 1, CalciumChlorideG: 2, EpsomG: 3, TableSaltG: 4, BakingSodaG: 5, LacticAcid88ML: 6,
	}
	got, acid, ok := water.Liquor(d)
	p := water.For(d)
	litres := p.MashLiquor + p.Sparge
	salts := water.Salts{GypsumG: 1, CalciumChlorideG: 2, EpsomG: 3, TableSaltG: 4, BakingSodaG: 5}.Ions(litres)
	if !ok {
		t.Fatal("refused")
	}
	near(t, "calcium", got.CalciumMgL-salts.CalciumMgL, 40, 1e-9)
	near(t, "magnesium", got.MagnesiumMgL-salts.MagnesiumMgL, 10, 1e-9)
	near(t, "sodium", got.SodiumMgL-salts.SodiumMgL, 20, 1e-9)
	near(t, "chloride", got.ChlorideMgL-salts.ChlorideMgL, 30, 1e-9)
	near(t, "sulphate", got.SulphateMgL-salts.SulphateMgL, 50, 1e-9)
	near(t, "bicarbonate", got.BicarbonateMgL-salts.BicarbonateMgL, 120, 1e-9)
	near(t, "acid", acid*litres, 6*1000*1.206*0.88/90.08, 0.02*6*11.8)
}

// TestMashPHByAmounts: 250 mg/L of bicarbonate, 61.016 g/mol, in 3 L/kg are
// 12.29 mEq for a kilogram of malt; buffers of 30 to 45 mEq/(kg pH), the
// published range, answer with 0.27 to 0.41, and so far apart are the band's
// ends by the alkali alone. Malts up to the usual pale colour are alike.
func TestMashPHByAmounts(t *testing.T) {
	t.Parallel()
	at := func(change func(d *design.Design)) [3]float64 {
		d := gateField()
		d.Water = &design.Water{}
		change(&d)
		low, mid, high, ok := water.MashPH(d)
		if !ok {
			t.Fatal("refused")
		}
		return [3]float64{low, mid, high}
	}
	pale := at(func(d *design.Design) { d.Grain[0].ColourEBC = 5 })
	hard := at(func(d *design.Design) { d.Grain[0].ColourEBC, d.Water.Bicarbonate = 5, 250 })
	const mEqKg = 250 / 61.016 * 3
	if rise := hard[1] - pale[1]; rise < mEqKg/45 || rise > mEqKg/30 {
		t.Errorf("hard water raises the mash by %v, want %v to %v", rise, mEqKg/45, mEqKg/30)
	}
	near(t, "low end of hard water", hard[0]-pale[0], mEqKg/45, 0.001)
	near(t, "high end of hard water", hard[2]-pale[2], mEqKg/30, 0.001)
	if paler := at(func(d *design.Design) { d.Grain[0].ColourEBC = 2 }); paler != pale {
		t.Errorf("malt of 2 EBC mashes at %v, of 5 at %v", paler, pale)
	}
	// The doubt about malts that are no base malt grows with their share.
	width := func(paleKg, darkKg float64) float64 {
		b := at(func(d *design.Design) {
			d.Grain = []design.Grain{{MassKg: paleKg, ColourEBC: 5}, {MassKg: darkKg, ColourEBC: 60}}
		})
		return b[2] - b[0]
	}
	none, all := width(2.7, 0), width(0, 2.7)
	if !(all > none) {
		t.Errorf("all dark malt has a band of %v, none %v", all, none)
	}
	near(t, "half dark", width(1.35, 1.35), (none+all)/2, 1e-9)
	near(t, "half dark of twice as much", width(2.7, 2.7), (none+all)/2, 1e-9)
	d := gateField()
	d.Water, d.Grain = &design.Water{}, nil
	if _, _, _, ok := water.MashPH(d); ok {
		t.Error("no grain has a mash pH")
	}
}
