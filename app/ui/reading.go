package ui

import (
	"strings"

	"skep/calc/follow"
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
	return what == follow.Gravity || what == follow.ForcedFerment || strings.HasSuffix(what, "-gravity")
}

// ReadingKind is what a reading is typed as, and between which limits the
// design file keeps it.
func ReadingKind(what string) (quantity.Kind, quantity.Limits) {
	switch {
	case strings.Contains(what, "volume"):
		return quantity.Volume, quantity.Limits{Low: 0, High: 1000}
	case what == follow.MashTemperature, what == follow.StrikeTemperature:
		return quantity.Temperature, quantity.Limits{Low: 0, High: 105}
	case what == follow.BeerTemperature:
		return quantity.Temperature, quantity.Limits{Low: -5, High: 50}
	case what == follow.HoneyAdded:
		return quantity.MassKg, quantity.Limits{Low: 0, High: 50}
	case IsGravity(what):
		return quantity.Gravity, quantity.Limits{Low: 0.95, High: 1.25}
	}
	return quantity.Index, quantity.Limits{Low: 0, High: 100}
}
