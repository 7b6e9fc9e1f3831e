package tune

import (
	"skep/calc"
	"skep/calc/lever"
)

// Landing is what the landing plane shows of a design.
type Landing struct {
	Cloud Cloud
	Bands [calc.Outcomes]calc.Band
	// Arrows are one for each lever of the design, held or not.
	Arrows []Arrow
}

// Land is the cloud, the bands and the arrows of the design as it stands. It
// is meant for every frame of a drag.
//
// The arrow of the honey's moment is twelve hours along the brew's own time line
// (while the beer ferments that moves only the honey's character, so the arrow
// has no length), or the next moment of the day before that.
func (t *Tuner) Land() (Landing, error) {
	l := Landing{Bands: t.lander.Bands(t.points)}
	mid := Point{l.Bands[calc.Dryness].Mid, l.Bands[calc.Body].Mid}
	l.Cloud = cloudOf(mid, t.points)
	for _, a := range t.axes(Levers{Set: lever.SetOf(lever.Rest, lever.Minutes, lever.Yeast, lever.Honey)}, false) {
		step := a.Natural
		if a.Now+step > a.High+1e-9 {
			step = -step
		}
		s := t.start
		a.Lever.Put(&s, a.Now+step)
		if err := l.arrow(t, a.Lever, step, s); err != nil {
			return Landing{}, err
		}
	}
	if t.lander.HasHoney() {
		s := t.start
		step := lever.Moment.Natural(&t.design)
		lever.Moment.Put(&s, lever.NextMoment(lever.Moment.Get(&s), step))
		if err := l.arrow(t, lever.Moment, step, s); err != nil {
			return Landing{}, err
		}
	}
	return l, nil
}

// Ranges are the levers' axes as the search and the outline take them: without
// the honey's moment, which has no scale, and with the grist only where
// strength is asked for.
func (t *Tuner) Ranges(free Levers, strength bool) []Axis { return t.axes(free, strength) }
