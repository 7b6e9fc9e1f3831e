package measured

import (
	"testing"

	"skep/calc/design"
)

func flagged(t *testing.T, tl *Timeline, what string, hours float64, code FlagCode, used bool) {
	t.Helper()
	for i := range tl.Points {
		if p := &tl.Points[i]; p.What == what && p.At.Equal(at(hours)) && p.Has(code) {
			if p.Used != used {
				t.Errorf("%s at %g h is %s: used %v", what, hours, code, p.Used)
			}
			return
		}
	}
	t.Errorf("no %s at %g h is %s", what, hours, code)
}

func TestTimeline(t *testing.T) {
	t.Parallel()
	r := []design.Reading{
		reading(OriginalGravity, -1, 1.0425), reading(Pitched, 0, 1),
		reading(Gravity, 40, 1.0300), reading(Gravity, 20, 1.0400), // out of order
		reading(Gravity, 40, 1.0300),                                // doubled
		reading(Gravity, -5, 1.0420),                                // before pitching
		reading(Gravity, 80, 1.0150), reading(Gravity, 500, 1.0090), // after a gap
		reading(Gravity, 2000, 1.0090), // in the future
		reading(HoneyAdded, 70, 0.5), reading(Foam, 75, 1), reading(HoneyAdded, -2, 0.1),
	}
	tl := NewTimeline(r, at(600), Instruments{})
	tl.Refract(func(float64) (float64, bool) { return 11, false }, 1.06)
	flagged(t, &tl, Gravity, 20, OutOfOrder, true)
	flagged(t, &tl, Gravity, 40, Duplicate, false)
	flagged(t, &tl, Gravity, -5, BeforePitching, false)
	flagged(t, &tl, Gravity, 500, AfterGap, true)
	flagged(t, &tl, Gravity, 2000, Future, false)
	flagged(t, &tl, Foam, 75, AfterHoney, false)
	flagged(t, &tl, HoneyAdded, -2, BeforePitching, true)
	near(t, "now", tl.NowHours, 600, 1e-9)
	for i := 1; i < len(tl.Points); i++ {
		if tl.Points[i].At.Before(tl.Points[i-1].At) {
			t.Error("points are not in order of time")
		}
	}
}

// A gravity that rises without honey says so; with honey it doesn't.
func TestRisingGravity(t *testing.T) {
	t.Parallel()
	r := []design.Reading{reading(Pitched, 0, 1), reading(Gravity, 40, 1.0200), reading(Gravity, 90, 1.0260)}
	tl := NewTimeline(r, at(100), Instruments{})
	tl.Refract(nil, 1.06)
	flagged(t, &tl, Gravity, 90, Rising, true)
	tl = NewTimeline(append(r, reading(HoneyAdded, 60, 0.5)), at(100), Instruments{})
	tl.Refract(nil, 1.06)
	for _, p := range tl.Points {
		if p.Has(Rising) {
			t.Error("rising in spite of the honey")
		}
	}
}

func TestPitchingUnlogged(t *testing.T) {
	t.Parallel()
	tl := NewTimeline([]design.Reading{reading(OriginalGravity, 0, 1.0425), reading(Gravity, 40, 1.03)}, at(50), Instruments{})
	if !tl.Pitched || !tl.Guessed || tl.NowHours != 50 || len(tl.Notes) != 1 {
		t.Errorf("%+v", tl)
	}
	tl = NewTimeline([]design.Reading{reading(OriginalGravity, 0, 1.0425)}, at(50), Instruments{})
	if tl.Pitched || tl.NowHours != 0 {
		t.Errorf("pitched by an original gravity alone: %+v", tl)
	}
}
