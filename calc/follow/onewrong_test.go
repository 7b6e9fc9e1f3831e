package follow

import (
	"slices"
	"strings"
	"testing"

	"skep/assets/demotest"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/message"
)

// One wrong reading does not flip the honey advice: with 1.043 and 1.030 an invented
// 1.035 at 60 h leaves the moment where it was, and when 1.020 follows it is the 1.035
// that is doubted and not the 1.030. So too for a wrong one that is too low.
func TestOneWrongReadingDoesNotMoveTheHoney(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	for i := range d.Grain {
		d.Grain[i].MassKg *= 1.19 // an original gravity of 1.048
	}
	good := []design.Reading{reading(measured.Pitched, 0, 1), reading(measured.OriginalGravity, 0, 1.048), reading(measured.Gravity, 24, 1.043), reading(measured.Gravity, 44, 1.030)}
	bad, next := reading(measured.Gravity, 60, 1.035), reading(measured.Gravity, 78, 1.020)
	with := func(now float64, more ...design.Reading) *Batch {
		d.Reading = append(slices.Clone(good), more...)
		return follow(t, d, now)
	}
	advised := func(b *Batch, words string) bool {
		return slices.ContainsFunc(b.State.Advice, func(a message.Message) bool { return strings.Contains(a.String(), words) })
	}
	right, wrong := with(60.1), with(60.1, bad)
	if wrong.Moment.Phase != right.Moment.Phase || wrong.Moment.Opens != right.Moment.Opens || wrong.Moment.Closes != right.Moment.Closes {
		t.Errorf("with the bad reading the moment is %s %v %v, without it %s %v %v", wrong.Moment.Phase, wrong.Moment.Opens, wrong.Moment.Closes, right.Moment.Phase, right.Moment.Opens, right.Moment.Closes)
	}
	if !advised(wrong, "1.035 at 60 h does not fit") || advised(right, "does not fit") {
		t.Errorf("advice %v, without the bad reading %v", wrong.State.Advice, right.State.Advice)
	}
	right, wrong = with(78.1, next), with(78.1, bad, next)
	for _, p := range wrong.Timeline.Points {
		if p.What == measured.Gravity && p.Used != (p.Hours != 60) {
			t.Errorf("%.3f at %.0f h: used %v, flags %v", p.Value, p.Hours, p.Used, p.Flags)
		}
	}
	if wrong.Moment.Phase != right.Moment.Phase || wrong.Moment.Opens != right.Moment.Opens {
		t.Errorf("afterwards %s %v, without the bad one %s %v", wrong.Moment.Phase, wrong.Moment.Opens, right.Moment.Phase, right.Moment.Opens)
	}
	// A low one among four is the odd one out.
	low := with(78.1, reading(measured.Gravity, 52, 1.012), reading(measured.Gravity, 64, 1.0235), next)
	for _, p := range low.Timeline.Points {
		if p.What == measured.Gravity && p.Used != (p.Hours != 52) {
			t.Errorf("low: %.4f at %.0f h: used %v", p.Value, p.Hours, p.Used)
		}
	}
	// One reading alone is said to be alone.
	good = good[:3]
	if b := with(24.1); !advised(b, "hangs on a single reading, 1.043 at 24 h") {
		t.Errorf("advice on one reading: %v", b.State.Advice)
	}
	good = append(good, reading(measured.Gravity, 44, 1.030))
	if b := with(44.1); advised(b, "single reading") {
		t.Errorf("advice on two readings: %v", b.State.Advice)
	}
}
