package ferment

import (
	"errors"
	"strconv"
	"strings"
	"time"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/quantity"
)

// readingName is what was measured.
func readingName(what string) string {
	switch what {
	case follow.Pitched:
		return words.T("pitched")
	case follow.PreBoilVolume:
		return words.T("volume before the boil")
	case follow.PreBoilGravity:
		return words.T("gravity before the boil")
	case follow.VolumeFermenter:
		return words.T("volume into the fermenter")
	case follow.OriginalGravity:
		return words.T("original gravity")
	case follow.Gravity:
		return words.T("gravity")
	case follow.FinalGravity:
		return words.T("final gravity")
	case follow.ForcedFerment:
		return words.T("end of a forced fermentation")
	case follow.MashTemperature:
		return words.T("mash temperature")
	case follow.BeerTemperature:
		return words.T("beer temperature")
	case follow.HoneyAdded:
		return words.T("honey added")
	case follow.Foam:
		return words.T("foam")
	case ui.VolumePackaged:
		return words.T("volume packaged")
	case ui.PerceivedDryness:
		return words.T("dryness as tasted")
	case ui.PerceivedBody:
		return words.T("body as tasted")
	}
	return what
}

// readingText is a reading as the instrument showed it.
func (p *Place) readingText(r design.Reading) string {
	say := p.host.Say()
	switch {
	case r.What == follow.Pitched:
		return ""
	case r.What == follow.Foam:
		return [4]string{words.T("none"), words.T("rising"), words.T("at its height"), words.T("falling")}[min(max(int(r.Value), 0), 3)]
	case ui.IsGravity(r.What):
		value := p.valueText(r)
		if r.Instrument == "refractometer" {
			value += " °Bx"
		} else if u := say.Unit(quantity.Gravity); u != "" {
			value += " " + u
		}
		return words.T("{value} at {temperature}", value, say.Format(quantity.Temperature, r.TemperatureC))
	}
	kind, _ := ui.ReadingKind(r.What)
	return say.Format(kind, r.Value)
}

// valueText is a reading's number as one would type it again: a gravity with
// all it was read to.
func (p *Place) valueText(r design.Reading) string {
	kind, _ := ui.ReadingKind(r.What)
	switch {
	case r.Instrument == "refractometer" && ui.IsGravity(r.What):
		return p.host.Say().PlainNumber(r.Value)
	case !ui.IsGravity(r.What):
		return p.host.Say().Format(kind, r.Value)
	}
	decimals := 4
	if p.host.Say().Units().Gravity == quantity.Plato {
		decimals = 2
	}
	text := strconv.FormatFloat(p.host.Say().Shown(kind, r.Value), 'f', decimals, 64)
	if decimals == 4 {
		text = strings.TrimSuffix(text, "0")
	}
	return p.host.Say().Marked(text)
}

// fromNow is a band of hours from now: "in 9 h (3 to 14)", or in days.
func (p *Place) fromNow(v calc.Band) string {
	if v.Mid < 0 {
		v = calc.Band{Low: -v.High, Mid: -v.Mid, High: -v.Low}
		return words.T("{time} ago", p.span(v))
	}
	if v.Mid < 0.5 {
		return words.T("just about now")
	}
	return words.T("in {time}", p.span(v))
}

func (p *Place) span(v calc.Band) string { return p.host.Say().Span(v) }

// clock is a time of day with its day.
func (p *Place) clock(t time.Time) string { return t.In(p.Zone).Format("Mon 2 Jan 15:04") }

// whenForms are the ways in which a time may be typed, besides the words.
var whenForms = []struct {
	form         string
	day, hasYear bool
}{
	{"15:04", false, false},
	{"2 Jan 15:04", true, false}, {"2 January 15:04", true, false}, {"Mon 2 Jan 15:04", true, false}, {"2.1. 15:04", true, false},
	{"2 Jan 2006 15:04", true, true}, {"2006-01-02 15:04", true, true}, {"2006-01-02T15:04", true, true},
	{"2006-01-02 15:04:05", true, true}, {"02/01/2006 15:04", true, true}, {"2.1.2006 15:04", true, true},
}

// parseWhen reads a time as people write it: now, 14:30, yesterday 9:15,
// 21 Jun 14:30, 2026-06-21 14:30, or 36 h after pitching.
func (p *Place) parseWhen(text string) (time.Time, error) {
	now := p.host.Now().In(p.Zone)
	t := strings.Join(strings.Fields(strings.TrimSpace(text)), " ")
	low := strings.ToLower(t)
	if low == "" || low == "now" || low == strings.ToLower(words.T("now")) {
		return now.UTC().Truncate(time.Second), nil
	}
	if at, err := time.Parse(time.RFC3339, t); err == nil {
		return at.UTC(), nil
	}
	if hours, ok := strings.CutSuffix(low, "h"); ok {
		if v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(hours), ",", ".", 1), 64); err == nil && v >= 0 && v < 9000 {
			from := p.pitchedAt()
			if from.IsZero() {
				return from, errors.New(words.T("hours count from the pitching, which is not logged yet"))
			}
			return from.Add(time.Duration(v * float64(time.Hour))).Truncate(time.Second), nil
		}
	}
	back := 0
	for _, word := range []string{"yesterday", strings.ToLower(words.T("yesterday"))} {
		if rest, ok := strings.CutPrefix(low, word); ok && back == 0 {
			t, back = strings.TrimSpace(rest), 1
		}
	}
	for _, f := range whenForms {
		at, err := time.ParseInLocation(f.form, t, p.Zone)
		if err != nil {
			continue
		}
		switch {
		case f.hasYear:
		case f.day:
			at = time.Date(now.Year(), at.Month(), at.Day(), at.Hour(), at.Minute(), 0, 0, p.Zone)
			if at.After(now.AddDate(0, 0, 1)) {
				at = at.AddDate(-1, 0, 0) // in January, of December
			}
		default:
			at = time.Date(now.Year(), now.Month(), now.Day()-back, at.Hour(), at.Minute(), 0, 0, p.Zone)
		}
		return at.UTC(), nil
	}
	return time.Time{}, errors.New(words.T("can't read “{text}” as a time: now, 14:30, yesterday 9:15, 21 Jun 14:30 or 36 h after pitching", text))
}
