package ui

import (
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/measured"
)

// SpentWords say why a lever can't be moved any more: with what was measured, and
// on which day.
func SpentWords(h Host, s measured.Spent) string {
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
	case measured.WortPitched:
		return words.T("the wort was pitched on {day}", day)
	case measured.MashRunOff:
		return words.T("the mash was run off by {day}", day)
	case measured.HoneyIn:
		return words.T("{value} went in on {day}", value, day)
	case measured.AllHoneyIn:
		return words.T("all honey was in on {day}", day)
	case measured.VolumeMeasured:
		return words.T("{value} measured in the fermenter on {day}", value, day)
	case measured.RestMeasured:
		return words.T("mashed at {value} on {day}", value, day)
	case measured.FinalLogged:
		return words.T("a final gravity was logged on {day}", day)
	}
	return SpentWhy(s.Why)
}

// SpentWhy is the reason alone.
func SpentWhy(why measured.Reason) string {
	switch why {
	case measured.WortPitched:
		return words.T("the wort is pitched")
	case measured.MashRunOff:
		return words.T("the mash is run off")
	case measured.HoneyIn:
		return words.T("logged")
	case measured.AllHoneyIn:
		return words.T("all honey is in")
	case measured.VolumeMeasured:
		return words.T("measured in the fermenter")
	case measured.RestMeasured:
		return words.T("measured in the mash")
	case measured.FinalLogged:
		return words.T("a final gravity is logged")
	}
	return ""
}
