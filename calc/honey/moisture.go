package honey

import (
	"fmt"
	"math"

	"skep/calc/message"
)

// Wedmore 1955: moisture in % by the refractive index n at 20 °C is
// (wedmoreA - log10(n - 1))/wedmoreB.
const (
	wedmoreA = -0.2681
	wedmoreB = 0.002243
	// indexPerK is added to n for each °C above 20 (Bogdanov after Chataway).
	indexPerK = 0.00023
)

// The range of Chataway's table, 13 to 25 % water, with a margin for honeys
// that a design may hold (10 to 30 %), and the temperatures at which the
// correction is used.
const (
	MinMoisturePct     = 10.0
	MaxMoisturePct     = 30.0
	MinRefractometerC  = 10.0
	MaxRefractometerC  = 40.0
	MinRefractiveIndex = 1.4615 // about 30.2 % at 20 °C
	MaxRefractiveIndex = 1.5130 // about 9.7 %
)

// CheckMoisture refuses what is no honey.
func CheckMoisture(moisturePct float64) error {
	if !(moisturePct >= MinMoisturePct && moisturePct <= MaxMoisturePct) {
		return message.NewError("honey moisture {value} % is outside {low} to {high}", moisturePct, MinMoisturePct, MaxMoisturePct)
	}
	return nil
}

// MoisturePct gives the moisture of honey in % by mass from its refractive
// index, read at temperatureC (10 to 40 °C).
func MoisturePct(refractiveIndex, temperatureC float64) (float64, error) {
	if !(temperatureC >= MinRefractometerC && temperatureC <= MaxRefractometerC) {
		return 0, message.NewError("honey refractometer temperature {value} °C is outside {low} to {high}", temperatureC, MinRefractometerC, MaxRefractometerC)
	}
	n := refractiveIndex + indexPerK*(temperatureC-20)
	if !(n >= MinRefractiveIndex && n <= MaxRefractiveIndex) {
		return 0, message.NewError("honey refractive index {value} ({at20} at 20 °C) is outside {low} to {high}, about {most} to {least} % water", refractiveIndex, fmt.Sprintf("%.4f", n), MinRefractiveIndex, MaxRefractiveIndex, MaxMoisturePct, MinMoisturePct)
	}
	return (wedmoreA - math.Log10(n-1)) / wedmoreB, nil
}

// RefractiveIndex is the inverse of [MoisturePct]: the index that honey of this
// moisture shows at temperatureC.
func RefractiveIndex(moisturePct, temperatureC float64) float64 {
	return 1 + math.Pow(10, wedmoreA-wedmoreB*moisturePct) - indexPerK*(temperatureC-20)
}
