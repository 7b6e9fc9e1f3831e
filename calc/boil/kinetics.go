package boil

import (
	"math"
)

// Malowicki & Shellhammer 2005: k = a exp(-b/T), per minute, T in K.
const (
	isoA, isoB   = 7.9e11, 11858.0 // alpha to iso-alpha, 1/min and K
	lossA, lossB = 4.1e12, 12994.0 // iso-alpha to other, 1/min and K
	kelvin       = 273.15          // K at 0 °C
	boilC        = 100.0           // °C at which the published utilisation holds
)

// The range in which Isomerise is tabulated; below 90 °C it extrapolates the
// measured range.
const (
	MinIsomeriseC = 60.0
	MaxIsomeriseC = 130.0
)

// IsoRate is how fast alpha turns to iso-alpha, 1/min.
func IsoRate(temperatureC float64) float64 { return isoA * math.Exp(-isoB/(temperatureC+kelvin)) }

// LossRate is how fast iso-alpha is lost again, 1/min.
func LossRate(temperatureC float64) float64 { return lossA * math.Exp(-lossB/(temperatureC+kelvin)) }

// Acids is what has become of the alpha acids, shares of what was added; they
// sum to 1.
type Acids struct {
	AlphaLeft float64
	Iso       float64
	Degraded  float64
}

// Isomerise holds dissolved alpha acid at a temperature for some minutes.
// Losses are marked beyond two half-lives of alpha, where the source's first
// order no longer quite holds.
func Isomerise(temperatureC, minutes float64) Acids {
	t := math.Max(0, minutes)
	k1, k2 := IsoRate(temperatureC), LossRate(temperatureC)
	a := Acids{AlphaLeft: math.Exp(-k1 * t)}
	if math.Abs(k2-k1) < 1e-9*k1 {
		a.Iso = k1 * t * a.AlphaLeft
	} else {
		a.Iso = k1 / (k2 - k1) * (a.AlphaLeft - math.Exp(-k2*t))
	}
	a.Degraded = math.Max(0, 1-a.AlphaLeft-a.Iso)
	return a
}

// RelativeRate is the isomerisation rate beside that at 100 °C.
func RelativeRate(temperatureC float64) float64 { return IsoRate(temperatureC) / IsoRate(boilC) }

// Tinseth's table.
const (
	MinTinsethSG      = 1.000 // printed from 1.030; the formula goes on smoothly
	MaxTinsethSG      = 1.130
	MaxTinsethMinutes = 120.0
	tinsethTop        = 1.65
	tinsethGravity    = 0.000125
	tinsethPerMin     = 0.04
	tinsethDivisor    = 4.15
)

// TinsethUtilisation is the share of alpha acid that ends as bitterness in the
// beer, 0 to 1, for hops boiled some minutes in wort of a gravity. Printed for
// SG 1.030 to 1.130.
func TinsethUtilisation(minutes, wortSG float64) float64 {
	return tinsethTop * math.Pow(tinsethGravity, wortSG-1) * -math.Expm1(-tinsethPerMin*math.Max(0, minutes)) / tinsethDivisor
}

// Saturation.
const (
	// capMgL is how much alpha acid boiling wort takes up at full effect.
	// Source: Hosom 13. Solubility figures elsewhere: 90 (Malowicki's thesis)
	// and 250 mg/L (Hough et al. 1982).
	capMgL = 260.0
	// beyondCap is what each mg/L beyond still counts for: more than
	// iso-alpha is measured as bitterness. Fitted to the five rows of Hosom 13,
	// table 3, week 3 and the text (277 to 840 mg/L).
	beyondCap = 0.54
)

// EffectiveAlpha is how much of the alpha acid in the wort (mg/L) counts, mg/L.
func EffectiveAlpha(mgL float64) float64 {
	if mgL <= capMgL {
		return math.Max(0, mgL)
	}
	return capMgL + beyondCap*(mgL-capMgL)
}
