package boil_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/boil"
)

func gateField() boil.Brew {
	return boil.Brew{
		Hops: []boil.Charge{{AlphaPct: 5.2, MassG: 14, Minutes: 60}}, WortSG: 1.043, VolumeL: 16.4, VesselL: 30,
		BoilMinutes: 60, WhirlpoolMinutes: 5, StandMinutes: 5, WhirlpoolStartC: 96, BeerShare: 1,
	}
}

// TestIBU: J. Palmer's worked example, How to Brew, ch. 5.5: 25 and 6 IBU.
func TestIBU(t *testing.T) {
	t.Parallel()
	const l = 5 * 3.785412
	near(t, "60 min", boil.IBU(boil.Steep{AlphaPct: 6.4, MassG: 42.52, VolumeL: l, WortSG: 1.08}, 60, 100), 25, 0.5)
	near(t, "15 min", boil.IBU(boil.Steep{AlphaPct: 4.6, MassG: 28.35, VolumeL: l, WortSG: 1.08}, 15, 100), 6, 0.5)
	// Measured by a laboratory (J.-P. Hosom, article 10): ten minutes at 85.2 °C.
	near(t, "stand", boil.IBU(boil.Steep{AlphaPct: 5.75, MassG: 45.36, VolumeL: 4.69, WortSG: 1.0641}, 10, 85.2), 25.5, 2.5)
	// Far below the boil what does not depend on heat remains, 2.3 IBU for each
	// g/L (fitted to four stands of the same article): here 2 g/L, and a few
	// percent of what boiling gives.
	cool := boil.Steep{AlphaPct: 15, MassG: 40, VolumeL: 20, WortSG: 1.05}
	if got, all := boil.IBU(cool, 10, 60), boil.IBU(cool, 10, 100); got < 4.6 || got > 4.6+0.05*all {
		t.Errorf("ten minutes at 60 °C give %v IBU, boiled %v", got, all)
	}
	near(t, "no wort", boil.IBU(boil.Steep{AlphaPct: 5, MassG: 10, WortSG: 1.05}, 10, 85), 0, 0)
	near(t, "no wort, boiled", boil.IBU(boil.Steep{AlphaPct: 5, MassG: 10, WortSG: 1.05}, 10, 100), 0, 0)
	near(t, "no time", boil.IBU(boil.Steep{AlphaPct: 5, MassG: 10, VolumeL: 10, WortSG: 1.05}, 0, 85), 0, 0)
}

// TestStandProperties: cooler gives less but never nothing; there is no jump at
// the boil; more of anything gives more.
func TestStandProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := boil.Steep{
			AlphaPct: rapid.Float64Range(1, 20).Draw(t, "alpha"), MassG: rapid.Float64Range(1, 200).Draw(t, "mass"),
			VolumeL: rapid.Float64Range(3, 60).Draw(t, "volume"), WortSG: rapid.Float64Range(1.02, 1.13).Draw(t, "sg"),
		}
		m := rapid.Float64Range(1, 100).Draw(t, "minutes")
		c := rapid.Float64Range(60, 99).Draw(t, "temperature")
		at := boil.IBU(s, m, c)
		if boiled := boil.IBU(s, m, 100); at > boiled+1e-9 || at <= 0 {
			t.Fatalf("%v IBU at %v °C, %v boiled", at, c, boiled)
		}
		if hotter := boil.IBU(s, m, c+1); hotter < at {
			t.Fatalf("%v IBU at %v °C, %v a degree hotter", at, c, hotter)
		}
		if longer := boil.IBU(s, m+1, c); longer < at {
			t.Fatalf("%v IBU after %v min, %v a minute later", at, m, longer)
		}
		more := s
		more.MassG *= 1.1
		if boil.IBU(more, m, c) <= at {
			t.Fatalf("more hops: %v after %v", boil.IBU(more, m, c), at)
		}
		// Twice the hops in twice the wort are as bitter.
		twice := s
		twice.MassG, twice.VolumeL = 2*s.MassG, 2*s.VolumeL
		if got := boil.IBU(twice, m, c); math.Abs(got-at) > 1e-9*at {
			t.Fatalf("twice as much of all: %v, %v", got, at)
		}
		if jump := boil.IBU(s, m, 100) - boil.IBU(s, m, 99.999); jump > 0.01*at {
			t.Fatalf("jump of %v IBU at the boil", jump)
		}
	})
}

// TestGateField: 14 g of 5.2 % for an hour in 16.4 L of 1.043: Tinseth alone
// gives 44.4 mg/L * 0.246 = 10.9 IBU; ten minutes of stand and the run-off add a
// little; late honey thins by 0.39 L in 15.
func TestGateField(t *testing.T) {
	t.Parallel()
	b := gateField().Bitterness()
	low, mid, high := b.Low, b.Mid, b.High
	if mid < 10.9 || mid > 11.6 || low > 0.8*mid || high < 1.2*mid {
		t.Errorf("bitterness %v (%v to %v)", mid, low, high)
	}
	d := gateField()
	d.BeerShare = 15 / 15.388
	thinned := d.Bitterness()
	near(t, "with late honey", thinned.Mid/mid, 15/15.388, 1e-9)
	near(t, "its low end", thinned.Low/low, 15/15.388, 1e-9)
	near(t, "its high end", thinned.High/high, 15/15.388, 1e-9)
}

