package honey

import (
	"math"

	"skep/calc/message"
)

// Half-lives of the enzymes of undiluted honey, hours: Crane 1980, Table 8.
var enzymeRows = [...]struct{ temperatureC, diastaseH, invertaseH float64 }{
	{10, 34 * hoursPerYear, 26 * hoursPerYear},
	{20, 4 * hoursPerYear, 2 * hoursPerYear},
	{30, 200 * 24, 83 * 24},
	{40, 31 * 24, 10 * 24},
	{50, 5 * 24, 24},
	{60, 24, 5},
	{70, 5, 47.0 / 60},
	{80, 1, 9.0 / 60},
}

const hoursPerYear = 365.25 * 24

// TrimDays is how long live enzymes are taken to work in the beer, from the honey
// to the glass: about three weeks in the fermenter and the bottle (common practice,
// no source).
const TrimDays = 21

// The temperatures for which a half-life is given. Above the table's 80 °C the
// last two rows are carried on: at the boil diastase is gone in minutes.
const (
	MinEnzymeC = 10.0
	MaxEnzymeC = 105.0
)

// DiastaseHalfLifeHours is the half-life in hours of diastase in undiluted
// honey at temperatureC (10 to 105 °C), the logarithm interpolated linearly
// between Crane's rows.
func DiastaseHalfLifeHours(temperatureC float64) (float64, error) {
	return halfLife(temperatureC, func(i int) float64 { return enzymeRows[i].diastaseH })
}

// InvertaseHalfLifeHours is the same for invertase.
func InvertaseHalfLifeHours(temperatureC float64) (float64, error) {
	return halfLife(temperatureC, func(i int) float64 { return enzymeRows[i].invertaseH })
}

func halfLife(temperatureC float64, row func(int) float64) (float64, error) {
	if !(temperatureC >= MinEnzymeC && temperatureC <= MaxEnzymeC) {
		return 0, message.NewError("temperature {value} °C is outside {low} to {high} for honey's enzymes", temperatureC, MinEnzymeC, MaxEnzymeC)
	}
	i := 0
	for i < len(enzymeRows)-2 && temperatureC > enzymeRows[i+1].temperatureC {
		i++
	}
	a, b := enzymeRows[i].temperatureC, enzymeRows[i+1].temperatureC
	t := (temperatureC - a) / (b - a)
	return math.Exp((1-t)*math.Log(row(i)) + t*math.Log(row(i+1))), nil
}

// DiastaseLeft is the share (0 to 1) of diastase left after hours in
// undiluted honey at temperatureC.
func DiastaseLeft(hours, temperatureC float64) (float64, error) {
	if !(hours >= 0) || math.IsInf(hours, 1) {
		return 0, message.NewError("time {value} h is not a number from 0 up", hours)
	}
	half, err := DiastaseHalfLifeHours(temperatureC)
	if err != nil {
		return 0, err
	}
	return math.Exp2(-hours / half), nil
}

// The doubt that live diastase adds. No published figure for honey in beer was
// found: these are ours, a judgement. That such trimming happens at all is
// known from dry hops, whose weaker amylases take up to a fifth or so of the
// remaining extract over weeks (from memory), and from honey's own activity;
// that beer's limit dextrins, its pH and the cold hold it back is as sure. So
// the low end is nothing, the middle a quarter of the high end.
const (
	trimMost      = 0.20 // share of dextrin at the high end, warm and for months
	trimMidOfHigh = 0.25
	trimDaysAt20C = 21.0 // days in which the high end gets to 63 % of that
	trimQ10       = 2.0  // faster by this for 10 °C more (the usual rule for enzymes, from memory)
	trimHalfGPerL = 10.0 // honey at which half of it is to be expected
)

// Trim is the share (0 to 1) of the beer's dextrin that live honey enzymes may
// take down to fermentable sugar: low (always 0: it need not happen), middle
// and high. It rises with days in the beer, temperature and honey.
type Trim struct{ Low, Mid, High float64 }

// DiastaseTrim gives the doubt for raw honey that never was hot: gramsPerL of
// honey in the beer, days from its addition, beer temperatureC (held to 0 to
// 40). Warming honey to pour it does not stop the enzymes; only the boil does
// for sure, so give no honey that went in hot. Bad numbers give no trim.
func DiastaseTrim(gramsPerL, days, temperatureC float64) Trim {
	if !(gramsPerL > 0 && days > 0) || math.IsNaN(temperatureC) {
		return Trim{}
	}
	speed := math.Pow(trimQ10, (min(max(temperatureC, 0), 40)-20)/10)
	dose := 1 / (1 + trimHalfGPerL/gramsPerL)
	high := trimMost * dose * -math.Expm1(-days*speed/trimDaysAt20C)
	return Trim{Mid: trimMidOfHigh * high, High: high}
}

// At gives the trim for a standard normal score z: 0 well below, Mid at 0,
// High at the 90th percentile. It grows as an exponential in z, less what
// keeps it at nothing from the 10th percentile down, and never passes twice
// High.
func (t Trim) At(z float64) float64 {
	const z90 = 1.2815515655446004
	if t.High <= 0 || math.IsNaN(z) || z <= -z90 {
		return 0
	}
	// A (b^(z+z90) - 1): 0 at -z90, Mid at 0, High at z90.
	// With y = b^z90: High/Mid = (y²-1)/(y-1) = y + 1.
	y := t.High/t.Mid - 1
	if !(y > 1) {
		return min(t.Mid*(1+z/z90), 2*t.High)
	}
	v := t.Mid / (y - 1) * (math.Pow(y, (z+z90)/z90) - 1)
	return min(v, 2*t.High)
}
