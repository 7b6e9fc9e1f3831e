package density

import (
	"math"

	"skep/calc/message"
)

// The range in which the conversions were checked: see the package comment.
const (
	MinSG    = 0.95
	MaxSG    = 1.18
	MinPlato = -13.0
	MaxPlato = 40.0
)

// CheckSG refuses a specific gravity that no wort or beer can have.
func CheckSG(sg float64) error {
	if !(sg >= MinSG && sg <= MaxSG) {
		return message.NewError("specific gravity {value} is outside {low} to {high}, the range of the extract tables", sg, MinSG, MaxSG)
	}
	return nil
}

// ASBC cubic: °P = c3 SG³ + c2 SG² + c1 SG + c0.
const (
	asbc3, asbc2, asbc1, asbc0 = 135.997, -630.272, 1111.14, -616.868
)

func asbc(sg float64) float64 { return ((asbc3*sg+asbc2)*sg+asbc1)*sg + asbc0 }

func asbcSlope(sg float64) float64 { return (3*asbc3*sg+2*asbc2)*sg + asbc1 }

// The cubic gives -0.003 °P for water. The offset is taken off at SG 1 and
// dies out as a bell of this width in SG, so that there is no jump, the slope
// changes by less than 0.7 % and from 1 °P upwards the cubic stands untouched.
// The width is ours: any from 0.0005 to 0.0019 meets the published rows at
// 0.1, 0.2 and 0.3 °P within the last printed digit; the plain cubic, and a
// constant shift, each miss one.
const bellSG = 0.0015

var atWater = -asbc(1) // so that SG 1 gives exactly 0

// bell is the correction and its slope.
func bell(sg float64) (value, slope float64) {
	x := (sg - 1) / bellSG
	if x > 8 || x < -8 { // exp(-64): below the last digit
		return 0, 0
	}
	v := atWater * math.Exp(-x*x)
	return v, -2 * x / bellSG * v
}

// PlatoFromSG gives the extract in °P (% by mass) of a wort by its specific
// gravity 20/20; for fermented beer the same formula gives the apparent
// extract, which may be negative. Exactly 0 at 1.
//
// ASBC cubic; see the package comment for source and range.
func PlatoFromSG(sg float64) float64 {
	b, _ := bell(sg)
	return asbc(sg) + b
}

// SGFromPlato is the numeric inverse of [PlatoFromSG].
func SGFromPlato(plato float64) float64 {
	if plato == 0 || math.IsNaN(plato) || math.IsInf(plato, 0) {
		return 1 + plato
	}
	// The cubic's slope is never below 135 °P per unit of SG, which brackets
	// the root.
	half := math.Abs(plato) / 135
	return solve(1-half, 1+half, 1+plato/(258.6-0.8796*math.Min(plato, 100)), plato,
		func(sg float64) (float64, float64) {
			b, db := bell(sg)
			return asbc(sg) + b, asbcSlope(sg) + db
		})
}

// platoSlope is the slope of [PlatoFromSG].
func platoSlope(sg float64) float64 {
	_, db := bell(sg)
	return asbcSlope(sg) + db
}

// solve finds x in [lo, hi] with f(x) = want, for an f that rises; f returns
// its value and slope. Newton's steps, held in the shrinking bracket.
func solve(lo, hi, start, want float64, f func(float64) (value, slope float64)) float64 {
	x := start
	if !(x > lo && x < hi) {
		x = lo + (hi-lo)/2
	}
	for range 200 {
		v, slope := f(x)
		d := v - want
		if d == 0 {
			return x
		}
		if d > 0 {
			hi = x
		} else {
			lo = x
		}
		next := x - d/slope
		if !(next > lo && next < hi) {
			next = lo + (hi-lo)/2
		}
		if math.Abs(next-x) <= 1e-16*math.Abs(x) {
			return next
		}
		x = next
	}
	return x
}

// KgM3FromSG is the true density at 20 °C of a liquid by its specific gravity
// 20/20, undoing the buoyancy of the air it was weighed in.
func KgM3FromSG(sg float64) float64 { return sg*(WaterAt20KgM3-airKgM3) + airKgM3 }

// SGFromKgM3 is the inverse of [KgM3FromSG].
func SGFromKgM3(kgM3 float64) float64 { return (kgM3 - airKgM3) / (WaterAt20KgM3 - airKgM3) }

// GramsPerLitre gives the extract in g per litre of wort at 20 °C by its °P:
// mass share times density.
func GramsPerLitre(plato float64) float64 {
	return plato / 100 * KgM3FromSG(SGFromPlato(plato))
}

// PlatoFromGramsPerLitre is the inverse of [GramsPerLitre], from -1000 g/L up.
// Below that, where no liquid is, it stays at its last value.
func PlatoFromGramsPerLitre(gramsPerL float64) float64 {
	if gramsPerL == 0 || math.IsNaN(gramsPerL) || math.IsInf(gramsPerL, 1) {
		return gramsPerL
	}
	const lowestSG = 0.5 // the product of extract and density turns back below
	sg := solve(lowestSG, 1+math.Max(gramsPerL, 0)/1000+1e-9, 1+gramsPerL/2600, gramsPerL,
		func(sg float64) (float64, float64) {
			b, db := bell(sg)
			p, dp := asbc(sg)+b, asbcSlope(sg)+db
			rho := KgM3FromSG(sg)
			return p / 100 * rho, (dp*rho + p*(WaterAt20KgM3-airKgM3)) / 100
		})
	return PlatoFromSG(sg)
}
