package ui

import (
	"skep/app/words"
	"skep/calc"
	"skep/calc/quantity"
)

// OutcomeName is what a picture shows.
func OutcomeName(o calc.Outcome) string {
	switch o {
	case calc.FinalGravity:
		return words.T("final gravity")
	case calc.Strength:
		return words.T("strength, % vol")
	case calc.Dryness:
		return words.T("dryness")
	}
	return words.T("body")
}

// OutcomeKind is what it is measured in.
func OutcomeKind(o calc.Outcome) quantity.Kind {
	switch o {
	case calc.FinalGravity:
		return quantity.Gravity
	case calc.Strength:
		return quantity.Strength
	}
	return quantity.Index
}
