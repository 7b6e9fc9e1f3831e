package ui

import "skep/app/words"

// NoNumber stands where a number would, when the design is refused.
const NoNumber = "–"

// Refused says that a design can't be computed, and why.
func Refused(why error) string {
	return words.T("No numbers: this design is refused: {why}", words.Error(why))
}
