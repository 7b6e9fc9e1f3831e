package alcohol

import (
	"skep/calc/density"
	"skep/calc/message"
)

// Result is what two gravities say of a beer.
type Result struct {
	StrengthPct            float64 // % by volume, 20 °C
	ABWPct                 float64 // % by mass
	OriginalExtractPlato   float64
	ApparentExtractPlato   float64 // may be negative
	RealExtractPlato       float64
	ApparentAttenuationPct float64 // 0 when nothing could ferment
	RealAttenuationPct     float64 // RDF (ASBC)
	EnergyKJPerL           float64
	FinalGravitySG         float64
}

// Strength computes everything from the original and the final specific
// gravity 20/20, by Balling's chain. It checks nothing: see [CheckStrength].
func Strength(originalSG, finalSG float64) Result {
	return result(density.PlatoFromSG(originalSG), density.PlatoFromSG(finalSG), finalSG)
}

// FromExtracts computes the same from original and real extract in °P, as a
// mass balance gives them.
func FromExtracts(oePlato, rePlato float64) Result {
	ae := ApparentExtract(oePlato, rePlato)
	return result(oePlato, ae, density.SGFromPlato(ae))
}

func result(oe, ae, finalSG float64) Result {
	re := RealExtract(oe, ae)
	abw := ABW(oe, re)
	return Result{
		StrengthPct:            ABV(abw, finalSG),
		ABWPct:                 abw,
		OriginalExtractPlato:   oe,
		ApparentExtractPlato:   ae,
		RealExtractPlato:       re,
		ApparentAttenuationPct: ApparentAttenuation(oe, ae),
		RealAttenuationPct:     RDF(oe, re),
		EnergyKJPerL:           EnergyKJPerL(abw, re, finalSG),
		FinalGravitySG:         finalSG,
	}
}

// The gravities that [CheckStrength] lets pass.
const (
	MinOriginalSG = 1.0
	MaxOriginalSG = density.MaxSG
	MinFinalSG    = 0.98 // drier than any beer: a 12 °P wort all turned to alcohol is 0.990
)

// CheckStrength refuses gravities that no beer can have, and a final gravity
// above the original.
func CheckStrength(originalSG, finalSG float64) error {
	switch {
	case !(originalSG >= MinOriginalSG && originalSG <= MaxOriginalSG):
		return message.NewError("original gravity {value} is outside {low} to {high}, the range of the extract tables", originalSG, MinOriginalSG, MaxOriginalSG)
	case !(finalSG >= MinFinalSG && finalSG <= MaxOriginalSG):
		return message.NewError("final gravity {value} is outside {low} to {high}", finalSG, MinFinalSG, MaxOriginalSG)
	case finalSG > originalSG:
		return message.NewError("final gravity {final} is above the original gravity {original}: nothing has fermented, or honey went in between (use the effective original gravity)", finalSG, originalSG)
	}
	return nil
}
