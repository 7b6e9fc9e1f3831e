package density

import (
	"fmt"
	"math"

	"skep/calc/message"
)

// Refractometer temperature correction: the amount to add to a reading in °Bx,
//
//	(t - 20) (perK + perKBrix Bx) + perK2 (t - 20)²,   t in °C
//
// The three numbers are least squares on the rows at 10 and 15 °C of the OIV
// compendium, Table I (10, 15 and 20 % sucrose); its rows at 12, 16 and 17 °C
// serve as the check (calc/record refits them).
// Above 20 °C the same curve is carried on: it gives 0.75 at 10 °Bx and 30 °C,
// where the international table has 0.78 (from memory).
const (
	brixPerK     = 0.0616
	brixPerKBrix = 0.00056
	brixPerK2    = 0.0008
)

// The range of [BrixAt20]: the table's rows, and what the curve was carried on
// to.
const (
	MinBrix  = 0.0
	MaxBrix  = 32.0
	MinBrixC = 5.0
	MaxBrixC = 35.0
)

// BrixAt20 corrects a refractometer reading in °Bx taken with the sample and
// prism at temperatureC to 20 °C. For an instrument without automatic
// temperature compensation. 0 to 32 °Bx, 5 to 35 °C; see [CheckBrix].
func BrixAt20(brix, temperatureC float64) float64 {
	d := temperatureC - 20
	return brix + d*(brixPerK+brixPerKBrix*brix) + brixPerK2*d*d
}

// CheckBrix refuses a reading or a temperature beyond the range of
// [BrixAt20].
func CheckBrix(brix, temperatureC float64) error {
	if !(brix >= MinBrix && brix <= MaxBrix) {
		return message.NewError("refractometer reading {value} °Bx is outside {low} to {high}", brix, MinBrix, MaxBrix)
	}
	if !(temperatureC >= MinBrixC && temperatureC <= MaxBrixC) {
		return message.NewError("refractometer temperature {value} °C is outside {low} to {high}, the range of the correction table", temperatureC, MinBrixC, MaxBrixC)
	}
	return nil
}

// The range of the refractive index polynomial, 0 to 85 °Bx.
const (
	MinRefractiveIndex = 1.3329
	MaxRefractiveIndex = 1.5033
)

// brixN is the ICUMSA polynomial by falling power of the refractive index.
var brixN = [...]float64{11758.74, -88885.21, 270177.93, -413145.80, 318417.95, -99127.4536}

// BrixFromRefractiveIndex gives °Bx of a sugar solution at 20 °C and 589.3 nm.
func BrixFromRefractiveIndex(n float64) (float64, error) {
	if !(n >= MinRefractiveIndex && n <= MaxRefractiveIndex) {
		return 0, message.NewError("refractive index {value} is outside {low} to {high}, 0 to 85 °Bx", n, MinRefractiveIndex, MaxRefractiveIndex)
	}
	v, _ := brixOfN(n)
	return v, nil
}

func brixOfN(n float64) (value, slope float64) {
	for _, c := range brixN {
		slope = slope*n + value
		value = value*n + c
	}
	return value, slope
}

// RefractiveIndexFromBrix is the inverse, 0 to 85 °Bx.
func RefractiveIndexFromBrix(brix float64) (float64, error) {
	lo, _ := brixOfN(MinRefractiveIndex)
	hi, _ := brixOfN(MaxRefractiveIndex)
	if math.IsNaN(brix) || brix < lo || brix > hi {
		return 0, message.NewError("{value} °Bx is outside {low} to {high}", brix, fmt.Sprintf("%.1f", math.Max(lo, 0)), fmt.Sprintf("%.1f", hi))
	}
	return solve(MinRefractiveIndex, MaxRefractiveIndex, MinRefractiveIndex+brix*0.0016, brix, brixOfN), nil
}

// RefractometerSG is the gravity of finished beer from a refractometer's reading
// at pitching and now, °Bx at 20 °C, both over the wort factor: the cubic
// correlation of S. Terrill 2011 (from memory), for all-malt beer. It is good to
// about 0.002; early in a fermentation it is off by up to 0.008.
func RefractometerSG(beforeBrix, nowBrix float64) float64 {
	return 1 - 0.0044993*beforeBrix + 0.011774*nowBrix + 0.00027581*beforeBrix*beforeBrix - 0.0012717*nowBrix*nowBrix -
		0.0000072800*beforeBrix*beforeBrix*beforeBrix + 0.000063293*nowBrix*nowBrix*nowBrix
}
