package carbonation

import (
	"math"

	"skep/calc/alcohol"
	"skep/calc/honey"
	"skep/calc/units"
)

// The range over which ResidualVolumes was fitted and checked.
const (
	MinResidualC = 0.0
	MaxResidualC = 40.0 // checked to 25; beyond, water's solubility takes over
	fittedTopC   = 25.0
)

// ResidualVolumesAt is [ResidualVolumes] under air of another pressure, kPa: on
// a mountain beer keeps less, in proportion (Henry). 0 is 1 atm.
func ResidualVolumesAt(warmestC, airKPa float64) float64 {
	if !(airKPa > 0) {
		airKPa = atmKPa
	}
	return ResidualVolumes(warmestC) * airKPa / atmKPa
}

// ResidualVolumes is the CO2 that beer keeps at 1 atm at the warmest it has
// been since fermentation ended, volumes: 3.0378 - 0.050062 F + 0.00026555 F²,
// 0 to 25 °C. Warmer it follows water's solubility from there, since the
// parabola turns up again at 34 °C.
func ResidualVolumes(warmestC float64) float64 {
	t := math.Max(warmestC, MinResidualC)
	parabola := func(c float64) float64 {
		f := units.FahrenheitFromCelsius(c)
		return 3.0378 - 0.050062*f + 0.00026555*f*f
	}
	if t <= fittedTopC {
		return parabola(t)
	}
	return parabola(fittedTopC) * Volumes(t, atmKPa) / Volumes(fittedTopC, atmKPa)
}

// Molar masses, g/mol, and what ferments: each hexose gives two CO2.
const (
	massGlucose   = 180.156
	massHydrate   = 198.171 // dextrose monohydrate, as it is sold
	massSucrose   = 342.297
	co2Glucose    = 2 * massCO2 / massGlucose // 0.4886 g/g
	co2Hydrate    = 2 * massCO2 / massHydrate // 0.4442 g/g
	co2Sucrose    = 4 * massCO2 / massSucrose // 0.5143 g/g
	honeyHexoses  = 38.2 + 31.3               // % fructose and glucose in honey (White 1962)
	honeyDoubles  = 1.3 + 7.3                 // % sucrose and maltose
	co2HoneySugar = (honeyHexoses*co2Glucose + honeyDoubles*co2Sucrose) / (honeyHexoses + honeyDoubles)
)

// Primers.
const (
	TableSugar = "table sugar"
	Dextrose   = "dextrose"
	Honey      = "honey"
	None       = "none"
)

// CO2PerGram is what a gram of primer gives, g. Honey by its moisture and the
// middle of its fermentable share. ok is false for an unknown primer; none
// gives 0.
func CO2PerGram(primer string, moisturePct float64) (grams float64, ok bool) {
	switch primer {
	case TableSugar:
		return co2Sucrose, true
	case Dextrose:
		return co2Hydrate, true
	case Honey:
		_, share, _ := honey.FermentableShare(honey.Blossom)
		return (1 - moisturePct/100) * share * co2HoneySugar, true
	case None:
		return 0, true
	}
	return 0, false
}

// PrimerGPerL is how much primer lifts beer from one content of CO2 to
// another, g/L; 0 where it holds enough, and for none or an unknown primer.
func PrimerGPerL(primer string, moisturePct, fromVolumes, toVolumes float64) float64 {
	per, ok := CO2PerGram(primer, moisturePct)
	if !ok || per <= 0 {
		return 0
	}
	return math.Max(0, toVolumes-fromVolumes) * GramsPerVolume / per
}

// VolumesFromExtract is what fermenting real extract (g/L) in a closed bottle
// adds, volumes: 4.271 g/L each.
func VolumesFromExtract(gramsPerL float64) float64 {
	return math.Max(0, gramsPerL) * alcohol.CO2PerExtract / GramsPerVolume
}
