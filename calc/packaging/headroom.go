package packaging

import "math"

// VolumesPerPoint is the CO2 of a point of gravity, volumes: 0.500 to 0.508 for
// worts of 8 to 20 °P (Balling per litre of finished beer;
// carbonation.ExtractBetween has it exactly).
const VolumesPerPoint = 0.50

// MarkPoints is a mark of a brewing hydrometer, points.
const MarkPoints = 1.0

// leastGapDays is the least gap between readings, days, however quick the yeast.
const leastGapDays = 2.0

// finestPoints is the least headroom a gap is worked out for: nothing finer can
// be read off a hydrometer, and with none no gap would do. Such a bottle is
// warned of anyway.
const finestPoints = 0.1

// HeadroomPoints is how many points may still ferment in a bottle before it
// holds what it is made for; negative where the plan alone is more.
func HeadroomPoints(ratedVolumes, plannedVolumes float64) float64 {
	return (ratedVolumes - plannedVolumes) / VolumesPerPoint
}

// MissedPoints is how much may still be to come, points, after two readings a
// gap apart between which no more than markPoints can have fallen.
func MissedPoints(markPoints, gapDays, halfLifeDays float64) float64 {
	return markPoints / (math.Exp2(gapDays/halfLifeDays) - 1)
}

// GapDays is the least gap between two equal readings, days, after which what
// they can have missed fits into the headroom: the inverse of [MissedPoints],
// two days at least.
func GapDays(markPoints, halfLifeDays, headroomPoints float64) float64 {
	return math.Max(leastGapDays, halfLifeDays*math.Log2(1+markPoints/math.Max(headroomPoints, finestPoints)))
}
