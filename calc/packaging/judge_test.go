package packaging_test

import (
	"testing"

	"skep/calc/packaging"
)

func at(days, sg float64) packaging.Reading {
	return packaging.Reading{Days: days, SG: sg, Warm: true}
}

func cold(days, sg float64) packaging.Reading { return packaging.Reading{Days: days, SG: sg} }

func TestJudge(t *testing.T) {
	t.Parallel()
	ordinary := packaging.Plan{PlannedVolumes: 2.4, RatedVolumes: 3}
	slow := ordinary
	slow.Tails = []packaging.Tail{packaging.TailOf(packaging.EatsDextrin)}
	raw := ordinary
	raw.Tails = []packaging.Tail{packaging.TailOf(packaging.RawHoney)}
	over := ordinary
	over.PlannedVolumes = 3.2
	type readings = []packaging.Reading
	forced := &packaging.Forced{EndSG: 1.010}
	heated := &packaging.Forced{EndSG: 1.010, Heated: true}
	higher := &packaging.Forced{EndSG: 1.006}
	for _, c := range []struct {
		name    string
		plan    packaging.Plan
		seen    readings
		forced  *packaging.Forced
		verdict packaging.Verdict
		reason  packaging.Reason
	}{
		{"nothing", ordinary, nil, nil, packaging.Wait, packaging.NoReading},
		{"one", ordinary, readings{at(9, 1.010)}, nil, packaging.Wait, packaging.OneOnly},
		{"a day apart", ordinary, readings{at(9, 1.010), at(10, 1.010)}, nil, packaging.Wait, packaging.OneOnly},
		{"two days apart", ordinary, readings{at(9, 1.010), at(11, 1.010)}, nil, packaging.Within, packaging.Equal},
		{"a mark of noise", ordinary, readings{at(9, 1.010), at(11, 1.011)}, nil, packaging.Within, packaging.Equal},
		{"a mark lower", ordinary, readings{at(9, 1.011), at(11, 1.010)}, nil, packaging.Within, packaging.Equal},
		{"falling", ordinary, readings{at(9, 1.012), at(11, 1.010)}, nil, packaging.Wait, packaging.Falling},
		{"cold", ordinary, readings{at(7, 1.010), cold(9, 1.010), cold(11, 1.010)}, nil, packaging.Wait, packaging.OneOnly},
		{"before the start", ordinary, readings{at(0, 1.050), at(2, 1.050)}, nil, packaging.Wait, packaging.Stalled},
		{"high up", ordinary, readings{at(9, 1.020), at(11, 1.020)}, nil, packaging.Wait, packaging.Stalled},
		{"high up and falling", ordinary, readings{at(9, 1.024), at(11, 1.020)}, nil, packaging.Wait, packaging.AboveBand},
		{"in the band's tail", ordinary, readings{at(9, 1.013), at(11, 1.013)}, nil, packaging.Wait, packaging.UpperEnd},
		{"in the band's tail for three weeks", ordinary, readings{at(9, 1.013), at(11, 1.013), at(30, 1.013)}, nil, packaging.Wait, packaging.UpperEnd},
		{"in the band's tail, and forced there", ordinary, readings{at(9, 1.013), at(11, 1.013)}, &packaging.Forced{EndSG: 1.013}, packaging.Within, packaging.ByForced},
		{"drier than expected", ordinary, readings{at(9, 1.004), at(11, 1.004)}, nil, packaging.Within, packaging.Equal},
		{"over", over, readings{at(9, 1.010), at(11, 1.010)}, nil, packaging.Over, packaging.PlanOver},
		{"slow, two days", slow, readings{at(9, 1.010), at(11, 1.010)}, nil, packaging.Wait, packaging.TooSoon},
		{"slow, nine days", slow, readings{at(9, 1.010), at(18, 1.010)}, nil, packaging.Wait, packaging.TooRough},
		{"slow, three weeks", slow, readings{at(9, 1.010), at(14, 1.010), at(19, 1.010), at(25, 1.010), at(31, 1.010)}, nil, packaging.Within, packaging.Equal},
		{"slow, forced", slow, readings{at(9, 1.010), at(11, 1.010)}, forced, packaging.Within, packaging.ByForced},
		{"slow, forced lower", slow, readings{at(9, 1.010), at(11, 1.010)}, higher, packaging.Wait, packaging.Stalled},
		{"ordinary, forced heated", ordinary, readings{at(9, 1.010), at(11, 1.010)}, heated, packaging.Within, packaging.ByForced},
		{"raw honey, forced heated", raw, readings{at(9, 1.010), at(11, 1.010)}, heated, packaging.Wait, packaging.TooSoon},
	} {
		g := packaging.New(c.plan)
		j := g.Judge(c.seen, packaging.Band{Low: 1.008, High: 1.012}, c.forced)
		if j.Verdict != c.verdict || j.Reason != c.reason {
			t.Errorf("%s: %s, %s, want %s, %s (%+v)", c.name, j.Verdict, j.Reason, c.verdict, c.reason, j)
		}
	}
}

func TestWarm(t *testing.T) {
	t.Parallel()
	near(t, "ale", packaging.WarmC(19), 15, 0)
	near(t, "lager", packaging.WarmC(10), 8, 0)
}

// One reading a mark off does not unsay that a beer has ended, though the bottle waits
// for another; two do, and so does one that is further off.
func TestOneMarkDoesNotUndoTheEnd(t *testing.T) {
	t.Parallel()
	g := packaging.New(packaging.Plan{PlannedVolumes: 2.4, RatedVolumes: 3})
	stood := []packaging.Reading{at(9, 1.0105), at(10, 1.010), at(11, 1.0105), at(12, 1.010)}
	for _, c := range []struct {
		name  string
		more  []packaging.Reading
		ended bool
	}{
		{"none", nil, true},
		{"a mark lower", []packaging.Reading{at(13, 1.009)}, true},
		{"a mark higher", []packaging.Reading{at(13, 1.0115)}, true},
		{"two marks lower", []packaging.Reading{at(13, 1.008)}, false},
		{"lower twice", []packaging.Reading{at(13, 1.009), at(14, 1.008)}, false},
	} {
		j := g.Judge(append(append([]packaging.Reading(nil), stood...), c.more...), packaging.Band{Low: 1.006, High: 1.012}, nil)
		if j.Ended != c.ended {
			t.Errorf("%s: ended %v, %+v", c.name, j.Ended, j)
		}
	}
}
