package ferment

import (
	"skep/calc/alcohol"
	"skep/calc/density"
)

// CO2PerExtract is the carbon dioxide made of fermented extract, g/g (Balling).
const CO2PerExtract = alcohol.CO2PerExtract

// GravitySG is what a hydrometer shows at 20 °C in a beer of which so much
// extract went in and so much of that has fermented, both in g per litre. It
// is the mass balance that every course ends in:
//
//	OE  original extract, °P, of the extract that went in
//	f   = OE · fermented/extract, g per 100 g of wort
//	RE  = 100 (OE - f)/(100 - (0.9565 + 0.11) f/2.0665)     real extract, °P
//	AE  = (RE - 0.1808 OE)/0.8192                             apparent extract, °P
//
// (Balling; design notes, section 1.) Apparent extract may fall below zero.
// Extract must not be negative; fermented beyond it counts as all of it.
func GravitySG(extractGPerL, fermentedGPerL float64) float64 {
	if !(extractGPerL > 0) {
		return 1
	}
	return gravityAt(density.PlatoFromGramsPerLitre(extractGPerL), fermentedGPerL/extractGPerL)
}

// gravityAt is the same by °P and the share fermented.
func gravityAt(originalPlato, share float64) float64 {
	re := alcohol.RealExtractAfter(originalPlato, min(max(share, 0), 1))
	return density.QuickSG(alcohol.ApparentExtract(originalPlato, re))
}

// Heats of fermentation, kJ per mol of hexose, maltose and maltotriose (Gee &
// Ramirez 1994, design notes, section 4).
var heatKJPerMol = [3]float64{91.2, 226.3, 361.3}

// wortHeatKJPerLK is the heat capacity of a litre of wort, kJ/K: 12 °P, 1.047
// kg/L at 4.0 kJ/kg/K (common practice, no source).
const wortHeatKJPerLK = 4.19

// heatKJPerL is the heat of fermenting all of a state, kJ per litre of the wort
// pitched. Dextrin counts as hexose.
func heatKJPerL(y *State) float64 {
	h := 0.0
	for i, q := range heatKJPerMol {
		h += q * y[i] / 1000
	}
	return h + heatKJPerMol[0]*y[iD]/hexoseMass
}
