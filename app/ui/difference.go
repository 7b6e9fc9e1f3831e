package ui

import (
	"math"
	"strings"

	"skep/app/words"
	"skep/calc"
	"skep/calc/quantity"
)

// Differences says in words what one beer has more than another of the four
// outcomes, with the band of each difference. What nobody can be sure of is not
// listed but said to be so; so is what is too small to be written.
func (f Formatter) Differences(than [calc.Outcomes]calc.Band) string {
	var sure []string
	for o, v := range than {
		if text := f.Difference(calc.Outcome(o), v); text != "" {
			sure = append(sure, text)
		}
	}
	switch len(sure) {
	case 0:
		return words.T("no difference to be sure of")
	case len(than):
		return strings.Join(sure, ", ")
	}
	return words.T("{differences}, nothing else to be sure of", strings.Join(sure, ", "))
}

// Difference is one of them; empty where there is none to be sure of.
func (f Formatter) Difference(o calc.Outcome, v calc.Band) string {
	size, decimals := f.amount(o, v)
	if v.Unsure() || math.Round(size.Mid*math.Pow10(decimals)) == 0 {
		return ""
	}
	mid, low, high := f.Plain(size.Mid, decimals), f.Plain(size.Low, decimals), f.Plain(size.High, decimals)
	more := v.Mid > 0
	switch {
	case o == calc.FinalGravity && f.Units().Gravity == quantity.Plato && more:
		return words.T("{mid} °P higher ({low} to {high})", mid, low, high)
	case o == calc.FinalGravity && f.Units().Gravity == quantity.Plato:
		return words.T("{mid} °P lower ({low} to {high})", mid, low, high)
	case o == calc.FinalGravity && more:
		return words.T("{mid} points higher ({low} to {high})", mid, low, high)
	case o == calc.FinalGravity:
		return words.T("{mid} points lower ({low} to {high})", mid, low, high)
	case o == calc.Strength && more:
		return words.T("{mid} % stronger ({low} to {high})", mid, low, high)
	case o == calc.Strength:
		return words.T("{mid} % weaker ({low} to {high})", mid, low, high)
	case o == calc.Dryness && more:
		return words.T("drier by {mid} ({low} to {high})", mid, low, high)
	case o == calc.Dryness:
		return words.T("sweeter by {mid} ({low} to {high})", mid, low, high)
	case more:
		return words.T("fuller by {mid} ({low} to {high})", mid, low, high)
	}
	return words.T("thinner by {mid} ({low} to {high})", mid, low, high)
}

// EndLabel is the middle of a difference with its sign, on the scale of the outcome's
// picture, in brackets where there is none to be sure of; "same" where nothing of
// it is left.
func (f Formatter) EndLabel(o calc.Outcome, v calc.Band) string {
	size, decimals := f.amount(o, v)
	mid := size.Mid
	if o == calc.FinalGravity && f.Units().Gravity != quantity.Plato {
		mid, decimals = mid/1000, 3
	}
	text := Signed(f.Plain(mid, decimals), v.Mid)
	if text == f.Plain(mid, decimals) { // nothing of it is left
		return words.T("same")
	}
	if v.Unsure() {
		return "(" + text + ")"
	}
	return text
}

// amount is the size of a difference as a person reads it, from its small end to
// its large one: gravity in points or °P. Small ones have a decimal.
func (f Formatter) amount(o calc.Outcome, v calc.Band) (size calc.Band, decimals int) {
	scale := 1.0
	if o == calc.FinalGravity {
		scale, _ = f.GravityStep()
	}
	size = calc.Band{Low: scale * math.Abs(v.Low), Mid: scale * math.Abs(v.Mid), High: scale * math.Abs(v.High)}
	if v.Mid < 0 {
		size.Low, size.High = size.High, size.Low
	}
	const manyPoints = 3
	if (o == calc.Dryness || o == calc.Body) && size.Mid >= manyPoints {
		return size, 0
	}
	return size, 1
}

// Signed puts the sign of a number before its size, which was written by itself; one
// of which nothing is left has no sign.
func Signed(size string, v float64) string {
	switch {
	case !strings.ContainsAny(size, "123456789"):
		return size
	case v > 0:
		return "+" + size
	}
	return "−" + size
}

// GravityStep is what a difference of gravity is told in: how many of them are in an
// SG, and their name, points or °P.
func (f Formatter) GravityStep() (perSG float64, unit string) {
	if f.Units().Gravity == quantity.Plato {
		return 1000 / pointsPerPlato, words.T("°P")
	}
	return 1000, words.T("points")
}

// pointsPerPlato is how many thousandths of SG a °P is at beer gravities: the
// first row of the ASBC table (1 °P is 1.00389). A point is a quarter of a degree,
// near enough for a difference.
const pointsPerPlato = 3.9
