package water

import (
	"math"

	"skep/calc/message"
)

// Specific heat of malt (water = 1) and how much slaking warms the mash, by
// malt moisture. Source: Pauls and Whites Brewing Room Book 1984/85, quoted in
// a brewers' supplier's appendix. The slaking of 3 % is printed there as 2.3 °C
// beside 3.5 °F, which is 1.9 °C: the Fahrenheit figure is taken.
var (
	maltMoisturePct = [...]float64{0, 1, 2, 3, 4, 6, 8}
	maltHeat        = [...]float64{0.38, 0.38, 0.39, 0.40, 0.40, 0.41, 0.42}
	maltSlakingC    = [...]float64{3.0, 2.8, 2.3, 1.9, 1.5, 1.3, 1.0}
)

// The table's range of malt moisture, %.
const (
	MinMaltMoisturePct = 0.0
	MaxMaltMoisturePct = 8.0
)

// usualMoisturePct is taken where the malt's moisture is not known.
const usualMoisturePct = 4.0 // common practice, no source

// MaltHeat is the specific heat of malt, water = 1, by moisture (0 to 8 %,
// held at the ends).
func MaltHeat(moisturePct float64) float64 {
	return between(maltMoisturePct[:], maltHeat[:], moisturePct)
}

// SlakingC is how much dry malt warms the mash by taking up water, °C, by
// moisture (0 to 8 %, held at the ends), in a mash as thick as the table's
// example: 2.68 L/kg. The table itself names no thickness.
func SlakingC(moisturePct float64) float64 {
	return between(maltMoisturePct[:], maltSlakingC[:], moisturePct)
}

// slakingLPerKg is the liquor of the table's example.
const slakingLPerKg = 2.68

// SlakingKJPerKg is the same as heat for a kilogram of malt, so that a thinner
// mash is warmed less: about 18 kJ/kg for malt of 4.5 %. Taking the printed
// degrees to be those of the example is ours.
func SlakingKJPerKg(moisturePct float64) float64 {
	mash := slakingLPerKg*coolWaterKgPerL()*HeatKJPerKgK(66) + MaltHeat(moisturePct)*waterHeatUnitKJ
	return SlakingC(moisturePct) * mash
}

// Strike is grain and liquor about to meet.
type Strike struct {
	GrainKg           float64
	LiquorL           float64 // at 20 °C
	GrainTemperatureC float64
	TargetC           float64 // of the mash
	VesselHeatKJPerK  float64
	VesselC           float64 // NaN: the liquor was heated in the vessel, which is as hot
	MaltMoisturePct   float64 // NaN: not known, 4 % and no slaking
}

// TemperatureC is how hot the liquor must be, by heat balance:
//
//	m c (Ts - T) + slaking = grain (T - Tg) + vessel (T - Tv)
//
// with c of water at the mean of Ts and T, and slaking the heat that malt gives
// as it takes up water. A vessel in which the liquor was heated stands on the
// left.
func (s Strike) TemperatureC() (float64, error) {
	if !(s.LiquorL > 0) {
		return 0, message.NewError("liquor_l must be above 0, there is nothing to heat")
	}
	moisture, slaking := usualMoisturePct, 0.0
	if !math.IsNaN(s.MaltMoisturePct) {
		moisture, slaking = s.MaltMoisturePct, SlakingKJPerKg(s.MaltMoisturePct)
	}
	target := s.TargetC
	needs := s.GrainKg * (MaltHeat(moisture)*waterHeatUnitKJ*(target-s.GrainTemperatureC) - slaking)
	liquorKg := s.LiquorL * coolWaterKgPerL()
	strike := target
	for range 4 { // c varies by 0.2 % here: this settles at once
		gives := liquorKg * HeatKJPerKgK((strike+target)/2)
		if math.IsNaN(s.VesselC) {
			strike = target + needs/(gives+s.VesselHeatKJPerK)
			continue
		}
		strike = target + (needs+s.VesselHeatKJPerK*(target-s.VesselC))/gives
	}
	return strike, nil
}

// MashC is where the mash settles when liquor of strikeC meets the grain: the
// inverse of [Strike.TemperatureC].
func (s Strike) MashC(strikeC float64) (float64, error) {
	if !(s.LiquorL > 0) {
		return 0, message.NewError("liquor_l must be above 0, there is nothing to heat")
	}
	low, high := -20.0, 120.0
	for range 80 {
		s.TargetC = (low + high) / 2
		needed, err := s.TemperatureC()
		if err != nil {
			return 0, err
		}
		if needed < strikeC {
			low = s.TargetC
		} else {
			high = s.TargetC
		}
	}
	return (low + high) / 2, nil
}

// Strike is the mixing of a brew's grain with so much liquor. The liquor is heated in
// the vessel, so the vessel helps; the malt's moisture says how much slaking does (a
// degree and a half at 3 L/kg).
func (in *Input) Strike(liquorL float64) Strike {
	s := Strike{
		GrainKg: in.Grist.MassKg, LiquorL: liquorL, GrainTemperatureC: in.GrainC,
		TargetC: in.FirstRestC, VesselHeatKJPerK: in.Kit.VesselHeatKJPerK,
		VesselC: math.NaN(), MaltMoisturePct: math.NaN(),
	}
	if in.Grist.MassKg > 0 {
		s.MaltMoisturePct = 100 * in.Grist.MoistureKg / in.Grist.MassKg
	}
	return s
}

// strikeFor is how hot the mash liquor of a brew must be, °C. Where that is above
// the boiling point it is the boiling point, and the mash settles cooler than asked.
// Both are 0 where there is no liquor.
func strikeFor(in *Input, liquorL, boilingC float64) (strikeC, settlesC float64) {
	if !(liquorL > 0) {
		return 0, 0
	}
	s := in.Strike(liquorL)
	c, err := s.TemperatureC()
	if err != nil {
		return 0, 0
	}
	if c <= boilingC {
		return c, in.FirstRestC
	}
	settles, err := s.MashC(boilingC)
	if err != nil {
		return 0, 0
	}
	return boilingC, settles
}

// leastHeaterW is what counts as a heater at all.
const leastHeaterW = 1.0

// HeatingMinutes is how long a heater takes to bring liquor (at 20 °C, litres),
// grain and vessel from one temperature to another, no losses. Infinite power
// is not asked for: no heater, which is less than a watt, gives 0.
func HeatingMinutes(liquorL, grainKg, vesselHeatKJPerK, fromC, toC, heaterW float64) float64 {
	if !(heaterW >= leastHeaterW) || toC <= fromC {
		return 0
	}
	kj := liquorL*coolWaterKgPerL()*HeatKJPerKgK((fromC+toC)/2) +
		grainKg*MaltHeat(usualMoisturePct)*waterHeatUnitKJ + vesselHeatKJPerK
	return kj * (toC - fromC) * 1000 / heaterW / secondsPerMin
}
