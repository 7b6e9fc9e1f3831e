package water

import "math"

// Acid is an acid at hand, by its mass fraction and density; densities and pKa
// are from memory.
type Acid struct {
	massFraction, kgPerL, molar float64
	pKa                         []float64
}

const (
	lacticMolar, phosphoricMolar = 90.08, 97.99 // g/mol
)

var lacticPKa, phosphoricPKa = []float64{3.86}, []float64{2.15, 7.20}

// usualMashPH is where an acid's equivalents are counted when the mash's pH is
// not known yet.
const usualMashPH = 5.4

func lactic(share, kgPerL float64) Acid { return Acid{share, kgPerL, lacticMolar, lacticPKa} }

// Acids are those that brewers buy, by mass.
func Acids() map[string]Acid {
	phosphoric := func(share, kgPerL float64) Acid { return Acid{share, kgPerL, phosphoricMolar, phosphoricPKa} }
	return map[string]Acid{
		"lactic 80 %": lactic(0.80, 1.19), "lactic 88 %": lactic(0.88, 1.206),
		"phosphoric 10 %": phosphoric(0.10, 1.053), "phosphoric 75 %": phosphoric(0.75, 1.579), "phosphoric 85 %": phosphoric(0.85, 1.685),
	}
}

// MEqPerML is how much acid a millilitre gives by the time it stands at a pH.
func (a Acid) MEqPerML(ph float64) float64 {
	given := 0.0
	for _, pKa := range a.pKa {
		given += 1 / (1 + math.Pow(10, pKa-ph))
	}
	return 1000 * a.kgPerL * a.massFraction / a.molar * given
}

// AcidMEq is the acid that takes a mash of so much grain from one pH to another,
// mEq, as 10th, 50th and 90th percentile: what grain buffers, 30 to 45
// mEq/(kg pH). The liquor's alkalinity is in the pH from which it starts
// ([MashPH]). 0 where there is nothing to lower.
func AcidMEq(grainKg, fromPH, toPH float64) (low, mid, high float64) {
	fall := math.Max(0, fromPH-toPH) * grainKg
	return bufferLow * fall, bufferMEqKgPH * fall, bufferHigh * fall
}
