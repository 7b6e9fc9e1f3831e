package water

import (
	"math"

	"skep/calc/density"
)

// longestBoilMin is when boiling longer is no answer any more: a day.
const longestBoilMin = 24 * 60

// Correction is what to do when the wort before the boil is not as strong as
// planned; one of the two is 0.
type Correction struct {
	AddL          float64 // cool water to add
	LongerMinutes float64 // to boil longer
}

// Correct works out how wort of volumeL (cool) and nowSG comes to wantedSG by
// adding water or by boiling longer at steamLPerH. ok is false where neither
// helps: no extract, no wort or no steam.
func Correct(volumeL, nowSG, wantedSG, steamLPerH float64) (c Correction, ok bool) {
	now, wanted := density.PlatoFromSG(nowSG), density.PlatoFromSG(wantedSG)
	if !(volumeL > 0) || !(now > 0) || !(wanted > 0) {
		return Correction{}, false
	}
	massKg := volumeL * density.KgM3FromSG(nowSG) / litresPerM3
	addL := massKg * (now/wanted - 1) / coolWaterKgPerL()
	if addL >= 0 {
		return Correction{AddL: addL}, true
	}
	minutes := math.Abs(addL) / steamLPerH * 60
	if !(steamLPerH > 0) || minutes > longestBoilMin {
		return Correction{}, false
	}
	return Correction{LongerMinutes: minutes}, true
}
