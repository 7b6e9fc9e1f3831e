package alcohol

import (
	"math"

	"skep/calc/message"
)

// The range of the OIML formula.
const (
	MinOIMLC = -20.0
	MaxOIMLC = 40.0
)

// OIML R 22 (1975), International alcoholometric tables: coefficients of the
// density in kg/m³ by mass fraction p and t - 20 °C. The first rows are also in
// the annex of directive 76/766/EEC.
var (
	oimlA = [...]float64{ // p^0 .. p^11
		998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441,
		-88292.78388, 306287.4042, -613838.1234, 747017.2998, -547846.1354,
		223446.0334, -39032.85426,
	}
	oimlB = [...]float64{ // (t-20)^1 .. ^6
		-0.20618513, -0.0052682542, 3.6130013e-5, -3.8957702e-7,
		7.1693540e-9, -9.9739231e-11,
	}
	oimlC = [...][]float64{ // row i: (t-20)^i; p^1 ..
		{0.1693443461530087, -10.46914743455169, 71.96353469546523,
			-704.7478054272792, 3924.090430035045, -12101.64659068747,
			22486.46550400788, -26055.62982188164, 18523.73922069467,
			-7420.201433430137, 1285.617841998974},
		{-0.01193013005057010, 0.2517399633803461, -2.170575700536993,
			13.53034988843029, -50.29988758547014, 109.6355666577570,
			-142.2753946421155, 108.0435942856230, -44.14153236817392,
			7.442971530188783},
		{-6.802995733503803e-4, 0.01876837790289664, -0.2002561813734156,
			1.022992966719220, -2.895696483903638, 4.810060584300675,
			-4.672147440794683, 2.458043105903461, -0.5411227621436812},
		{4.075376675622027e-6, -8.763058573471110e-6, 6.515031360099368e-6,
			-1.515784836987210e-6},
		{-2.788074354782409e-8, 1.345612883493354e-8},
	}
)

// DensityKgM3 is the density in kg/m³ of ethanol in water by mass fraction
// (0 to 1) and temperature (-20 to 40 °C), OIML R 22.
func DensityKgM3(massFraction, temperatureC float64) (float64, error) {
	if !(massFraction >= 0 && massFraction <= 1) {
		return 0, message.NewError("alcohol mass fraction {value} is outside 0 to 1", massFraction)
	}
	if !(temperatureC >= MinOIMLC && temperatureC <= MaxOIMLC) {
		return 0, message.NewError("temperature {value} °C is outside {low} to {high}, the range of the OIML alcohol tables", temperatureC, MinOIMLC, MaxOIMLC)
	}
	return oiml(massFraction, temperatureC), nil
}

func oiml(p, temperatureC float64) float64 {
	t := temperatureC - 20
	rho := horner(oimlA[:], p) + t*horner(oimlB[:], t)
	power := t
	for _, row := range oimlC {
		rho += power * p * horner(row, p)
		power *= t
	}
	return rho
}

func horner(c []float64, x float64) float64 {
	v := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		v = v*x + c[i]
	}
	return v
}

// ABVFromABWInWater gives % by volume at 20 °C from % by mass (0 to 100) of
// ethanol in water, without extract.
func ABVFromABWInWater(abwPct float64) (float64, error) {
	rho, err := DensityKgM3(abwPct/100, 20)
	if err != nil {
		return 0, err
	}
	return abwPct * rho / oiml(1, 20), nil
}

// ABWFromABVInWater is the numeric inverse of [ABVFromABWInWater].
func ABWFromABVInWater(abvPct float64) (float64, error) {
	if !(abvPct >= 0 && abvPct <= 100) {
		return 0, message.NewError("alcohol {value} % by volume is outside 0 to 100", abvPct)
	}
	lo, hi := 0.0, 100.0
	for range 100 {
		mid := (lo + hi) / 2
		if mid*oiml(mid/100, 20)/oiml(1, 20) < abvPct {
			lo = mid
		} else {
			hi = mid
		}
		if hi-lo <= 1e-13*math.Max(1, hi) {
			break
		}
	}
	return (lo + hi) / 2, nil
}
