package ui

import (
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/follow"
)

// SpentWords say why a lever can't be moved any more: with what was measured, and
// on which day.
func SpentWords(h Host, s follow.Spent) string {
	value := ""
	if k, ok := design.KeyOf(s.Key); ok {
		value = h.Say().KeyNumber(k, s.Value)
	}
	if s.At.IsZero() {
		return SpentWhy(s.Why)
	}
	at, form := s.At.Local(), "2 January"
	if at.Year() != h.Now().Local().Year() {
		form = "2 January 2006"
	}
	day := words.Date(at, form)
	switch s.Why {
	case follow.WortPitched:
		return words.T("the wort was pitched on {day}", day)
	case follow.MashRunOff:
		return words.T("the mash was run off by {day}", day)
	case follow.HoneyIn:
		return words.T("{value} went in on {day}", value, day)
	case follow.AllHoneyIn:
		return words.T("all honey was in on {day}", day)
	case follow.VolumeMeasured:
		return words.T("{value} measured in the fermenter on {day}", value, day)
	case follow.RestMeasured:
		return words.T("mashed at {value} on {day}", value, day)
	case follow.FinalLogged:
		return words.T("a final gravity was logged on {day}", day)
	}
	return SpentWhy(s.Why)
}

// SpentWhy is the reason alone.
func SpentWhy(why follow.Reason) string {
	switch why {
	case follow.WortPitched:
		return words.T("the wort is pitched")
	case follow.MashRunOff:
		return words.T("the mash is run off")
	case follow.HoneyIn:
		return words.T("logged")
	case follow.AllHoneyIn:
		return words.T("all honey is in")
	case follow.VolumeMeasured:
		return words.T("measured in the fermenter")
	case follow.RestMeasured:
		return words.T("measured in the mash")
	case follow.FinalLogged:
		return words.T("a final gravity is logged")
	}
	return ""
}
