package command

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"skep/calc"
	"skep/calc/packaging"
)

// Decimals of the table: as many as a brewer can use, as in the window.
const (
	gravityDecimals  = 3
	strengthDecimals = 1
	indexDecimals    = 0
	tenths           = 1
)

const (
	labelWidth  = 30
	numberWidth = 8
)

// table writes the prediction for people.
func (s *session) table(p calc.Prediction) {
	title := p.Title
	if title == "" {
		title = "Untitled design"
	}
	if p.Yeast != "" {
		title += ", with " + p.Yeast
	}
	s.printf("%s\n\n", title)
	s.row("", "low", "mid", "high", "")
	s.band("original gravity", p.OriginalGravitySG, gravityDecimals, "SG")
	s.band("  with all fermenting honey", p.EffectiveOriginalGravitySG, gravityDecimals, "SG")
	s.band("final gravity", p.FinalGravitySG, gravityDecimals, "SG")
	s.band("strength", p.StrengthPct, strengthDecimals, "% vol")
	s.band("apparent attenuation", p.ApparentAttenuationPct, indexDecimals, "%")
	s.band("real attenuation", p.RealAttenuationPct, indexDecimals, "%")
	s.printf("\n")
	s.band("dryness, 0 to 100", p.Dryness, indexDecimals, p.DrynessWord)
	s.band("body, 0 to 100", p.Body, indexDecimals, p.BodyWord)
	s.band("honey character, 0 to 100", p.HoneyCharacter, indexDecimals, p.HoneyCharacterWord)
	s.band("residual sugar", p.ResidualSugarGL, tenths, "g/L")
	s.band("sweetness", p.SweetnessGL, tenths, "g/L as sucrose")
	s.band("dextrin", p.DextrinGL, tenths, "g/L")
	s.band("real extract", p.RealExtractGL, tenths, "g/L")
	s.band("bitterness", p.BitternessIBU, indexDecimals, "IBU")
	s.band("colour", p.ColourEBC, tenths, "EBC")
	s.band("energy", p.EnergyKJPerL, indexDecimals, "kJ/L")

	s.printf("\nwort in the fermenter, before any late honey\n")
	s.band("  glucose", p.Wort.Glucose, tenths, "g/L")
	s.band("  fructose", p.Wort.Fructose, tenths, "g/L")
	s.band("  sucrose", p.Wort.Sucrose, tenths, "g/L")
	s.band("  maltose", p.Wort.Maltose, tenths, "g/L")
	s.band("  maltotriose", p.Wort.Maltotriose, tenths, "g/L")
	s.band("  dextrin", p.Wort.Dextrin, tenths, "g/L")

	s.printf("\nafter pitching\n")
	s.band("  height of fermentation", p.HeightHours, indexDecimals, "h")
	s.band("  honey window opens", p.HoneyWindowHours[0], indexDecimals, "h")
	s.band("  honey window closes", p.HoneyWindowHours[1], indexDecimals, "h")
	s.band("  finished", p.FinishedHours, indexDecimals, "h")

	s.printf("\nthe day\n")
	s.value("  strike temperature", p.StrikeTemperatureC, tenths, "°C")
	s.value("  mash liquor", p.Volumes.MashLiquor, tenths, "L")
	s.value("  sparge", p.Volumes.Sparge, tenths, "L")
	s.value("  before the boil", p.Volumes.PreBoil, tenths, "L")
	s.value("  after the boil", p.Volumes.PostBoil, tenths, "L")
	s.value("  into the fermenter", p.Volumes.IntoFermenter, tenths, "L")
	s.value("  packaged", p.Volumes.Packaged, tenths, "L")
	s.value("  primer", p.PrimerGPerL, tenths, "g/L")
	s.value("  in the bottle", p.BottleVolumes, tenths, "volumes of CO2")
	s.value("  may still fall by", p.BottleHeadroomPoints, tenths, "points, then the bottle holds what it is made for")
	s.value("  equal readings", packaging.WholeDays(p.EqualReadingsDays), indexDecimals, "days apart or more")
	s.value("  they can have missed", p.BottleVolumesWorst, tenths, "volumes of CO2 at most, all told")
	if p.BottleVolumesHoneyUnfermented > 0 {
		s.value("  with the honey still in", p.BottleVolumesHoneyUnfermented, tenths, "volumes of CO2: never by the calendar")
	}

	s.list("warnings", p.Warnings)
	s.list("cautions", p.Cautions)
}

func (s *session) band(label string, b calc.Band, decimals int, unit string) {
	s.row(label, fixed(b.Low, decimals), fixed(b.Mid, decimals), fixed(b.High, decimals), unit)
}

// value has its number in the middle column, and no doubt of its own.
func (s *session) value(label string, v float64, decimals int, unit string) {
	s.row(label, "", fixed(v, decimals), "", unit)
}

func (s *session) row(label, low, mid, high, unit string) {
	line := fmt.Sprintf("%s%*s%*s%*s  %s", pad(label), numberWidth, low, numberWidth, mid, numberWidth, high, unit)
	s.printf("%s\n", strings.TrimRight(line, " "))
}

func (s *session) list(title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	s.printf("\n%s\n", title)
	for _, l := range lines {
		s.printf("  %s\n", l)
	}
}

// pad fills a label to its column; fmt counts bytes where a person counts letters.
func pad(label string) string {
	return label + strings.Repeat(" ", max(1, labelWidth-utf8.RuneCountInString(label)))
}

// fixed rounds for people, without a minus before a zero.
func fixed(v float64, decimals int) string {
	t := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(t, "-0.") == "" {
		t = strings.TrimPrefix(t, "-")
	}
	return t
}
