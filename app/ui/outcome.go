package ui

import (
	"skep/app/words"
	"skep/calc"
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
