package ui

import (
	"strings"

	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/measured"
	"skep/calc/quantity"
)

// The kinds of reading that no fermentation is followed by.
const (
	VolumePackaged   = "volume-packaged"
	PerceivedDryness = "perceived-dryness"
	PerceivedBody    = "perceived-body"
)

// IsGravity says whether a reading is one of gravity.
func IsGravity(what string) bool {
	return what == measured.Gravity || what == measured.ForcedFerment || strings.HasSuffix(what, "-gravity")
}

// ReadingKind is what a reading is typed as, and between which limits the
// design file keeps it.
func ReadingKind(what string) (quantity.Kind, quantity.Limits) {
	switch {
	case strings.Contains(what, "volume"):
		return quantity.Volume, quantity.Limits{Low: 0, High: 1000}
	case what == measured.MashTemperature, what == measured.StrikeTemperature:
		return quantity.Temperature, quantity.Limits{Low: 0, High: 105}
	case what == measured.BeerTemperature:
		return quantity.Temperature, quantity.Limits{Low: -5, High: 50}
	case what == measured.HoneyAdded:
		return quantity.MassKg, quantity.Limits{Low: 0, High: 50}
	case IsGravity(what):
		return quantity.Gravity, quantity.Limits{Low: 0.95, High: 1.25}
	}
	return quantity.Index, quantity.Limits{Low: 0, High: 100}
}

// BlankLabel is what is measured at a step, in the room that a window has: the labels
// of the sheet are short.
func BlankLabel(step brewday.Key, b *brewday.Blank) string {
	switch b.What {
	case measured.StrikeTemperature:
		return words.T("the liquor, before the grain")
	case measured.MashTemperature:
		return words.T("mash, once stirred")
	case measured.PreBoilVolume:
		return words.T("volume before the boil, hot")
	case measured.PreBoilGravity:
		return words.T("gravity before the boil, cooled")
	case measured.PostBoilVolume:
		return words.T("volume after the boil, hot")
	case measured.PostBoilGravity:
		return words.T("gravity after the boil, cooled")
	case measured.VolumeFermenter:
		return words.T("into the fermenter")
	case measured.OriginalGravity:
		return words.T("original gravity")
	case measured.Pitched:
		return words.T("yeast pitched")
	case measured.BeerTemperature:
		if step == brewday.Pitching {
			return words.T("wort at pitching")
		}
		return words.T("beer temperature")
	case measured.Foam:
		return words.T("foam")
	case measured.Gravity:
		switch step {
		case brewday.Honey:
			return words.T("gravity before the honey")
		case brewday.Packaging:
			return words.T("gravity, first reading")
		}
		return words.T("gravity")
	case measured.FinalGravity:
		return words.T("gravity, days later")
	case measured.HoneyAdded:
		return words.T("honey added")
	case VolumePackaged:
		return words.T("volume packaged")
	}
	return words.Print(b.Label)
}
