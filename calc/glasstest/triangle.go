package glasstest

import "gonum.org/v1/gonum/mathext"

// Triangles is how often the odd one of three glasses was found, two of which held
// the same beer (ISO 4120). Who can't tell finds it once in three.
type Triangles struct{ Right, Trials int }

// ByChance is how likely somebody who can't tell finds the odd glass at least so
// often.
func (t Triangles) ByChance() float64 {
	if t.Right <= 0 {
		return 1
	}
	if t.Right > t.Trials {
		return 0
	}
	// P(X ≥ k) of a binomial is the regularised incomplete beta function.
	return mathext.RegIncBeta(float64(t.Right), float64(t.Trials-t.Right+1), 1.0/3)
}

// Proof is the chance below which a difference counts as shown.
const Proof = 0.05

// Enough is the number of trials that find a difference of two just noticeable ones
// (d' of 2) four times in five at 5 %; fewer prove little when they find none.
const Enough = 23
