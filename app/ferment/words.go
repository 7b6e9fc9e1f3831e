package ferment

import (
	"strconv"
	"strings"
	"time"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/quantity"
)

// readingName is what was measured.
func readingName(what string) string {
	switch what {
	case measured.Pitched:
		return words.T("pitched")
	case measured.PreBoilVolume:
		return words.T("volume before the boil")
	case measured.PreBoilGravity:
		return words.T("gravity before the boil")
	case measured.StrikeTemperature:
		return words.T("strike temperature")
	case measured.PostBoilVolume:
		return words.T("volume after the boil")
	case measured.PostBoilGravity:
		return words.T("gravity after the boil")
	case measured.VolumeFermenter:
		return words.T("volume into the fermenter")
	case measured.OriginalGravity:
		return words.T("original gravity")
	case measured.Gravity:
		return words.T("gravity")
	case measured.FinalGravity:
		return words.T("final gravity")
	case measured.ForcedFerment:
		return words.T("end of a forced fermentation")
	case measured.MashTemperature:
		return words.T("mash temperature")
	case measured.BeerTemperature:
		return words.T("beer temperature")
	case measured.HoneyAdded:
		return words.T("honey added")
	case measured.Foam:
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
	case r.What == measured.Pitched:
		return ""
	case r.What == measured.Foam:
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

// fromNow is a band of hours from now.
func (p *Place) fromNow(v calc.Band) string { return p.host.Say().Sentence(follow.FromNow(v)) }

func (p *Place) span(v calc.Band) string { return p.host.Say().Span(v) }

// clock is a time of day with its day.
func (p *Place) clock(t time.Time) string { return words.Date(t.In(p.Zone), "Mon 2 Jan 15:04") }

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
	t := words.ReadDate(text)
	low := strings.ToLower(t)
	if low == "" || low == "now" || low == strings.ToLower(words.T("now")) {
		return now.UTC().Truncate(time.Second), nil
	}
	if at, err := time.Parse(time.RFC3339, t); err == nil {
		return at.UTC(), nil
	}
	if v, unit, ago, ok := hoursSaid(low); ok {
		from := now
		switch {
		case ago:
			v = -v
		default:
			if from = p.pitchedAt(); from.IsZero() {
				return from, message.NewError("hours count from the pitching, which is not logged yet")
			}
		}
		return from.Add(time.Duration(v * float64(unit))).UTC().Truncate(time.Second), nil
	}
	t, back := p.dayBefore(t)
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
	return time.Time{}, message.NewError("can't read “{text}” as a time: now, 14:30, yesterday 9:15, 21 Jun 14:30 or 36 h after pitching", text)
}

// hoursSaid reads "44 h", "44 hours after pitching", "3.5 h ago", "2 days ago", and
// "44 h nach dem Anstellen", "vor 3 h" where the person's language has it so.
func hoursSaid(low string) (v float64, unit time.Duration, ago, ok bool) {
	for _, pitching := range []string{"after pitching", words.T("after pitching")} {
		low = strings.TrimSpace(strings.TrimSuffix(low, strings.ToLower(pitching)))
	}
	for _, phrase := range []string{"\x00 ago", words.T("{span} ago", "\x00")} {
		before, after, _ := strings.Cut(strings.ToLower(phrase), "\x00")
		if len(low) > len(before)+len(after) && strings.HasPrefix(low, before) && strings.HasSuffix(low, after) {
			low, ago = strings.TrimSpace(low[len(before):len(low)-len(after)]), true
		}
	}
	for _, u := range []struct {
		name string
		is   time.Duration
	}{{"hours", time.Hour}, {"hour", time.Hour}, {"h", time.Hour}, {"days", 24 * time.Hour}, {"day", 24 * time.Hour}, {"d", 24 * time.Hour}, {"minutes", time.Minute}, {"min", time.Minute}} {
		if number, has := strings.CutSuffix(low, u.name); has {
			v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(number), ",", ".", 1), 64)
			return v, u.is, ago, err == nil && v >= 0 && v < 9000
		}
	}
	return 0, 0, false, false
}

// partsOfDay are what people call an hour that they do not remember to the minute.
var partsOfDay = map[string]string{"morning": "8:00", "noon": "12:00", "midday": "12:00", "afternoon": "15:00", "evening": "20:00", "night": "22:00", "midnight": "0:00"}

// dayBefore takes the day off a time that names it by its distance or its name:
// "yesterday evening", "this morning", "Sat 9:15", "last night", and says how many
// days back it lies. A weekday is the last one of that name, today among them.
func (p *Place) dayBefore(text string) (rest string, back int) {
	first, rest, _ := strings.Cut(text, " ")
	rest = strings.TrimSpace(rest)
	switch first = strings.ToLower(first); first {
	case "today", "this":
	case "yesterday", "last", strings.ToLower(words.T("yesterday")):
		back = 1
	default:
		found := false
		for d := time.Sunday; d <= time.Saturday; d++ {
			name := strings.ToLower(d.String())
			if len(first) >= 3 && strings.HasPrefix(name, first) {
				back, found = int(p.host.Now().In(p.Zone).Weekday()-d+7)%7, true
			}
		}
		// "Sat 20 Jun 9:15" has its date: the forms read it whole.
		if !found || len(strings.Fields(rest)) > 1 {
			return text, 0
		}
	}
	if clock, is := partsOfDay[strings.ToLower(rest)]; is {
		return clock, back
	}
	return rest, back
}
