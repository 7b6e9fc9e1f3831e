package density

import (
	"skep/calc/message"
)

const (
	// glassPerK is the cubic expansion of a hydrometer's glass.
	glassPerK = 25e-6
	// HydrometerDoubtAboveC is where a corrected reading should carry a
	// warning: the formulas in use part by more than 0.0005 beyond, and warm
	// samples cool and evaporate while they are read.
	HydrometerDoubtAboveC = 40.0
	// Calibration temperatures of hydrometers in use.
	MinCalibrationC = 10.0
	MaxCalibrationC = 30.0
)

// HydrometerSG corrects a hydrometer reading (SG) taken at temperatureC with
// an instrument calibrated at calibrationC (usually 20; 15.6 for 60 °F) to the
// specific gravity 20/20.
//
// The spindle floats where it displaces its own weight: density of the sample
// times the spindle's volume, both at temperatureC, equals the mark times the
// density of water at calibrationC. The sample is taken as a sucrose solution,
// so for fermented beer (alcohol expands more) the correction is a little
// short: by about 0.0001 at 30 °C and 5 % by volume (from the alcohol tables).
//
// Sample 0 to 80 °C, calibration 10 to 30 °C, reading 0.95 to 1.18; above
// [HydrometerDoubtAboveC] the caller should warn.
func HydrometerSG(readingSG, temperatureC, calibrationC float64) (float64, error) {
	if err := CheckSG(readingSG); err != nil {
		return 0, message.NewError("hydrometer reading: {error}", err)
	}
	if err := CheckTemperature(temperatureC); err != nil {
		return 0, message.NewError("sample: {error}", err)
	}
	if !(calibrationC >= MinCalibrationC && calibrationC <= MaxCalibrationC) {
		return 0, message.NewError("calibration temperature {value} °C is outside {low} to {high}", calibrationC, MinCalibrationC, MaxCalibrationC)
	}
	rho := (readingSG*(WaterDensityKgM3(calibrationC)-airKgM3) + airKgM3) /
		(1 + glassPerK*(temperatureC-calibrationC))
	x := solve(-0.5, 0.9, 0.1, rho, func(x float64) (float64, float64) {
		return sucroseDensity(x, temperatureC)
	})
	return SGFromKgM3(SucroseDensityKgM3(x, 20)), nil
}

// HydrometerReading is the other way: what the instrument shows in a wort of
// the given specific gravity 20/20. Ranges as [HydrometerSG], unchecked.
func HydrometerReading(sg, temperatureC, calibrationC float64) float64 {
	x := solve(-0.5, 0.9, 0.1, KgM3FromSG(sg), func(x float64) (float64, float64) {
		return sucroseDensity(x, 20)
	})
	rho := SucroseDensityKgM3(x, temperatureC) * (1 + glassPerK*(temperatureC-calibrationC))
	return (rho - airKgM3) / (WaterDensityKgM3(calibrationC) - airKgM3)
}
