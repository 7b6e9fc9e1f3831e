package water

import "skep/calc/density"

// longestBoilMin is when boiling longer is no answer any more: a day.
const longestBoilMin = 24 * 60

// Correction is what to do when the wort before the boil is not as strong as
// planned; one of the two is 0.
type Correction struct {
	AddL          float64 // cool water to add
	LongerMinutes float64 // to boil longer
}

// Correct works out how wort comes to a gravity by adding water or by boiling longer
// at steamLPerH. ok is false where neither helps: no extract, no wort or no steam.
func (l Liquid) Correct(gravitySG, steamLPerH float64) (c Correction, ok bool) {
	lacks, ok := l.WaterL(gravitySG)
	switch minutes := -lacks / steamLPerH * 60; {
	case !ok:
		return Correction{}, false
	case lacks >= 0:
		return Correction{AddL: lacks}, true
	case !(steamLPerH > 0) || minutes > longestBoilMin:
		return Correction{}, false
	default:
		return Correction{LongerMinutes: minutes}, true
	}
}

// WaterL is the water that wort lacks for a gravity, litres at 20 °C: below nought
// it is what has to boil away. ok is false where there is no extract.
func (l Liquid) WaterL(gravitySG float64) (litres float64, ok bool) {
	wanted := density.PlatoFromSG(gravitySG) / 100
	if !(wanted > 0) || !(l.ExtractKg > 0) {
		return 0, false
	}
	return (l.ExtractKg/wanted - l.MassKg()) / coolWaterKgPerL(), true
}

// HoneyKg is the honey that brings wort to a gravity, by extract:
//
//	(E + h (1 - m)) / (M + h) = P
//
// ok is false where no honey does: the wort is as strong, or honey is not.
func (l Liquid) HoneyKg(gravitySG, moisturePct float64) (kg float64, ok bool) {
	wanted, dry := density.PlatoFromSG(gravitySG)/100, 1-moisturePct/100
	kg = (wanted*l.MassKg() - l.ExtractKg) / (dry - wanted)
	return kg, dry > wanted && kg > 0
}
