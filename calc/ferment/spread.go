package ferment

import (
	"math"

	"skep/calc/doubt"
)

// The doubt of the clock.
const (
	// RateSpread is how far, either way, the rate of all uptake may be from the
	// middle, as 10 to 90 (design notes, section 7).
	RateSpread = 1.5
	// The lag is 3 to 15 h about 8 as 10 to 90 (C. White; design notes,
	// section 4); another middle is spread in proportion.
	shortLag = 3 / UsualLagHours
	longLag  = 15 / UsualLagHours
	// UsualTemperatureErrorC is 1 sd of the beer's temperature over the days
	// (common practice, no source).
	UsualTemperatureErrorC = 1.0
)

// RateFactor is the rate of all uptake over its middle at a normal score.
func RateFactor(z float64) float64 { return math.Exp(z / doubt.Z90 * math.Log(RateSpread)) }

// LagFactor is the lag over its middle at a normal score.
func LagFactor(z float64) float64 {
	spread := longLag
	if z < 0 {
		spread = 1 / shortLag
	}
	return math.Exp(z / doubt.Z90 * math.Log(spread))
}
