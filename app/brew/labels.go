package brew

import (
	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/message"
)

// The sheet is narrow and its labels are short; the window has room for more.

// blankLabel is what is measured at a step.
func blankLabel(step brewday.Key, b brewday.Blank) string {
	switch b.What {
	case "mash-temperature":
		return words.T("mash, once stirred")
	case "pre-boil-volume":
		return words.T("volume before the boil, hot")
	case "pre-boil-gravity":
		return words.T("gravity before the boil, cooled")
	case "volume-into-fermenter":
		return words.T("into the fermenter")
	case "original-gravity":
		return words.T("original gravity")
	case "pitched":
		return words.T("yeast pitched")
	case "beer-temperature":
		if step == brewday.Pitching {
			return words.T("wort at pitching")
		}
		return words.T("beer temperature")
	case "foam":
		return words.T("foam")
	case "gravity":
		switch step {
		case brewday.Honey:
			return words.T("gravity before the honey")
		case brewday.Packaging:
			return words.T("gravity, first reading")
		}
		return words.T("gravity")
	case "final-gravity":
		return words.T("gravity, days later")
	case "honey-added":
		return words.T("honey added")
	case "volume-packaged":
		return words.T("volume packaged")
	}
	return words.Print(b.Label)
}

// numberLabel is what a number of a step is.
func numberLabel(step brewday.Key, label message.Message) string {
	switch string(step) + " " + label.Text {
	case "liquor mash":
		return words.T("mash liquor")
	case "liquor sparge", "sparge sparge":
		return words.T("sparge liquor")
	case "mash-in strike":
		return words.T("strike liquor at")
	case "mash-in liquor":
		return words.T("of it")
	case "sparge liquor":
		return words.T("at")
	case "sparge gravity":
		return words.T("gravity before the boil")
	case "boil then left, hot":
		return words.T("left after it, hot")
	case "run-off fermenter":
		return words.T("into the fermenter")
	case "run-off out":
		return words.T("out of the chiller at")
	case "run-off takes":
		return words.T("run-off takes")
	case "run-off uses":
		return words.T("tap water used")
	case "honey poured":
		return words.T("room it takes, poured")
	case "honey closes":
		return words.T("window closes")
	case "packaging a litre":
		return words.T("primer a litre")
	case "packaging pressure":
		return words.T("pressure where it is warmest")
	case "packaging at worst":
		return words.T("at worst, if it was not over")
	case "packaging then":
		return words.T("pressure at worst")
	case "packaging made for":
		return words.T("bottles made for")
	}
	return words.Print(label)
}
