package command

import (
	"strings"
	"unicode/utf8"

	"skep/app/command/helptext"
	"skep/app/words"
	"skep/calc"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/taste"
)

// Decimals of the tables: as many as a brewer can use, as in the window.
const (
	gravityDecimals  = 3
	platoDecimals    = 1
	strengthDecimals = 1
	indexDecimals    = 0
	tenths           = 1
)

const (
	labelWidth  = 30
	numberWidth = 8
)

// text is a sentence in the person's language and units, each value with its band.
func (s *session) text(m message.Message) string { return s.say.Sentence(m) }

// line prints one.
func (s *session) line(text string, with ...any) {
	s.printf("%s\n", s.text(message.New(text, with...)))
}

// number is a metric value in the person's unit, with so many decimals.
func (s *session) number(k quantity.Kind, v float64, decimals int) string {
	if k == quantity.Gravity && s.say.Unit(k) != "" {
		decimals = max(decimals-gravityDecimals, 0) + platoDecimals
	}
	if k == quantity.None {
		return s.say.Plain(v, decimals)
	}
	return s.say.Plain(s.say.Shown(k, v), decimals)
}

// unit is the kind's, and of a specific gravity its name.
func (s *session) unit(k quantity.Kind) string {
	if k == quantity.Gravity && s.say.Unit(k) == "" {
		return "SG"
	}
	return s.say.Unit(k)
}

// middle is a band as "1.012 (1.010 to 1.014)".
func (s *session) middle(k quantity.Kind, b calc.Band, decimals int) string {
	return words.T("{mid} ({low} to {high})", s.number(k, b.Mid, decimals), s.number(k, b.Low, decimals), s.number(k, b.High, decimals))
}

// titled is a title, or what stands for none.
func titled(title string) string {
	if strings.TrimSpace(title) == "" {
		return words.T("Untitled design")
	}
	return title
}

// table writes the prediction for people.
func (s *session) table(p calc.Prediction) {
	title := titled(p.Title)
	if p.Yeast != "" {
		title = words.T("{title}, with {yeast}", title, p.Yeast)
	}
	s.printf("%s\n\n", title)
	s.row("", words.T("low"), words.T("mid"), words.T("high"), "")
	s.band(words.T("original gravity"), p.OriginalGravitySG, quantity.Gravity, gravityDecimals)
	s.band("  "+words.T("with all fermenting honey"), p.EffectiveOriginalGravitySG, quantity.Gravity, gravityDecimals)
	s.band(words.T("final gravity"), p.FinalGravitySG, quantity.Gravity, gravityDecimals)
	s.named(words.T("strength"), p.StrengthPct, strengthDecimals, words.T("% vol"))
	s.band(words.T("apparent attenuation"), p.ApparentAttenuationPct, quantity.Percent, indexDecimals)
	s.band(words.T("real attenuation"), p.RealAttenuationPct, quantity.Percent, indexDecimals)
	s.rows = append(s.rows, row{})
	worded := func(label string, b calc.Band, word message.Message) {
		s.named(label, b, indexDecimals, words.Print(word))
	}
	worded(words.T("dryness, 0 to 100"), p.Dryness, taste.WordOf(p.DrynessWord))
	worded(words.T("body, 0 to 100"), p.Body, taste.WordOf(p.BodyWord))
	worded(words.T("honey character, 0 to 100"), p.HoneyCharacter, taste.CharacterWordOf(p.HoneyCharacterWord))
	grams := func(label string, b calc.Band) { s.band(label, b, quantity.GramsPerLitre, tenths) }
	grams(words.T("residual sugar"), p.ResidualSugarGL)
	s.named(words.T("sweetness"), p.SweetnessGL, tenths, words.T("g/L as sucrose"))
	grams(words.T("dextrin"), p.DextrinGL)
	grams(words.T("real extract"), p.RealExtractGL)
	s.band(words.T("bitterness"), p.BitternessIBU, quantity.Bitterness, indexDecimals)
	s.band(words.T("colour"), p.ColourEBC, quantity.Colour, tenths)
	s.band(words.T("energy"), p.EnergyKJPerL, quantity.Energy, indexDecimals)

	s.heading(words.T("wort in the fermenter, before any late honey"))
	grams("  "+words.T("glucose"), p.Wort.Glucose)
	grams("  "+words.T("fructose"), p.Wort.Fructose)
	grams("  "+words.T("sucrose"), p.Wort.Sucrose)
	grams("  "+words.T("maltose"), p.Wort.Maltose)
	grams("  "+words.T("maltotriose"), p.Wort.Maltotriose)
	grams("  "+words.T("dextrin"), p.Wort.Dextrin)

	s.heading(words.T("after pitching"))
	s.hours("  ", p.HeightHours, p.HoneyWindowHours, p.FinishedHours)

	s.heading(words.T("the day"))
	s.value(words.T("strike temperature"), p.StrikeTemperatureC, quantity.Temperature)
	s.value(words.T("mash liquor"), p.Volumes.MashLiquor, quantity.Volume)
	s.value(words.T("sparge"), p.Volumes.Sparge, quantity.Volume)
	s.value(words.T("before the boil"), p.Volumes.PreBoil, quantity.Volume)
	s.value(words.T("after the boil"), p.Volumes.PostBoil, quantity.Volume)
	s.value(words.T("into the fermenter"), p.Volumes.IntoFermenter, quantity.Volume)
	s.value(words.T("packaged"), p.Volumes.Packaged, quantity.Volume)
	s.value(words.T("primer"), p.PrimerGPerL, quantity.GramsPerLitre)
	tenth := func(label string, v float64, unit string) {
		s.row("  "+label, "", s.number(quantity.None, v, tenths), "", unit)
	}
	tenth(words.T("in the bottle"), p.BottleVolumes, words.T("volumes of CO2"))
	s.value(words.T("may still fall by"), p.BottleHeadroomPoints/1000, quantity.FinePoints)
	s.row("  "+words.T("equal readings"), "", s.number(quantity.None, p.EqualReadingsDays, 0), "", words.T("days apart or more"))
	tenth(words.T("they can have missed"), p.BottleVolumesWorst, words.T("volumes of CO2 at most, all told"))
	if p.BottleVolumesHoneyUnfermented > 0 {
		tenth(words.T("with the honey still in"), p.BottleVolumesHoneyUnfermented, words.T("volumes of CO2: never by the calendar"))
	}

	s.flush()
	s.list(words.T("warnings"), p.Warnings)
	s.list(words.T("cautions"), p.Cautions)
}

