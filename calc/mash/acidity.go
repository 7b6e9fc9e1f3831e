package mash

import (
	"math"

	"skep/calc/sugar"
)

// How acidity acts. Infusion mashes of pale malt at 65.5 °C give the most
// fermentable wort at pH 5.4 to 5.6 of the cooled wort, 5.1 to 5.3 in the mash
// (Briggs et al., Brewing Science and Practice, table 4.9, second-hand). No table
// of activity by pH was found; the flat top and how it falls are ours: all
// within 0.15 of the middle, 0.97 at 0.3, 0.90 at 0.5 of it.
const (
	bestPH    = 5.5 // of the wort, cooled
	flatPH    = 0.15
	fallsBy   = 0.4446
	fallPower = 1.421
	// yieldPart is how much of the loss of fermentability the yield shares: extract
	// is greatest at about the same pH and varies less (ours).
	yieldPart = 1.0 / 3
)

// The pH of a mash that [Input] takes, cooled to room temperature.
const lowPH, highPH = 3.0, 9.0

// Acidity is what is left of a mash's fermentability at a pH of the cooled wort,
// 0 to 1; 1 at its best, and where the pH is not known (0).
func Acidity(ph float64) float64 {
	if ph == 0 {
		return 1
	}
	over := math.Abs(ph-bestPH) - flatPH
	if !(over > 0) {
		return 1
	}
	return math.Max(0, 1-fallsBy*math.Pow(over, fallPower))
}

// soured is a wort and its conversion at a pH: what the enzymes did not cut
// stays dextrin.
func soured(wort sugar.Spectrum, conversion, ph float64) (sugar.Spectrum, float64) {
	kept := Acidity(ph)
	lost := (1 - kept) * (wort.Maltose + wort.Maltotriose)
	wort.Maltose, wort.Maltotriose = kept*wort.Maltose, kept*wort.Maltotriose
	wort.Dextrin += lost
	return wort, conversion * (1 - yieldPart*(1-kept))
}
