package follow

import (
	"math"
	"slices"

	"skep/calc"
	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/measured"
	"skep/calc/nextreading"
)

// Errors of what could be measured, 1 sd, both ours.
const (
	forcedSD    = 0.001 // SG: the same yeast in the warm, shaken, against the brew
	beerThermoC = 0.3   // a thermometer in the beer, and how its mean over the days is guessed
)

// nextHours are when another gravity could be read, from now.
var nextHours = [...]float64{6, 12, 24, 48}

// nextShown is what the draws would show at those hours, and where they would end
// with what is in now.
type nextShown struct {
	gravity                  [len(nextHours)][]float64
	end                      []float64
	final, strength, dryness []float64
}

func newNextShown(n int) nextShown {
	s := nextShown{end: make([]float64, n), final: make([]float64, n), strength: make([]float64, n), dryness: make([]float64, n)}
	for k := range s.gravity {
		s.gravity[k] = make([]float64, n)
	}
	return s
}

func (s *nextShown) note(i int, x *calc.Draw, nowHours float64) {
	for k, h := range nextHours {
		s.gravity[k][i] = x.GravityAt(nowHours + h)
	}
	s.end[i] = x.EndSG(nowHours)
	s.final[i], s.strength[i], s.dryness[i] = x.Beer.FinalGravitySG, x.Beer.ABVPct, x.Beer.Dryness
}

// Next is what could be measured now, the most telling first. It is worked out when
// it is asked for first, which takes about a third of the time of [Follower.Follow].
func (b *Batch) Next() []nextreading.Worth {
	if b.next == nil {
		b.next = b.rankNext()
	}
	return b.next
}

func (b *Batch) rankNext() []nextreading.Worth {
	rows, shown := nextreading.Rows(b.Engine), &b.shown
	list := nextreading.Lasting(b.model.brew, rows)
	t := &b.Timeline
	if t.Pitched && len(t.Used(measured.FinalGravity)) == 0 {
		spindle := func(sg []float64) []float64 {
			for i := range sg {
				if i < len(b.evened) { // what was read before has told of the hydrometer
					sg[i] += spindleSD * b.evened[i][iSpindle]
				}
			}
			return sg
		}
		own := hydrometerSD
		if b.evened == nil {
			own = math.Hypot(own, spindleSD)
		}
		for k, h := range nextHours {
			sd := math.Hypot(own, courseSD(calc.BandOf(slices.Clone(shown.gravity[k])).Mid, b.After.EffectiveOriginalGravitySG.Mid, b.After.FinalGravitySG.Mid))
			list = append(list, nextreading.Candidate{What: nextreading.Gravity, Hours: h, Shows: spindle(shown.gravity[k]), SD: sd})
		}
		if t.Forced() == nil {
			list = append(list, nextreading.Candidate{What: nextreading.Forced, Shows: spindle(shown.end), SD: math.Hypot(own, forcedSD)})
		}
	}
	if b.Conditioned.BeerSD == 0 {
		warmer := make([]float64, len(rows))
		for i := range rows {
			warmer[i] = ferment.UsualTemperatureErrorC * rows[i][doubt.BeerTemperature]
		}
		list = append(list, nextreading.Candidate{What: nextreading.Beer, Shows: warmer, SD: beerThermoC})
	}
	qualities := nextreading.QualitiesOf(shown.final, shown.strength, shown.dryness)
	if len(b.Conditioned.HoneyLeft) > 0 && len(b.times) == len(rows) {
		opens := make([]float64, len(b.times))
		for i := range b.times {
			opens[i] = b.times[i].Window[0]
		}
		if calc.BandOf(slices.Clone(opens)).High > t.NowHours {
			qualities = append(qualities, nextreading.Quality{Key: "honey_moment_hours", Values: opens})
		}
	}
	return bestOfEach(nextreading.Rank(list, qualities))
}

// hydrometerSD is a reading's own error, SG, unless said.
const hydrometerSD = 0.0005

// bestOfEach keeps of one measurement at several hours the best.
func bestOfEach(all []nextreading.Worth) []nextreading.Worth {
	seen := map[string]bool{}
	out := []nextreading.Worth{}
	for _, w := range all {
		if !seen[w.What] {
			seen[w.What] = true
			out = append(out, w)
		}
	}
	return out
}