// hours are the times of a fermentation.
func (s *session) hours(indent string, height calc.Band, window [2]calc.Band, finished calc.Band) {
	for _, x := range []struct {
		label string
		at    calc.Band
	}{
		{words.T("height of fermentation"), height}, {words.T("honey window opens"), window[0]},
		{words.T("honey window closes"), window[1]}, {words.T("finished"), finished},
	} {
		s.band(indent+x.label, x.at, quantity.WholeHours, 0)
	}
}

func (s *session) band(label string, b calc.Band, k quantity.Kind, decimals int) {
	s.row(label, s.number(k, b.Low, decimals), s.number(k, b.Mid, decimals), s.number(k, b.High, decimals), s.unit(k))
}

// named is a band of something that has no unit, or a longer one.
func (s *session) named(label string, b calc.Band, decimals int, unit string) {
	number := func(v float64) string { return s.number(quantity.None, v, decimals) }
	s.row(label, number(b.Low), number(b.Mid), number(b.High), unit)
}

// value has its number in the middle column, and no doubt of its own.
func (s *session) value(label string, v float64, k quantity.Kind) {
	s.row("  "+label, "", s.number(k, v, tenths), "", s.unit(k))
}

// row is a line of a table: a label and its cells, or a heading alone.
type row struct {
	label string
	cells []string
}

func (s *session) row(label, low, mid, high, unit string) {
	s.rows = append(s.rows, row{label, []string{low, mid, high, unit}})
}

// heading stands over the rows that follow, after an empty line.
func (s *session) heading(text string) {
	s.rows = append(s.rows, row{}, row{label: text})
}

// flush prints the rows so far, in columns as wide as the longest label asks.
func (s *session) flush() {
	width := labelWidth
	for _, r := range s.rows {
		if r.cells != nil {
			width = max(width, utf8.RuneCountInString(r.label)+1)
		}
	}
	for _, r := range s.rows {
		line := r.label
		if r.cells != nil {
			line = helptext.Pad(r.label, width) + helptext.Lean(r.cells[0], numberWidth) + helptext.Lean(r.cells[1], numberWidth) + helptext.Lean(r.cells[2], numberWidth) + "  " + r.cells[3]
		}
		s.printf("%s\n", strings.TrimRight(line, " "))
	}
	s.rows = nil
}

// list prints remarks under a title.
func (s *session) list(title string, lines []message.Message) {
	if len(lines) == 0 {
		return
	}
	s.printf("\n%s\n", title)
	for _, l := range lines {
		s.printf("  %s\n", s.text(l))
	}
}
