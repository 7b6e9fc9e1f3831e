package brew

import (
	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/message"
)

// The sheet is narrow and its labels are short; the window has room for more.

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
