package calc

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"skep/assets/demotest"
	"skep/calc/design"
)

// twoRests is the demo with a protein rest before and a mash-out after.
func twoRests(t *testing.T) design.Design {
	d := demotest.Design(t, "middle")
	d.Mash.Rest = []design.Rest{{TemperatureC: 52, Minutes: 10}, {TemperatureC: 66, Minutes: 50}, {TemperatureC: 76, Minutes: 5}}
	d.Honey = append(d.Honey, design.Honey{Name: "Heather", MassKg: 0.2, MoisturePct: 19, Moment: design.MomentPitching, Raw: true})
	return d
}

// A landing is what the engine predicts for the same design, whichever rest and
// honey the levers are on.
func TestLanderIsTheEngine(t *testing.T) {
	t.Parallel()
	e := NewEngine()
	for _, c := range []struct {
		d           design.Design
		rest, honey int
	}{
		{demotest.Design(t, "dry"), 0, 0}, {demotest.Design(t, "middle"), 0, 0}, {demotest.Design(t, "soft"), 0, 0},
		{twoRests(t), 1, 1}, {twoRests(t), 0, 0},
	} {
		// A hungry yeast, or one near what it bears, widens what is predicted, not what is landed.
		c.d.Yeast[0].TolerancePct = 20
		l, err := NewLander(e, c.d, c.rest, c.honey)
		if err != nil {
			t.Fatal(err)
		}
		rng := rand.New(rand.NewPCG(4, 4))
		var points []Landed
		for range 25 {
			s := l.Start()
			s.RestC = 58 + 14*rng.Float64()
			s.Minutes = float64(20 + 10*rng.IntN(8))
			s.AttenuationLowPct = 60 + 20*rng.Float64()
			s.AttenuationHighPct = s.AttenuationLowPct + 9*rng.Float64()
			s.YeastC = 15 + 10*rng.Float64()
			s.HoneyKg = 1.2 * rng.Float64()
			s.Moment = []string{design.MomentBoil, design.MomentWhirlpool, design.MomentPitching, design.MomentFermenting}[rng.IntN(4)]
			s.GrainShare = 0.7 + 0.6*rng.Float64()
			d := c.d.Clone()
			d.Batch.NutrientG = 100
			d.Mash.Rest[c.rest] = design.Rest{TemperatureC: s.RestC, Minutes: s.Minutes}
			y := &d.Yeast[0]
			y.AttenuationLowPct, y.AttenuationHighPct, y.TemperatureC = s.AttenuationLowPct, s.AttenuationHighPct, s.YeastC
			d.Honey[c.honey].MassKg, d.Honey[c.honey].Moment = s.HoneyKg, s.Moment
			for i := range d.Grain {
				d.Grain[i].MassKg *= s.GrainShare
			}
			want, err := e.Predict(d)
			if err != nil {
				t.Fatal(err)
			}
			if points, err = l.Land(s, points); err != nil {
				t.Fatal(err)
			}
			bands := l.Bands(points)
			for o, w := range want.Four() {
				const tol = 1e-9
				g := bands[o]
				if d := max(math.Abs(g.Low-w.Low), math.Abs(g.Mid-w.Mid), math.Abs(g.High-w.High)); d > tol {
					t.Errorf("outcome %d at %+v: landed %v, predicted %v", o, s, g, w)
				}
			}
			// The middle draw is near, which is all that is asked of it.
			q, err := l.Quick(s)
			if err != nil {
				t.Fatal(err)
			}
			if d := math.Abs(q.Dryness - want.Dryness.Mid); d > 3 {
				t.Errorf("the middle draw's dryness is %.2f from the mid value at %+v", d, s)
			}
			if d := math.Abs(q.StrengthPct - want.StrengthPct.Mid); d > 0.15 {
				t.Errorf("the middle draw's strength is %.3f from the mid value at %+v", d, s)
			}
		}
	}
}

// Moved levers, and a mash that is another, give what a new Lander gives.
func TestLanderMoves(t *testing.T) {
	t.Parallel()
	e := NewEngine()
	a, b := demotest.Design(t, "middle"), demotest.Design(t, "middle")
	l, err := NewLander(e, a, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := l.Land(l.Start(), nil); err != nil {
		t.Fatal(err)
	}
	for _, change := range []func(){
		func() { b.Mash.Rest[0].TemperatureC = 61 },
		func() { b.Mash.Rest[0].Minutes = 35 },
		func() { b.Honey[0].MassKg = 1 },
		func() { b.Grain[1].MassKg = 0.9; b.Grain[1].Enzymes = design.EnzymesBorrowed },
		func() { b.Kit.RestErrorC = 2 },
		func() { b.Mash.Rest[0].TemperatureC = 78 },
	} {
		change()
		if err := l.Move(b); err != nil {
			t.Fatal(err)
		}
		got, err := l.Land(l.Start(), nil)
		if err != nil {
			t.Fatal(err)
		}
		fresh, err := NewLander(e, b, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		want, err := fresh.Land(fresh.Start(), nil)
		if err != nil {
			t.Fatal(err)
		}
		for i := range got {
			if got[i] != want[i] {
				t.Fatalf("draw %d: %v after moving, %v afresh", i, got[i], want[i])
			}
		}
	}
	b.Honey = nil
	if err := l.Move(b); err == nil {
		t.Error("moved to a design without the honey whose lever was made ready")
	}
}

func TestLanderRefuses(t *testing.T) {
	t.Parallel()
	e, d := NewEngine(), demotest.Design(t, "middle")
	for _, c := range []struct {
		rest, honey int
		says        string
	}{{1, 0, "mash.rest.1"}, {-1, 0, "mash.rest.-1"}, {0, 1, "honey.1"}, {0, -1, "honey.-1"}} {
		if _, err := NewLander(e, d, c.rest, c.honey); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("error %v, want one of %s", err, c.says)
		}
	}
	l, err := NewLander(e, d, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	s := l.Start()
	s.HoneyKg = math.NaN()
	if points, err := l.Land(s, nil); err == nil || len(points) != 0 {
		t.Errorf("landed a mass of honey that is no number: %v", err)
	}
	d.Honey = nil
	l, err = NewLander(e, d, 0, 0)
	if err != nil || l.HasHoney() {
		t.Errorf("without honey: %v", err)
	}
}

func BenchmarkLand(b *testing.B) {
	l, err := NewLander(NewEngine(), demotest.Design(b, "middle"), 0, 0)
	if err != nil {
		b.Fatal(err)
	}
	var points []Landed
	b.ReportAllocs()
	for b.Loop() {
		if points, err = l.Land(l.Start(), points); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLandQuick(b *testing.B) {
	l, err := NewLander(NewEngine(), demotest.Design(b, "middle"), 0, 0)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := l.Quick(l.Start()); err != nil {
			b.Fatal(err)
		}
	}
}
