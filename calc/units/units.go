// Package units converts between the metric units that Skep computes in and the other
// units of the trade. Every function names both units; each pair is an exact inverse
// of the other up to the last bit of a float64.
//
// A number in one unit comes in, in another it goes out. It must not know what is
// measured.
//
// Sources: the international yard and pound agreement of 1959 (pound, ounce),
// the US statutory gallon of 231 cubic inches, ISO 80000 (bar, psi) for the
// defined factors; colour from the definitions of the two methods, which read
// the same absorbance at 430 nm in a 1 cm cell: EBC = 25 A, SRM = 12.7 A.
//
// Conversions are plain arithmetic: NaN and infinities pass through.
package units

// Defined factors.
const (
	LitresPerUSGallon    = 3.785411784 // 231 in³, exact
	LitresPerUSQuart     = LitresPerUSGallon / 4
	LitresPerUSBarrel    = 31 * LitresPerUSGallon // the beer barrel of 31 gal, 117.348 L
	KilogramsPerPound    = 0.45359237             // exact
	GramsPerOunce        = 1000 * KilogramsPerPound / 16
	KilopascalsPerBar    = 100.0
	KilopascalsPerPSI    = 6.894757293168361 // lbf/in² with g = 9.80665 m/s²
	KilopascalsPerAtm    = 101.325
	EBCPerSRM            = 25 / 12.7 // both × absorbance at 430 nm, 1 cm
	KilojoulesPerKcal    = 4.184     // thermochemical
	pointsPerSG          = 1000
	fahrenheitPerCelsius = 1.8
	fahrenheitAtZeroC    = 32
)

// FahrenheitFromCelsius converts a temperature.
func FahrenheitFromCelsius(c float64) float64 {
	return c*fahrenheitPerCelsius + fahrenheitAtZeroC
}

// CelsiusFromFahrenheit converts a temperature.
func CelsiusFromFahrenheit(f float64) float64 {
	return (f - fahrenheitAtZeroC) / fahrenheitPerCelsius
}

// FahrenheitStepFromCelsius converts a difference of temperatures, such as a
// thermometer's error; it has no offset.
func FahrenheitStepFromCelsius(k float64) float64 { return k * fahrenheitPerCelsius }

// CelsiusStepFromFahrenheit is the inverse of [FahrenheitStepFromCelsius].
func CelsiusStepFromFahrenheit(f float64) float64 { return f / fahrenheitPerCelsius }

// USGallonsFromLitres converts a volume.
func USGallonsFromLitres(l float64) float64 { return l / LitresPerUSGallon }

// LitresFromUSGallons converts a volume.
func LitresFromUSGallons(gal float64) float64 { return gal * LitresPerUSGallon }

// QuartsPerPoundFromLitresPerKg converts a liquor-to-grain ratio to US quarts
// a pound.
func QuartsPerPoundFromLitresPerKg(r float64) float64 {
	return r * KilogramsPerPound / LitresPerUSQuart
}

// LitresPerKgFromQuartsPerPound is the inverse of
// [QuartsPerPoundFromLitresPerKg].
func LitresPerKgFromQuartsPerPound(r float64) float64 {
	return r * LitresPerUSQuart / KilogramsPerPound
}

// PoundsFromKilograms converts a mass.
func PoundsFromKilograms(kg float64) float64 { return kg / KilogramsPerPound }

// KilogramsFromPounds converts a mass.
func KilogramsFromPounds(lb float64) float64 { return lb * KilogramsPerPound }

// OuncesFromGrams converts a mass to avoirdupois ounces.
func OuncesFromGrams(g float64) float64 { return g / GramsPerOunce }

// GramsFromOunces converts a mass from avoirdupois ounces.
func GramsFromOunces(oz float64) float64 { return oz * GramsPerOunce }

// EBCFromSRM converts a beer colour.
func EBCFromSRM(srm float64) float64 { return srm * EBCPerSRM }

// SRMFromEBC converts a beer colour.
func SRMFromEBC(ebc float64) float64 { return ebc / EBCPerSRM }

// BarFromKilopascals converts a pressure.
func BarFromKilopascals(kpa float64) float64 { return kpa / KilopascalsPerBar }

// KilopascalsFromBar converts a pressure.
func KilopascalsFromBar(bar float64) float64 { return bar * KilopascalsPerBar }

// PSIFromKilopascals converts a pressure to pounds a square inch.
func PSIFromKilopascals(kpa float64) float64 { return kpa / KilopascalsPerPSI }

// KilopascalsFromPSI converts a pressure from pounds a square inch.
func KilopascalsFromPSI(psi float64) float64 { return psi * KilopascalsPerPSI }

// PSIFromBar converts a pressure.
func PSIFromBar(bar float64) float64 { return PSIFromKilopascals(KilopascalsFromBar(bar)) }

// BarFromPSI converts a pressure.
func BarFromPSI(psi float64) float64 { return BarFromKilopascals(KilopascalsFromPSI(psi)) }

// PointsFromSG gives a specific gravity in excess degrees: 1.048 is 48.
func PointsFromSG(sg float64) float64 { return (sg - 1) * pointsPerSG }
