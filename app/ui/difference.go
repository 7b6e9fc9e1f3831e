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
		if m := calc.Outcome(o).Differs(v); !m.Empty() {
			sure = append(sure, f.Sentence(m))
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

// EndLabel is the middle of a difference with its sign, on the scale of the outcome's
// picture, in brackets where there is none to be sure of; "same" where nothing of
// it is left.
func (f Formatter) EndLabel(o calc.Outcome, v calc.Band) string {
	size := f.Number(o.DifferenceKind(v), math.Abs(v.Mid))
	if o == calc.FinalGravity && f.Units().Gravity == quantity.Plato {
		size = f.Plain(math.Abs(v.Mid)*1000/pointsPerPlato, 1)
	} else if o == calc.FinalGravity {
		size = f.Plain(math.Abs(v.Mid), 3)
	}
	text := Signed(size, v.Mid)
	if text == size { // nothing of it is left
		return words.T("same")
	}
	if v.Unsure() {
		return "(" + text + ")"
	}
	return text
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
