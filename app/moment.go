package app

import (
	"math"

	"skep/app/lever"
	"skep/app/words"
	"skep/calc/design"
)

// The honey's moment is one lever along the brew's own time line: three places
// before the fermentation, then hours around its height. On the lever's scale
// an hour is 1; the three places stand left of the hours, far enough apart to
// be told and hit.
const (
	momentBoil      = -96
	momentWhirlpool = -78
	momentPitching  = -60
	momentFirstHour = -42
	momentLastHour  = 96
)

var momentScale = lever.Scale{
	Min: momentBoil, Max: momentLastHour, Step: 1, Big: 12, Page: 24,
	Stops: momentStops(),
}

func momentStops() []float64 {
	stops := []float64{momentBoil, momentWhirlpool, momentPitching}
	for h := momentFirstHour; h <= momentLastHour; h++ {
		stops = append(stops, float64(h))
	}
	return stops
}

func momentTicks() []lever.Tick {
	return []lever.Tick{
		{Value: momentBoil, Word: words.T("boil")},
		{Value: momentWhirlpool, Word: words.T("whirl")},
		{Value: momentPitching, Word: words.T("pitch")},
		{Value: 0, Word: words.T("height")},
		{Value: momentLastHour, Word: words.T("+96 h")},
	}
}

// momentPlace is where a honey stands on the lever.
func momentPlace(h *design.Honey) float64 {
	switch h.Moment {
	case design.MomentBoil:
		return momentBoil
	case design.MomentWhirlpool:
		return momentWhirlpool
	case design.MomentPitching:
		return momentPitching
	}
	return math.Min(math.Max(h.HoursAfterHeight, momentFirstHour), momentLastHour)
}

// setMoment puts a honey where the lever stands.
func setMoment(h *design.Honey, place float64) {
	switch {
	case place <= momentBoil:
		h.Moment = design.MomentBoil
	case place <= momentWhirlpool:
		h.Moment = design.MomentWhirlpool
	case place <= momentPitching:
		h.Moment = design.MomentPitching
	default:
		h.Moment, h.HoursAfterHeight = design.MomentFermenting, place
	}
}
