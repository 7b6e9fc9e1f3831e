package ui

import (
	"time"

	"skep/app/words"
	"skep/calc/design"
)

// DayWords is a day of the calendar as people write it, with its year where that is
// not the present one.
func DayWords(day design.Day, now time.Time) string {
	at, err := time.Parse(time.DateOnly, string(day))
	if err != nil {
		return string(day)
	}
	if at.Year() == now.Year() {
		return words.Date(at, "2 January")
	}
	return words.LongDate(at)
}
