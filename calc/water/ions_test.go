package water_test

import (
	"testing"

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
// raises it, acid and dark malt lower it.
func TestMashPH(t *testing.T) {
	t.Parallel()
	at := func(ebc, alkalinityMEqL float64) (low, mid, high float64) {
		low, mid, high, ok := water.MashPH([]water.Malt{{MassKg: 2.7, ColourEBC: ebc}}, alkalinityMEqL, 3)
		if !ok || !(low <= mid && mid <= high) {
			t.Fatalf("%v %v %v %v", low, mid, high, ok)
		}
		return low, mid, high
	}
	low, soft, high := at(5.5, 0)
	near(t, "soft water", soft, 5.8, 0.05)
	if low > 5.7 || high < 5.9 {
		t.Errorf("band %v to %v is narrower than the sources", low, high)
	}
	_, hard, _ := at(5.5, 4)
	_, acid, _ := at(5.5, -3)
	_, dark, _ := at(60, 0)
	if !(hard > soft && acid < soft && dark < soft) {
		t.Errorf("soft %v, hard %v, acid %v, dark %v", soft, hard, acid, dark)
	}
	if low, mid, high := at(5.5, -500); low < 3 || mid < low || high < mid {
		t.Errorf("half a litre of acid: %v %v %v", low, mid, high)
	}
}

// TestAcid: 1 mL of 88 % lactic acid is 1.206·0.88 g of 90.08 g/mol (density
// from memory), 11.78 mEq, of which 97.2 % are given at pH 5.4 (pKa 3.86).
func TestAcid(t *testing.T) {
	t.Parallel()
	near(t, "acid", water.AcidMEqL(6, 20)*20, 6*1000*1.206*0.88/90.08*0.972, 0.01)
	near(t, "no liquor", water.AcidMEqL(6, 0), 0, 0)
}

// TestMashPHByAmounts: 250 mg/L of bicarbonate, 61.016 g/mol, in 3 L/kg are
// 12.29 mEq for a kilogram of malt; buffers of 30 to 45 mEq/(kg pH), the
// published range, answer with 0.27 to 0.41, and so far apart are the band's
// ends by the alkali alone. Malts up to the usual pale colour are alike.
func TestMashPHByAmounts(t *testing.T) {
	t.Parallel()
	at := func(alkalinityMEqL float64, grist ...water.Malt) [3]float64 {
		low, mid, high, ok := water.MashPH(grist, alkalinityMEqL, 3)
		if !ok {
			t.Fatal("refused")
		}
		return [3]float64{low, mid, high}
	}
	malt := water.Malt{MassKg: 2.7, ColourEBC: 5}
	pale, hard := at(0, malt), at(water.Ions{BicarbonateMgL: 250}.ResidualAlkalinityMEqL(), malt)
	const mEqKg = 250 / 61.016 * 3
	if rise := hard[1] - pale[1]; rise < mEqKg/45 || rise > mEqKg/30 {
		t.Errorf("hard water raises the mash by %v, want %v to %v", rise, mEqKg/45, mEqKg/30)
	}
	near(t, "low end of hard water", hard[0]-pale[0], mEqKg/45, 0.001)
	near(t, "high end of hard water", hard[2]-pale[2], mEqKg/30, 0.001)
	if paler := at(0, water.Malt{MassKg: 2.7, ColourEBC: 2}); paler != pale {
		t.Errorf("malt of 2 EBC mashes at %v, of 5 at %v", paler, pale)
	}
	// The doubt about malts that are no base malt grows with their share.
	width := func(paleKg, darkKg float64) float64 {
		b := at(0, water.Malt{MassKg: paleKg, ColourEBC: 5}, water.Malt{MassKg: darkKg, ColourEBC: 60})
		return b[2] - b[0]
	}
	none, all := width(2.7, 0), width(0, 2.7)
	if !(all > none) {
		t.Errorf("all dark malt has a band of %v, none %v", all, none)
	}
	near(t, "half dark", width(1.35, 1.35), (none+all)/2, 1e-9)
	near(t, "half dark of twice as much", width(2.7, 2.7), (none+all)/2, 1e-9)
	if _, _, _, ok := water.MashPH(nil, 0, 3); ok {
		t.Error("no grain has a mash pH")
	}
}
