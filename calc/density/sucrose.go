package density

import (
	"skep/calc/message"
)

const (
	// WaterAt20KgM3 is the density of water at 20 °C: [WaterDensityKgM3](20).
	WaterAt20KgM3 = 998.2031227373548
	// airKgM3 is the density of air that "weighed in air" supposes; the usual
	// reference of weighing, 1.2 kg/m³.
	airKgM3 = 1.2
	// The range of the sucrose polynomial's table.
	MinSucroseC = 0.0
	MaxSucroseC = 80.0
)

// WaterDensityKgM3 is the density of water in kg/m³ from 0 to 100 °C at
// 1 atmosphere. Kell's rational form.
func WaterDensityKgM3(temperatureC float64) float64 {
	t := temperatureC
	n := 999.83952 + t*(16.952577+t*(-7.9905127e-3+t*(-46.241757e-6+t*(105.84601e-9+t*-281.03006e-12))))
	return n / (1 + 16.887236e-3*t)
}

// sucroseC holds the polynomial's coefficients: rows by power of
// (t - 20)/100, columns by power of the mass fraction less one; kg/m³.
var sucroseC = [...][]float64{
	{385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890},
	{-46.2720, -7.1720, 1.1597, 5.1126, 17.5254},
	{59.7712, 7.2491, 12.3630, -35.4791},
	{-47.2207, -21.6977, 27.6301},
	{18.3184, 12.3081},
}

// SucroseDensityKgM3 is the density in kg/m³ of sucrose in water by mass
// fraction (0 to 1) and temperature (0 to 80 °C). Slightly negative fractions
// continue smoothly, for apparent extracts below zero.
func SucroseDensityKgM3(massFraction, temperatureC float64) float64 {
	rho, _ := sucroseDensity(massFraction, temperatureC)
	return rho
}

// sucroseDensity also gives the slope by mass fraction.
func sucroseDensity(x, temperatureC float64) (rho, slope float64) {
	t := (temperatureC - 20) / 100
	power := 1.0
	for _, row := range sucroseC {
		v, d := 0.0, 0.0
		for j := len(row) - 1; j >= 0; j-- { // Horner, for the sum of c x^(j+1)
			d = d*x + v + row[j]
			v = (v + row[j]) * x
		}
		rho += v * power
		slope += d * power
		power *= t
	}
	return rho + WaterDensityKgM3(temperatureC), slope
}

// CheckTemperature refuses a temperature outside the sucrose table.
func CheckTemperature(temperatureC float64) error {
	if !(temperatureC >= MinSucroseC && temperatureC <= MaxSucroseC) {
		return message.NewError("temperature {value} °C is outside {low} to {high}, the range of the sucrose density table", temperatureC, MinSucroseC, MaxSucroseC)
	}
	return nil
}
