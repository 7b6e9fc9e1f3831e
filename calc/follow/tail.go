package follow

import (
	"math"

	"skep/calc/density"
	"skep/calc/doubt"
)

// A course ends sooner than many beers do: what is left when most has gone,
// maltotriose above all, goes slowly, over days. So a gravity read late may stand
// above its course by a tail that fades: without it the end of a beer that still
// creeps would be taken for known. Of the measured series of testdata/ferment the
// small-scale ones creep so; how much and how long is ours.
const (
	tailShare     = 0.01 // of the whole fall, the middle of what is behind half way down
	tailSpread    = 5.0  // times so much at the 90th percentile
	tailHalfHours = 48.0
)

// tail is how much a gravity stands above its course, SG.
func (m *model) tail(t *theta, l *evaluation, hours, sg float64) float64 {
	from := density.QuickSG(l.EffectivePlato)
	fall := from - l.FinalGravitySG
	if !(fall > 0) {
		return 0
	}
	done := min(max((from-sg)/fall, 0), 1)
	faded := math.Exp2(-max(hours-m.heightHours, 0) / tailHalfHours)
	return tailShare * fall * math.Exp(t[iTail]*math.Log(tailSpread)/doubt.Z90) * done * done * faded
}
