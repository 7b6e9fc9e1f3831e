package coldside

import "math"

// Hops carry enzymes that free sugar from dextrin, which the yeast then takes:
// the gravity creeps on. 10 g/L of Cascade at 20 °C took 1 °P of real extract in
// 5 days and about twice that in 40 (Kirkpatrick and Shellhammer, J. Agric. Food
// Chem. 2018, as quoted; 1 °P real is 1.22 °P apparent). Two exponentials meet
// both: a quick part of 5 days, a slow one of 20 (the split is ours).
const (
	creepDoseGPerL = 10.0
	creepQuickP    = 1.585 // °P apparent
	creepQuickDays = 5.0
	creepSlowP     = 0.988
	creepSlowDays  = 20.0
	creepAtC       = 20.0
	creepQ10       = 2.0 // faster by this for 10 °C more: the usual rule for enzymes, from memory
)

// Cascade was among the more active: 60 % above Mosaic, and the field matters. So
// it stands for the high end, half of it for the middle, and nothing for the low
// one (ours).
const creepMidOfHigh = 0.5

// The ranges of the inputs.
const (
	MaxDoseGPerL = 30.0
	MaxCreepDays = 365.0
)

// Fall is a fall of apparent extract, °P, by its 10th, 50th and 90th percentile.
type Fall struct{ Low, Mid, High float64 }

// Creep is how far hops added cold may take the apparent extract down, in days
// with yeast in the beer at temperatureC (held to 0 to 30). Doses up to
// MaxDoseGPerL; in proportion to the dose (ours). Bad numbers give none.
func Creep(doseGPerL, days, temperatureC float64) Fall {
	if !(doseGPerL > 0 && days > 0) || math.IsNaN(temperatureC) {
		return Fall{}
	}
	d := math.Min(days, MaxCreepDays) * math.Pow(creepQ10, (min(max(temperatureC, 0), 30)-creepAtC)/10)
	whole := creepQuickP*-math.Expm1(-d/creepQuickDays) + creepSlowP*-math.Expm1(-d/creepSlowDays)
	high := math.Min(doseGPerL, MaxDoseGPerL) / creepDoseGPerL * whole
	return Fall{Mid: creepMidOfHigh * high, High: high}
}
