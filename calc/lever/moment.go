package lever

import (
	"math"

	"skep/calc/design"
	"skep/calc/message"
)

// The honey's moment is one lever along the brew's own time line: three places
// before the fermentation, then hours around its height. An hour is 1; the
// three places stand left of the hours, far enough apart to be told and hit.
const (
	momentBoil      = -96
	momentWhirlpool = -78
	momentPitching  = -60
	FirstHour       = -42 // before the height
	LastHour        = 96  // after it
)

// A Stop is a place before the fermentation where honey can go in.
type Stop struct {
	Place  float64
	Moment string          // as the design has it
	Word   message.Message // "whirlpool"
	Short  message.Message // "whirl", where there is little room
}

// Stops are the places before the fermentation, in their order.
func Stops() []Stop {
	return []Stop{
		{momentBoil, design.MomentBoil, message.New("boil"), message.New("boil")},
		{momentWhirlpool, design.MomentWhirlpool, message.New("whirlpool"), message.New("whirl")},
		{momentPitching, design.MomentPitching, message.New("pitching"), message.New("pitch")},
	}
}

// MomentPlace is where a honey stands on the time line.
func MomentPlace(moment string, hoursAfterHeight float64) float64 {
	switch moment {
	case design.MomentBoil:
		return momentBoil
	case design.MomentWhirlpool:
		return momentWhirlpool
	case design.MomentPitching:
		return momentPitching
	}
	return math.Min(math.Max(hoursAfterHeight, FirstHour), LastHour)
}

// momentAt is the moment of a place; before the fermentation the hours stay
// what they were.
func momentAt(place, hours float64) (moment string, hoursAfterHeight float64) {
	switch {
	case place <= momentBoil:
		return design.MomentBoil, hours
	case place <= momentWhirlpool:
		return design.MomentWhirlpool, hours
	case place <= momentPitching:
		return design.MomentPitching, hours
	}
	return design.MomentFermenting, place
}

// Hot tells whether honey goes in on the hot side.
func Hot(moment string) bool {
	return moment == design.MomentBoil || moment == design.MomentWhirlpool
}

// OtherSide is the moment on the other side of the pitching: where most of the
// honey's character stays, or where hot wort takes it.
func OtherSide(moment string) string {
	if Hot(moment) {
		return design.MomentFermenting
	}
	return design.MomentWhirlpool
}

// NextMoment is the next place of the time line upwards: the next stop of the
// day, or so many hours further while the beer ferments.
func NextMoment(place, byHours float64) float64 {
	for _, s := range Stops() {
		if s.Place > place {
			return s.Place
		}
	}
	if place < FirstHour {
		return FirstHour
	}
	return min(place+byHours, LastHour)
}

// Places are where the time line can be stood on: the stops, then every hour.
func Places() []float64 {
	var all []float64
	for _, s := range Stops() {
		all = append(all, s.Place)
	}
	for h := FirstHour; h <= LastHour; h++ {
		all = append(all, float64(h))
	}
	return all
}

// snapMoment is the nearest of them.
func snapMoment(place float64) float64 {
	nearest := math.Inf(1)
	for _, p := range Places() {
		if math.Abs(p-place) < math.Abs(nearest-place) {
			nearest = p
		}
	}
	return nearest
}
