package quantity

import (
	"math"

	"skep/calc/units"
)

// poundsOunces shows a tenth of an ounce below one pound (hops), half an ounce
// up to ten pounds, then whole ounces: about one part in a hundred or better,
// as with kilograms to two decimals.
func (f Formatter) poundsOunces(grams float64) string {
	sign := ""
	if grams < 0 {
		sign, grams = minus, -grams
	}
	ounces := units.OuncesFromGrams(grams)
	switch {
	case ounces < 15.95:
		ounces = math.Round(ounces*10) / 10
	case ounces < 160:
		ounces = math.Round(ounces*2) / 2
	default:
		ounces = math.Round(ounces)
	}
	if ounces == 0 {
		sign = ""
	}
	if ounces < ouncesPerPound {
		return sign + f.withUnit(f.digits(ounces, needed(ounces, 1)), f.say("oz"))
	}
	pounds := math.Floor(ounces / ouncesPerPound)
	rest := ounces - pounds*ouncesPerPound
	text := sign + f.withUnit(f.digits(pounds, 0), f.say("lb"))
	if rest == 0 {
		return text
	}
	return text + " " + f.withUnit(f.digits(rest, needed(rest, 1)), f.say("oz"))
}
