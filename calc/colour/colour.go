// Package colour says how dark a wort or beer will be.
//
// Malts in kg and EBC and litres of wort come in, EBC goes out. It must not know a
// design.
//
// Malt colour comes in EBC; the trade's rule wants degrees Lovibond. Malt colour
// units MCU = sum(lb * °L)/US gal = 8.3454 * sum(kg * °L)/L, then Morey's
// SRM = 1.4922 MCU^0.6859, meant for SRM below 50, and EBC = 1.9685 SRM
// (25/12.7, by the two definitions).
//
// Sources: MCU as printed in a brewing encyclopaedia; D. A. Morey's own letter
// (his fit assumed MCU = SRM up to 10.5, Daniels' rule to 37, Mosher's above);
// 10 °L about 12.7 SRM and 40 °L about 53.4 SRM from an encyclopaedia, and the
// line through them, SRM = 1.3546 °L - 0.76, from memory. Beware of a copy that
// prints Morey's exponent as 0.65896859.
//
// The rules behind the fit part by a third for pale beers, and boil and age
// darken: the band is a quarter either way.
package colour

import (
	"math"

	"skep/calc/units"
)

const (
	mcuPerKgLovibondL = units.LitresPerUSGallon / units.KilogramsPerPound // 8.3454 (lb/US gal)/(kg/L)
	moreyFactor       = 1.4922
	moreyExponent     = 0.6859
	lovibondSlope     = 1.3546 // SRM per °L
	lovibondOffset    = 0.76   // SRM
	relativeDoubt     = 0.25   // half the 10 to 90 band, ours
)

// MaxMoreySRM is where Morey's fit ends.
const MaxMoreySRM = 50.0

// LovibondFromEBC is a malt's colour in degrees Lovibond. The line through the
// published pairs crosses the pale end above zero; below about 4 EBC the scales
// are taken as one, so that no colour stays none.
func LovibondFromEBC(ebc float64) float64 {
	srm := units.SRMFromEBC(math.Max(0, ebc))
	return math.Min(srm, (srm+lovibondOffset)/lovibondSlope)
}

// EBCFromLovibond is the inverse of [LovibondFromEBC].
func EBCFromLovibond(lovibond float64) float64 {
	l := math.Max(0, lovibond)
	return units.EBCFromSRM(math.Max(l, lovibondSlope*l-lovibondOffset))
}

// MCU is malt colour units of one malt: its mass and °L in the volume it
// colours; 0 where there is no volume.
func MCU(massKg, lovibond, volumeL float64) float64 {
	if !(volumeL > 0) {
		return 0
	}
	return mcuPerKgLovibondL * massKg * lovibond / volumeL
}

// MoreySRM is the colour of malt colour units, SRM. Meant for SRM below 50.
func MoreySRM(mcu float64) float64 {
	if !(mcu > 0) {
		return 0
	}
	return moreyFactor * math.Pow(mcu, moreyExponent)
}

// MoreyEBC is [MoreySRM] in EBC.
func MoreyEBC(mcu float64) float64 { return units.EBCFromSRM(MoreySRM(mcu)) }

// Beer is the colour of malt colour units in EBC as 10th, 50th and 90th
// percentile. Honey's own colour is left out: small, and not stated on the jar.
func Beer(mcu float64) (low, mid, high float64) {
	mid = MoreyEBC(mcu)
	return mid * (1 - relativeDoubt), mid, mid * (1 + relativeDoubt)
}
