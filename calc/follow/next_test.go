package follow

import (
	"math"
	"math/rand/v2"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/nextreading"
)

// What is said of another gravity is what comes of it: readings as the posterior's
// own draws would give them are made and followed, and the band of the final gravity
// narrows on average by as much as was said (which is by draws alone, without any
// update).
func TestTheNextReadingNarrowsAsItSays(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Honey = nil
	d.Reading = middling(t, d, 0, 24, 48)
	b := follow(t, d, 50)
	width := func(v calc.Band) float64 { return v.High - v.Low }
	for _, w := range b.Next() {
		if w.What != nextreading.Gravity {
			continue
		}
		hour := b.Timeline.NowHours + w.Hours
		said := w.Narrowings[0].Then / w.Narrowings[0].Now
		r := rand.New(rand.NewPCG(2, 7))
		then, n := 0.0, 0.0
		for j := 8; j < len(b.evened); j += 16 {
			var l evaluation
			b.model.run(&b.evened[j], &l)
			sg := l.At(hour).GravitySG + spindleSD*b.evened[j][iSpindle] + math.Hypot(hydrometerSD, courseSD(l.At(hour).GravitySG, b.After.EffectiveOriginalGravitySG.Mid, b.After.FinalGravitySG.Mid))*r.NormFloat64()
			more := d.Clone()
			more.Reading = append(more.Reading, reading(measured.Gravity, hour, sg))
			next := follow(t, more, hour+0.1)
			then, n = then+width(next.After.FinalGravitySG), n+1
		}
		was := width(b.After.FinalGravitySG)
		t.Logf("in %v h: said %.2f of the band is left, %.0f readings leave %.2f", w.Hours, said, n, then/n/was)
		if math.Abs(then/n/was-said) > 0.15 {
			t.Errorf("in %v h: said %.2f of the band is left, readings leave %.2f", w.Hours, said, then/n/was)
		}
		if said > 0.97 {
			t.Errorf("another reading on the way is said to tell nothing (%.2f)", said)
		}
	}
}

// What is known already is not asked for again, and nothing is asked of a beer that
// is done but what lasts.
func TestNextAsksForNothingKnown(t *testing.T) {
	t.Parallel()
	asked := func(d design.Design, now float64) map[string]bool {
		b := follow(t, d, now)
		out := map[string]bool{}
		for _, w := range b.Next() {
			if out[w.What] {
				t.Errorf("%s twice", w.What)
			}
			out[w.What] = true
			for _, n := range w.Narrowings {
				if !(n.Then > 0 && n.Then < 1.1*n.Now) {
					t.Errorf("%s: %+v", w.What, n)
				}
			}
		}
		return out
	}
	d := demotest.Design(t, "middle")
	d.Reading = nil
	if got := asked(d, 0); got[nextreading.Gravity] || !got[nextreading.Thermometer] || !got[nextreading.Moisture] {
		t.Errorf("before pitching: %v", got)
	}
	d.Reading = middling(t, d, 0, 24)
	if got := asked(d, 30); !got[nextreading.Gravity] || !got[nextreading.Forced] || !got[nextreading.Beer] {
		t.Errorf("on its way: %v", got)
	}
	d.Reading = append(d.Reading, reading(measured.BeerTemperature, 25, 19), reading(measured.ForcedFerment, 28, 1.009))
	if got := asked(d, 30); got[nextreading.Forced] || got[nextreading.Beer] {
		t.Errorf("with both measured: %v", got)
	}
	d.Reading = append(d.Reading, reading(measured.FinalGravity, 400, 1.009))
	if got := asked(d, 401); got[nextreading.Gravity] || got[nextreading.Forced] {
		t.Errorf("when it is done: %v", got)
	}
}
