package ferment

import (
	"strconv"
	"strings"
	"time"

	"skep/app/ui"
	"skep/app/when"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/measured"
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
		return words.T("end of a forced ferment")
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

// parseWhen reads the moment of a reading; an empty text is now.
func (p *Place) parseWhen(text string) (time.Time, error) {
	return when.Read(text, p.host.Now().In(p.Zone), p.pitchedAt())
}
