package follow

import (
	"testing"

	"skep/assets/demotest"
	"skep/calc/design"
	"skep/calc/measured"
)

// A strain that bears less than the beer would come to may stop early: the plan's
// band reaches up to there, and so does that of the pitched beer, until a gravity
// below shows that it has not stopped.
func TestStopsEarlyAfterPitchingToo(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Honey = nil
	d.Yeast[0].TolerancePct = 4.5
	og := reading(measured.OriginalGravity, 0, 1.0425)
	d.Reading = []design.Reading{reading(measured.Pitched, 0, 1), og, reading(measured.Gravity, 24, 1.038)}
	b := follow(t, d, 25)
	plan, early := b.Before.FinalGravitySG, b.After.FinalGravitySG
	if early.High < plan.High-0.002 {
		t.Errorf("a day after pitching the final gravity is %+v, the plan has %+v", early, plan)
	}
	usual := d.Clone()
	usual.Yeast[0].TolerancePct = 12
	if without := follow(t, usual, 25).After.FinalGravitySG; early.High < without.High+0.001 {
		t.Errorf("%+v with a strain that may stop, %+v with one that does not", early, without)
	}
	d.Reading = append(d.Reading, reading(measured.Gravity, 60, 1.017), reading(measured.Gravity, 200, 1.0085))
	if late := follow(t, d, 201).After.FinalGravitySG; late.High > early.High-0.002 {
		t.Errorf("read at 1.0085 the final gravity is still %+v", late)
	}
}
