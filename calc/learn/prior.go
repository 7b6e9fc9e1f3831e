package learn

import (
	"math"

	"skep/calc/mash"
)

// How the engine's doubt of mash efficiency, 2 points (design notes, section 7),
// is divided: a kit's own figure against its prior, and batch from batch (a test
// holds the sum to the engine). All divisions in this file are ours.
const (
	kitEfficiencySD   = 1.6
	batchEfficiencySD = 1.2 // 1.6² + 1.2² = 2²
)

// Boil-off, L/h (common practice, no source: figures of a vessel's maker are
// within half a litre an hour; lid, draught and heater change it by 0.2).
const (
	kitSteamSD   = 0.5
	batchSteamSD = 0.2
)

// offsetShare is the share of the variance of kit.rest_error_c that is the
// thermometer's standing offset; the rest is control, mash to mash.
const offsetShare = 0.7

// standingMaltShare is the share of the variance of malt from malt that stands
// in one brewer's usual malt, water and ways; the rest comes with the sack.
// Evans et al. 2008 find more within a variety than between varieties, so no
// more than half.
const standingMaltShare = 0.5

var (
	standingMaltSD = mash.MaltSDPoints * math.Sqrt(standingMaltShare)
	batchMaltSD    = mash.MaltSDPoints * math.Sqrt(1-standingMaltShare)
)

// narrowestStrainSD: a range given narrower is not believed to the letter,
// attenuation points.
const narrowestStrainSD = 0.5

// Speed, natural logarithm of the time to the height over the predicted: in
// these hands (pitch, air, nutrient), of the strain, of the batch. Together
// 0.39, which is what the engine's bands of the height come to for an ale at
// 19 °C (a test holds them together).
const (
	handsTimeSD  = 0.21
	strainTimeSD = 0.23
	batchTimeSD  = 0.23
	shapeTimeSD  = 0.08 // of the course's own shape, in any one batch
)

// engineTimeSD is the three together: what the engine draws without lessons.
var engineTimeSD = math.Sqrt(handsTimeSD*handsTimeSD + strainTimeSD*strainTimeSD + batchTimeSD*batchTimeSD)

// Taste, index points: one palate's standing offset on our scale, and the same
// beer tasted on another day (no source).
const (
	palateSD  = 8.0
	tastingSD = TastingSD
	indexSD   = 2.0 // of the index itself, with the gravities measured
)

// TastingSD is one beer tasted on another day, index points.
const TastingSD = 6.0

// Errors of measurement where package follow has none.
const (
	unmeasuredVolumeShare = 0.04 // litres in the fermenter taken from the plan (ours)
	preBoilVolumeShare    = 0.02 // a dip stick or a mark (common practice, no source)
	mashGradientC         = 0.4  // one place in the bed against its mean (ours)
	foamTime              = 0.15 // natural logarithm: foam seen "at its height" (ours)
)

// scale is one multiple of a spread with its prior weight.
type scale struct{ times, weight float64 }

// scales are the grids of a (how far a kit may be from its prior) and b (how
// much its batches scatter).
type scales struct{ a, b []scale }

// usualScales: three kits in four are within the spread that the engine
// draws, one in twenty is a stranger; one brewer in twenty scatters twice as
// much as is drawn. Wider grids cover wild brewers better and make the first
// batch widen everybody else's band (tried).
var usualScales = scales{
	a: []scale{{1, 0.75}, {2, 0.20}, {4, 0.05}},
	b: []scale{{0.5, 0.20}, {0.75, 0.25}, {1, 0.30}, {1.4, 0.20}, {2, 0.05}},
}

// known holds both at 1: the plain normal-normal model.
var known = scales{a: []scale{{1, 1}}, b: []scale{{1, 1}}}
