package calc

import (
	"math"
	"testing"
)

// A bought beer has the strength and the extract that its two gravities say:
// 1.048 to 1.010 is 5.0 % by volume by the usual tables (HMRC Notice 226 factor
// 131: 38 × 0.131 = 4.98), and its residue weighs what the real extract does.
func TestGlassOfABoughtBeer(t *testing.T) {
	t.Parallel()
	g, err := GlassOf(1.048, 1.010)
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
	sweet, err := GlassOf(1.048, 1.016)
	if err != nil {
		t.Fatal(err)
	}
	if d, b := sweet.Taste(0, 0); !(d < dry && b > full) {
		t.Errorf("ending higher: dryness %.1f, body %.1f beside %.1f and %.1f", d, b, dry, full)
	}
	for _, bad := range [][2]float64{{1.01, 1.0}, {1.2, 1.02}, {1.048, 1.05}, {1.048, 0.98}, {math.NaN(), 1.01}, {1.048, math.NaN()}} {
		if _, err := GlassOf(bad[0], bad[1]); err == nil {
			t.Errorf("%v is taken", bad)
		}
	}
}

// The glass of a predicted beer tastes as the prediction says.
func TestGlassOfAPredictedBeer(t *testing.T) {
	t.Parallel()
	e := NewEngine()
	b, err := e.Brew(demo(t, "middle"), 0)
	if err != nil {
		t.Fatal(err)
	}
	var x Draw
	b.Draw(&b.mid, &x)
	g := x.Beer.Glass()
	if dry, full := g.Taste(0, 0); math.Abs(dry-x.Dryness) > 1e-9 || math.Abs(full-x.Body) > 1e-9 {
		t.Errorf("%v %v, want %v %v", dry, full, x.Dryness, x.Body)
	}
}

// A palate that is known moves what is predicted, and narrows it.
func TestAKnownPalateNarrowsDryness(t *testing.T) {
	t.Parallel()
	d := demo(t, "middle")
	e := NewEngine()
	plain, err := e.Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	if err := e.SetDoubts(Doubts{MaltSweet: Score{Mean: 1, SD: 0.5}, AlcoholFull: Score{Mean: -1, SD: 0.5}}); err != nil {
		t.Fatal(err)
	}
	own, err := e.Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	if !(own.Dryness.Mid < plain.Dryness.Mid && own.Body.Mid < plain.Body.Mid) {
		t.Errorf("dryness %+v, body %+v; a stranger's %+v, %+v", own.Dryness, own.Body, plain.Dryness, plain.Body)
	}
	if !(own.Dryness.High-own.Dryness.Low < plain.Dryness.High-plain.Dryness.Low) {
		t.Errorf("dryness %+v is no surer than %+v", own.Dryness, plain.Dryness)
	}
	if err := e.SetDoubts(Doubts{MaltSweet: Score{Mean: 3}}); err == nil {
		t.Error("a score of 3 is taken")
	}
	if err := e.SetDoubts(Doubts{}); err != nil {
		t.Fatal(err)
	}
	if again, err := e.Predict(d); err != nil || again.Dryness != plain.Dryness {
		t.Errorf("%+v, %v; want %+v", again.Dryness, err, plain.Dryness)
	}
}
