package follow

import "math"

// Steady is whether gravity has stood still: two readings by the same
// instrument, two days apart or more, a mark of the hydrometer apart at most,
// with nothing else between them and no honey since the first.
type Steady struct {
	Yes           bool
	SG            float64 // mean of the two
	Hours         float64 // between them
	First, Last   int     // in the timeline; -1 if there is none
	Refractometer bool
}

func (t *Timeline) steady() Steady {
	s := Steady{First: -1, Last: -1}
	gravities := t.used(Gravity, FinalGravity)
	if len(gravities) == 0 {
		return s
	}
	last := gravities[len(gravities)-1]
	s.Last, s.SG, s.Refractometer = t.place(last), last.Value, last.Instrument == refractometer
	if t.honeyBetween(last.Hours, math.Inf(1)) {
		return s
	}
	for i := len(gravities) - 2; i >= 0; i-- {
		p := gravities[i]
		if p.Instrument != last.Instrument {
			continue
		}
		gap := last.Hours - p.Hours
		// What lies between may scatter by twice as much.
		allowed := 2 * equalGravitySG
		if gap >= equalDaysHours {
			allowed = equalGravitySG
		}
		if math.Abs(p.Value-last.Value) > allowed+1e-9 || t.honeyBetween(p.Hours, last.Hours) {
			return s
		}
		if gap >= equalDaysHours {
			s.Yes, s.First, s.Hours, s.SG = true, t.place(p), gap, (p.Value+last.Value)/2
			return s
		}
	}
	return s
}
