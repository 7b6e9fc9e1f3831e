package glasstest

import (
	"math"
	"testing"
)

// A bought beer has the strength and the extract that its two gravities say:
// 1.048 to 1.010 is 5.0 % by volume by the usual tables (HMRC Notice 226 factor
// 131: 38 × 0.131 = 4.98), and its residue weighs what the real extract does.
func TestABoughtBeer(t *testing.T) {
	t.Parallel()
	g, err := Bought(1.048, 1.010)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(g.ABVPct-4.98) > 0.15 {
		t.Errorf("%.2f %%, want about 4.98", g.ABVPct)
	}
	if total := g.Residue.Total(); total < 35 || total > 50 {
		t.Errorf("%.1f g/L left", total)
	}
	dry, full := g.Taste(0, 0)
	sweet, err := Bought(1.048, 1.016)
	if err != nil {
		t.Fatal(err)
	}
	if d, b := sweet.Taste(0, 0); !(d < dry && b > full) {
		t.Errorf("ending higher: dryness %.1f, body %.1f beside %.1f and %.1f", d, b, dry, full)
	}
	for _, bad := range [][2]float64{{1.01, 1.0}, {1.2, 1.02}, {1.048, 1.05}, {1.048, 0.98}, {math.NaN(), 1.01}, {1.048, math.NaN()}} {
		if _, err := Bought(bad[0], bad[1]); err == nil {
			t.Errorf("%v is taken", bad)
		}
	}
}
