package learn

import (
	"math"

	"skep/calc"
	"skep/calc/ferment"
)

// Engine is the doubts as the engine takes them (package calc, SetDoubts), held
// within what it takes.
func (x Doubts) Engine() calc.Doubts {
	out := calc.Doubts{
		EfficiencySD: min(x.EfficiencySD, 20), MaltSD: min(x.MaltSD, 20), SweetShare: min(x.SweetShare, 1),
		RestShiftC: min(max(x.RestShiftC, -10), 10), Dryness: x.Dryness.palate(), Body: x.Body.palate(),
	}
	for _, c := range x.Clock {
		clock := calc.Clock{Share: min(c.Share, 4)}
		if c.TimeFactor > 0 {
			// A time fifteen times the usual is no pace but a mistake in a log.
			f := min(max(c.TimeFactor, 1.0/15), 15)
			clock.LagHours, clock.RateFactor = f*ferment.UsualLagHours, 1/f
		}
		out.Clocks = append(out.Clocks, clock)
	}
	return out
}

func (t TasteDoubts) palate() calc.Palate {
	if !t.Known {
		return calc.Palate{}
	}
	return calc.Palate{Shift: min(max(t.Offset, -100), 100), SD: min(math.Hypot(t.SD, t.TastingSD), 100)}
}
