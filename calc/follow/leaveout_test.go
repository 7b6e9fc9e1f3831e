package follow

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"skep/assets/demotest"
	"skep/calc/measured"
)

// What the others make of a reading, by the draws of all, is what draws made without it
// make of it: where leftESS of them count, means agree within a third of its sd and sds
// within a quarter of themselves. With one 8 points off, it alone is not what the others
// expect.
func TestLeavingOneOut(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Honey = nil
	x := newBrewer(t, d, rand.New(rand.NewPCG(3, 1)))
	right := x.readings(20, 32, 44, 56, 70, 94, 130)
	for _, off := range []float64{0, 0.008} {
		readings := slices.Clone(right)
		readings[6].Value += off
		tl := measured.NewTimeline(readings, at(131), measured.Instruments{})
		all := target{m: x.m, obs: observed(&tl, 1.0425, 1.009), untimed: true, nowHours: 131, heightHours: 44}
		for j := range dims {
			if j != iHeight && j != iRefractometer {
				all.free = append(all.free, j)
			}
		}
		s, _ := all.solve()
		count := 0
		for i := range all.obs {
			by, ess := all.others(&s, i)
			_, _, want := all.without(i)
			if ess >= leftESS {
				count++
				if math.Abs(by.mean-want.mean) > want.sd/3 || math.Abs(by.sd/want.sd-1) > 0.25 {
					t.Errorf("%.0f h: %.4f sd %.4f, without it %.4f sd %.4f", all.obs[i].hour, by.mean, by.sd, want.mean, want.sd)
				}
			}
			if wrong := off > 0 && all.obs[i].hour == 70; wrong != (want.chance < doubtChance/8) {
				t.Errorf("%.0f h: chance %.3g", all.obs[i].hour, want.chance)
			}
		}
		if off == 0 && count < 6 {
			t.Errorf("draws that count suffice for %d of %d readings", count, len(all.obs))
		}
	}
}
