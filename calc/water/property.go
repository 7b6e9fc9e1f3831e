package water

import "math"

// Units used throughout.
const (
	kelvinOffset    = 273.15  // K at 0 °C
	atmosphereKPa   = 101.325 // standard atmosphere, by definition
	coolC           = 20.0    // °C of every volume called cool
	litresPerM3     = 1000.0
	secondsPerMin   = 60.0
	waterHeatUnitKJ = 4.1868 // kJ/(kg K), "water = 1" in tables of specific heat (international calorie)
)

// Water along the saturation line, as IAPWS-IF97 gives it (python3-iapws
// 1.5.3, 1 atm below 100 °C).
var (
	propertyC    = [...]float64{10, 15, 20, 25, 40, 60, 65, 70, 76, 80, 90, 95, 100}
	heatKJ       = [...]float64{4.1954, 4.1891, 4.1848, 4.1819, 4.1786, 4.1828, 4.1852, 4.1881, 4.1923, 4.1955, 4.2050, 4.2106, 4.2166}
	latentHeatKJ = [...]float64{2477.21, 2465.38, 2453.55, 2441.71, 2406.00, 2357.69, 2345.43, 2333.08, 2318.13, 2308.07, 2282.56, 2269.60, 2256.47}
)

// between interpolates a table linearly and holds its ends.
func between(xs, ys []float64, x float64) float64 {
	last := len(xs) - 1
	if !(x > xs[0]) {
		return ys[0]
	}
	for i := 1; i <= last; i++ {
		if x <= xs[i] {
			return ys[i-1] + (ys[i]-ys[i-1])*(x-xs[i-1])/(xs[i]-xs[i-1])
		}
	}
	return ys[last]
}

// HeatKJPerKgK is the specific heat of liquid water, kJ/(kg K), 10 to 100 °C,
// held at the ends. Source: IAPWS-IF97, interpolated.
func HeatKJPerKgK(temperatureC float64) float64 {
	return between(propertyC[:], heatKJ[:], temperatureC)
}

// LatentHeatKJPerKg is the heat that boils away a kilogram of water, kJ/kg,
// 10 to 100 °C, held at the ends. Source: IAPWS-IF97, interpolated.
func LatentHeatKJPerKg(temperatureC float64) float64 {
	return between(propertyC[:], latentHeatKJ[:], temperatureC)
}

// Coefficients of the saturation line, IAPWS-IF97 region 4 (R7-97(2012),
// table 34; from memory, checked against computed rows).
const (
	n1, n2, n3, n4, n5  = 0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7
	n6, n7, n8, n9, n10 = 0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3
)

// VapourPressureKPa is the vapour pressure of water, kPa, 0 to 200 °C.
// Source: IAPWS-IF97, region 4.
func VapourPressureKPa(temperatureC float64) float64 {
	t := math.Min(math.Max(temperatureC, 0), 200) + kelvinOffset
	theta := t + n9/(t-n10)
	a := theta*theta + n1*theta + n2
	b := n3*theta*theta + n4*theta + n5
	c := n6*theta*theta + n7*theta + n8
	return 1000 * math.Pow(2*c/(-b+math.Sqrt(b*b-4*a*c)), 4)
}

// saturationC is the boiling point at a pressure, °C. Source: IAPWS-IF97,
// region 4, backward equation.
func saturationC(pressureKPa float64) float64 {
	beta := math.Pow(pressureKPa/1000, 0.25)
	e := beta*beta + n3*beta + n6
	f := n1*beta*beta + n4*beta + n7
	g := n2*beta*beta + n5*beta + n8
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	return (n10+d-math.Sqrt((n10+d)*(n10+d)-4*(n9+n10*d)))/2 - kelvinOffset
}

// AirPressureKPa is the pressure of the standard atmosphere at a height above
// the sea, kPa, -400 to 5000 m. Source: ICAO/ISO 2533 troposphere.
func AirPressureKPa(altitudeM float64) float64 {
	h := math.Min(math.Max(altitudeM, -400), 5000)
	return atmosphereKPa * math.Pow(1-0.0065*h/288.15, 5.25588)
}

// BoilingPointC is where water boils at a height above the sea, °C, -400 to
// 5000 m. Wort boils 0.1 to 0.3 °C hotter; that is left out.
func BoilingPointC(altitudeM float64) float64 {
	return saturationC(AirPressureKPa(altitudeM))
}
