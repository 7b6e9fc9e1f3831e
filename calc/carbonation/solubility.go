package carbonation

import (
	"math"

	"skep/calc/density"
	"skep/calc/units"
)

const (
	kelvin       = 273.15  // K at 0 °C
	atmKPa       = 101.325 // by definition
	atmBar       = atmKPa / 100
	massCO2      = 44.0095 // g/mol
	litresPerMol = 22.263  // of CO2 gas at 0 °C and 1 atm; NIST database 106 uses 22.2605 to 22.263
	massWater    = 18.015  // g/mol
)

// GramsPerVolume is a volume of CO2 in g/L: 1.9768.
const GramsPerVolume = massCO2 / litresPerMol

// The range of Carroll's formula, and of the water density used with it.
const (
	MinWaterC      = 0.0
	MaxWaterC      = 100.0
	MaxPressureKPa = 1000.0
)

// henryMPa is Carroll's Henry constant of CO2 in water, MPa by mole fraction.
func henryMPa(temperatureC float64) float64 {
	t := temperatureC + kelvin
	return math.Exp(-6.8346 + 1.2817e4/t - 3.7668e6/(t*t) + 2.997e8/(t*t*t))
}

// MoleFraction is CO2 in water under a partial pressure of CO2 (kPa), 0 to
// 100 °C, below 1 MPa.
func MoleFraction(temperatureC, pressureKPa float64) float64 {
	return pressureKPa / 1000 / henryMPa(temperatureC)
}

// GramsPerLitre is the same in g per litre of water.
func GramsPerLitre(temperatureC, pressureKPa float64) float64 {
	x := MoleFraction(temperatureC, pressureKPa)
	return x / (1 - x) * density.WaterDensityKgM3(temperatureC) / massWater * massCO2
}

// Volumes is the same in volumes.
func Volumes(temperatureC, pressureKPa float64) float64 {
	return GramsPerLitre(temperatureC, pressureKPa) / GramsPerVolume
}

// PressureKPa is the partial pressure of CO2 over water that holds volumes of
// it: the inverse of [Volumes]. Beyond 1 MPa it extrapolates, too low.
func PressureKPa(temperatureC, volumes float64) float64 {
	ratio := math.Max(0, volumes) * GramsPerVolume / massCO2 * massWater / density.WaterDensityKgM3(temperatureC)
	return 1000 * henryMPa(temperatureC) * ratio / (1 + ratio)
}

// beerHolds is what beer holds of what water does at the same temperature and
// pressure of CO2: printed charts for beer give 5 to 6 % less than Carroll's
// water, 0 to 7 °C and 0.7 to 0.9 bar gauge (D. Miller, Brewing Techniques 2(1),
// and a brewery's trade chart, both read). That it holds warmer is assumed.
const beerHolds = 0.945

// BottleBarAbs is the pressure in a closed bottle of beer, bar absolute: that of
// water with 1/0.945 of the volumes. The headspace and the air in it are left
// out. Beyond 1 MPa it extrapolates, too low.
func BottleBarAbs(temperatureC, volumes float64) float64 {
	return PressureKPa(temperatureC, volumes/beerHolds) / 100
}

// BottleBarGauge is the same above the atmosphere at the sea; never below -1.01.
func BottleBarGauge(temperatureC, volumes float64) float64 {
	return BottleBarAbs(temperatureC, volumes) - atmBar
}

// The part of the chart that the regressions follow (30 to 68 °F and up to
// 30 psi; the chart's own bounds from memory).
const (
	MinChartC   = -1.0
	MaxChartC   = 20.0
	MaxChartBar = 2.1
)

// Two regressions of the ASBC chart are in use among brewers. They part by up
// to 0.1 volumes (4 %) at the warm end of the chart; neither is better known.
//
//	psi = p0 + p1 F + p2 F² + (p3 F + p4) V + p5 V²
//	V   = ((v0 F + v1) F + v2) psi + (v3 F + v4) F + v5
const (
	p0, p1, p2, p3, p4, p5 = -16.6999, -0.0101059, 0.00116512, 0.173354, 4.24267, -0.0684226
	v0, v1, v2, v3, v4, v5 = 0.00000981, -0.00229169, 0.16809729, 0.00024826, -0.04710192, 2.87424296
)

// KegVolumes is what beer holds at equilibrium with CO2 at a pressure above the
// air around it, whose pressure is airKPa (0: 1 atm): [ChartVolumes] of the gauge
// pressure that is the same at the sea.
func KegVolumes(temperatureC, barGauge, airKPa float64) float64 {
	if !(airKPa > 0) {
		airKPa = atmKPa
	}
	return ChartVolumes(temperatureC, barGauge+(airKPa-atmKPa)/100)
}

// ChartVolumes is what beer holds at equilibrium with CO2 at a gauge pressure:
// the mean of the two regressions, each within 0.05 of it; -1 to 20 °C, 0 to
// 2.1 bar.
func ChartVolumes(temperatureC, barGauge float64) float64 {
	f, psi := units.FahrenheitFromCelsius(temperatureC), units.PSIFromBar(barGauge)
	straight := ((v0*f+v1)*f+v2)*psi + (v3*f+v4)*f + v5
	c, b := p0+(p1+p2*f)*f-psi, p3*f+p4
	solved := (-b + math.Sqrt(math.Max(0, b*b-4*p5*c))) / (2 * p5)
	return (straight + solved) / 2
}

// KegBarGauge is what to set on a regulator for beer to hold volumes, bar above
// the air around it, whose pressure is airKPa (0: 1 atm): the chart's pressure,
// and on a mountain what the air no longer presses. 0 at least; beyond the
// chart's 20 °C and 2.1 bar it extrapolates.
func KegBarGauge(temperatureC, volumes, airKPa float64) float64 {
	if !(airKPa > 0) {
		airKPa = atmKPa
	}
	return math.Max(0, ChartBarGauge(temperatureC, volumes)+(atmKPa-airKPa)/100)
}

// ChartBarGauge is the gauge pressure to set at the sea for beer to hold
// volumes, by the first regression; it lies within 0.03 volumes of printed
// charts (calc/VALIDATION.md).
func ChartBarGauge(temperatureC, volumes float64) float64 {
	f, v := units.FahrenheitFromCelsius(temperatureC), volumes
	return units.BarFromPSI(p0 + (p1+p2*f)*f + (p3*f+p4)*v + p5*v*v)
}
