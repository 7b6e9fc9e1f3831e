package follow

import (
	"math"
	"math/rand/v2"
	"testing"

	"skep/calc/measured"
)

// What the others make of a reading, by the draws of all, is what draws made without it
// make of it. Where the reading may be wrong means agree within a fifth of its sd, sds
// within a sixth of themselves; where it is sure to be right and few draws count without
// it, within half an sd and a third. One is 5 points off.
func TestLeavingOneOut(t *testing.T) {
	t.Parallel()
	d := demo(t, "middle")
	d.Honey = nil
	x := newBrewer(t, d, rand.New(rand.NewPCG(3, 1)))
	readings := x.readings(20, 32, 44, 56, 70, 94, 130)
	readings[6].Value += 0.005
	tl := measured.NewTimeline(readings, at(131), measured.Instruments{})
	all := target{m: x.m, obs: observed(&tl, 1.0425, 1.009), untimed: true, nowHours: 131, heightHours: 44}
	for j := range dims {
		all.free = append(all.free, j)
	}
	s, _ := all.solve()
	for i := range all.obs {
		by := all.others(&s, i)
		rest, _ := all.leave(i).solve()
		want := rest.expected(i, &all.obs[i])
		mean, sd := 1.0/2, 1.0/3
		if by.chance < leftChance {
			mean, sd = 1.0/5, 1.0/6
		}
		if math.Abs(by.mean-want.mean) > mean*want.sd || math.Abs(by.sd/want.sd-1) > sd {
			t.Errorf("%.0f h: %.4f sd %.4f, without it %.4f sd %.4f", all.obs[i].hour, by.mean, by.sd, want.mean, want.sd)
		}
		if off := all.obs[i].hour == 70; off != (by.chance < leftChance) {
			t.Errorf("%.0f h: chance %.3g", all.obs[i].hour, by.chance)
		}
	}
}