func TestBitternessOfBrew(t *testing.T) {
	t.Parallel()
	ibu := func(change func(d *boil.Brew)) float64 {
		d := gateField()
		change(&d)
		b := d.Bitterness()
		if !(b.Low <= b.Mid && b.Mid <= b.High && b.Low >= 0) {
			t.Errorf("%v", b)
		}
		return b.Mid
	}
	base := ibu(func(*boil.Brew) {})
	whirlpool := ibu(func(d *boil.Brew) { d.Hops[0].Whirlpool = true })
	if whirlpool <= 0 || whirlpool >= base {
		t.Errorf("in the whirlpool %v IBU, in the boil %v", whirlpool, base)
	}
	if cool := ibu(func(d *boil.Brew) { d.Hops[0].Whirlpool, d.WhirlpoolStartC = true, 70 }); cool <= 0 || cool >= whirlpool {
		t.Errorf("a whirlpool at 70 °C gives %v IBU, at 96 %v", cool, whirlpool)
	}
	if longer := ibu(func(d *boil.Brew) { d.StandMinutes = 40 }); longer <= base {
		t.Errorf("a longer stand gives %v IBU, not more than %v", longer, base)
	}
	if high := ibu(func(d *boil.Brew) { d.AltitudeM = 3000 }); high >= base {
		t.Errorf("at 3000 m %v IBU, at the sea %v", high, base)
	}
	// The low end of boiled hops leaves the stand out, so no stand moves it; that
	// of hops in the whirlpool has nothing else.
	low := func(whirlpool bool, stand float64) float64 {
		d := gateField()
		d.Hops[0].Whirlpool, d.StandMinutes = whirlpool, stand
		return d.Bitterness().Low
	}
	near(t, "low end after a longer stand", low(false, 40), low(false, 5), 1e-9)
	if short, long := low(true, 5), low(true, 40); long <= short || short <= 0 {
		t.Errorf("low end of a whirlpool %v, of a longer one %v", short, long)
	}
	// Minutes of a hop beyond the boil are the boil's.
	near(t, "hop boiled longer than the boil", ibu(func(d *boil.Brew) { d.Hops[0].Minutes = 90 }), base, 1e-9)
	// Saturation counts all charges: two halves are one whole.
	halves := func(d *boil.Brew) {
		d.Hops[0].MassG = 150
		d.Hops = append(d.Hops, d.Hops[0])
	}
	near(t, "two halves", ibu(halves), ibu(func(d *boil.Brew) { d.Hops[0].MassG = 300 }), 1e-6)
	near(t, "no hops", ibu(func(d *boil.Brew) { d.Hops = nil }), 0, 0)
	if b := (boil.Brew{Hops: gateField().Hops, BeerShare: 1}).Bitterness(); b != (boil.Band{}) {
		t.Errorf("no wort: %v", b)
	}
}

func TestStand(t *testing.T) {
	t.Parallel()
	s := gateField().Stand()
	near(t, "minutes", s.Minutes, 10+16.4/2/2, 1e-9)
	near(t, "start", s.StartC, 96, 0)
	if s.EndC > 93 || s.EndC < 85 || s.BoilingMinutes <= 0 || s.BoilingMinutes >= s.Minutes {
		t.Errorf("%+v", s)
	}
	// Hotter at first and cooler at last than where the run-off begins.
	if most, least := s.Minutes*boil.RelativeRate(s.StartC), 10*boil.RelativeRate(s.EndC); s.BoilingMinutes > most || s.BoilingMinutes < least {
		t.Errorf("worth %v minutes of boiling, not %v to %v", s.BoilingMinutes, least, most)
	}
	high := gateField()
	high.AltitudeM = 3000
	if got := high.Stand().StartC; got >= 91 {
		t.Errorf("at 3000 m the whirlpool starts at %v °C", got)
	}
	none := gateField()
	none.WhirlpoolMinutes, none.StandMinutes, none.VolumeL = 0, 0, 0
	if got := none.Stand(); got.BoilingMinutes != 0 || got.Minutes != 0 {
		t.Errorf("no stand and no wort: %+v", got)
	}
}

// TestMostIBU: beer holds about 120 (from memory); who adds more gets no more,
// and each charge its part of it.
func TestMostIBU(t *testing.T) {
	t.Parallel()
	b := gateField()
	b.Hops = []boil.Charge{{AlphaPct: 15, MassG: 5000, Minutes: 60}, {AlphaPct: 15, MassG: 5000, Whirlpool: true}}
	all, asked := b.Bitterness(), 0.0
	for _, h := range b.Undissolved() {
		asked += h.Mid
	}
	near(t, "bitterness", all.Mid, boil.MostIBU, 1e-9)
	near(t, "its high end", all.High, 7*boil.MostIBU/6, 1e-9)
	if by := b.ByCharge(); asked < 2*boil.MostIBU || !(by[0].Mid > by[1].Mid && by[1].Mid > 0) {
		t.Errorf("asked %v, by charge %v", asked, by)
	}
	near(t, "ordinary hops", gateField().Undissolved()[0].Mid, gateField().Bitterness().Mid, 0)
}
