package follow

import (
	"math"
	"slices"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/recipe"
	"skep/calc/water"
)

func width(b calc.Band) float64 { return b.High - b.Low }

func inputOf(t *testing.T, b *Batch, name string) Input {
	t.Helper()
	i := slices.IndexFunc(b.Inputs, func(x Input) bool { return x.Name == name })
	if i < 0 {
		t.Fatalf("no input %q", name)
	}
	return b.Inputs[i]
}

// wort is a brew day's readings of the wort, hours before pitching.
func wort(what string, hours, value float64) design.Reading { return reading(what, -hours, value) }

// A gravity and a volume before the boil are extract: what of it the plan lacks, the
// yield lacks. Six points in a hundred less extract of a planned yield are so many
// points of it less, by the mass balance, believed as far as the mark and the plan are
// known. Bands are a little wider than normal ones would be: a reading off the plan is
// doubted by the tails of its t.
func TestWortBeforeTheBoilMovesTheYield(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	plan := recipe.Liquor(d)
	planned := follow(t, d, 0)
	yield := inputOf(t, planned, "mash efficiency").After
	less := 0.94
	sg := 1 + less*(plan.PreBoilGravitySG-1)
	for _, withVolume := range []bool{true, false} {
		d.Reading = []design.Reading{wort(measured.PreBoilGravity, 3, sg)}
		if withVolume {
			d.Reading = append(d.Reading, wort(measured.PreBoilVolume, 3, plan.PreBoil))
		}
		b := follow(t, d, 0)
		got := inputOf(t, b, "mash efficiency").After
		// Normal by normal: the yield's own 2 points against the volume's share of it, the
		// mark and the spindle's zero.
		volume := 0.03
		if withVolume {
			volume = 0.02
		}
		doubt := math.Hypot(volume, math.Hypot(0.0005, spindleSD)/(plan.PreBoilGravitySG-1)) * yield.Mid
		believed := 2 * 2 / (2*2 + doubt*doubt)
		near(t, "yield", got.Mid, yield.Mid*(1-believed*(1-less)), 0.4)
		if want := width(yield) * math.Sqrt(1-believed); math.Abs(width(got)-want) > 0.2*want {
			t.Errorf("the band of the yield is %.2f points wide, expected %.2f (%.2f before)", width(got), want, width(yield))
		}
		if b.After.OriginalGravitySG.Mid > planned.After.OriginalGravitySG.Mid-0.0007 {
			t.Errorf("original gravity %.4f, was %.4f", b.After.OriginalGravitySG.Mid, planned.After.OriginalGravitySG.Mid)
		}
	}
}

// Wort is pitched as it is after the boil, so a gravity then tells of the original
// gravity as much as the spindle does; honey of the boil is in it.
func TestWortAfterTheBoilNarrowsTheOriginalGravity(t *testing.T) {
	t.Parallel()
	for _, moment := range []string{design.MomentFermenting, design.MomentBoil, design.MomentWhirlpool, design.MomentPitching} {
		d := demotest.Design(t, "middle")
		d.Honey[0].Moment = moment
		plan := recipe.Liquor(d)
		planned := follow(t, d, 0)
		d.Reading = []design.Reading{wort(measured.PostBoilGravity, 2, plan.PostBoilGravitySG-0.002)}
		b := follow(t, d, 0)
		og, was := b.After.OriginalGravitySG, planned.After.OriginalGravitySG
		// The plan's sd against the mark, the spindle's zero and one part in a hundred of
		// the points.
		before, doubt := width(was)/2.563, math.Sqrt(0.0005*0.0005+spindleSD*spindleSD+math.Pow(0.01*(og.Mid-1), 2))
		believed := before * before / (before*before + doubt*doubt)
		near(t, moment+": original gravity", og.Mid, was.Mid-0.002*believed, 0.0003)
		if want := width(was) * math.Sqrt(1-believed); math.Abs(width(og)-want) > 0.2*want {
			t.Errorf("%s: the band of the original gravity is %.4f wide, expected %.4f (%.4f before)", moment, width(og), want, width(was))
		}
		if width(b.After.StrengthPct) >= width(planned.After.StrengthPct) {
			t.Errorf("%s: strength %+v is no surer than planned, %+v", moment, b.After.StrengthPct, planned.After.StrengthPct)
		}
		if !slices.Contains(b.Conditioned.Hold(), design.LeverGrain) {
			t.Errorf("%s: the grain can still be moved", moment)
		}
	}
}

// What is in the vessel says what reaches the fermenter, as far as the mark is
// believed; a volume in the fermenter is taken as it is, whatever was before.
func TestVolumesOfTheBoilAreFollowed(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	plan := recipe.Liquor(d)
	for _, c := range []struct {
		what    string
		planned float64
	}{{measured.PreBoilVolume, plan.PreBoil}, {measured.PostBoilVolume, plan.PostBoil}} {
		v := 1.06 * c.planned
		d.Reading = []design.Reading{wort(c.what, 2, v)}
		b := follow(t, d, 0)
		believed := 0.03 * 0.03 / (0.03*0.03 + 0.02*0.02*1.06*1.06)
		want := plan.IntoFermenter + believed*water.CoolL(0.06*c.planned, plan.BoilingPointC)
		near(t, c.what+": into the fermenter", b.Conditioned.Design.Batch.IntoFermenterL, want, 1e-9)
		// The extract is what it was: so is gravity times volume, but for what the vessel keeps.
		was := follow(t, demotest.Design(t, "middle"), 0).After.OriginalGravitySG.Mid
		kept := recipe.Liquor(b.Conditioned.Design).KeptShare / plan.KeptShare
		extract := func(sg, litres float64) float64 { return density.GramsPerLitre(density.PlatoFromSG(sg)) * litres }
		near(t, c.what+": extract", extract(b.After.OriginalGravitySG.Mid, want), kept*extract(was, plan.IntoFermenter), 0.005*extract(was, plan.IntoFermenter))

		d.Reading = append(d.Reading, wort(measured.VolumeFermenter, 1, 15.3))
		near(t, c.what+" and the fermenter's", follow(t, d, 0).Conditioned.Design.Batch.IntoFermenterL, 15.3, 1e-9)
		d.Reading = []design.Reading{wort(c.what, 2, 400)}
		near(t, c.what+" that cannot be", follow(t, d, 0).Conditioned.Design.Batch.IntoFermenterL, d.Batch.IntoFermenterL, 1e-9)
	}
}
