package follow

import (
	"fmt"
	"slices"

	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/ferment"
)

// StateCode says where a fermentation stands.
type StateCode string

// The states.
const (
	NotPitched  StateCode = "not-pitched"
	Lag         StateCode = "lag"
	OnCourse    StateCode = "on-course"
	Fast        StateCode = "fast"
	Slow        StateCode = "slow"
	PastHeight  StateCode = "past-height"
	Stuck       StateCode = "stuck"
	Finished    StateCode = "finished"
	Contradicts StateCode = "reading-contradicts" // only beside another
)

// State is where a fermentation stands, in a code and in words.
type State struct {
	Code   StateCode
	Also   []StateCode // what is true as well
	Text   string      // plain English, no full stop
	Advice []string    // what is usually done
	Steady Steady
}

// Is tells whether a state is the first or one of the others.
func (s *State) Is(code StateCode) bool { return s.Code == code || slices.Contains(s.Also, code) }

// Where a gravity counts as above what was expected, SG: beyond the band's end
// and what an instrument may be off (ours).
const aboveBandSG = 0.002

// A fall of gravity that shows a fermentation has begun, SG.
const begunSG = 0.002

var stuckAdvice = []string{
	"make sure first: a hydrometer, a sample at 20 °C without bubbles, and the same again tomorrow (a refractometer misleads in beer)",
	"warm the beer by two or three degrees and swirl the yeast up gently, without letting air in",
	"if nothing moves in three days, pitch fresh yeast that is already working",
	"do not bottle: a fermentation that stopped may start again in the glass",
}

func (b *Batch) state() {
	s := &b.State
	t := &b.Timeline
	s.Steady = t.steady()
	defer b.contradiction()
	if !t.Pitched {
		s.Code = NotPitched
		s.Text = "not pitched yet: the plan stands"
		if len(t.used(OriginalGravity)) > 0 {
			s.Text = fmt.Sprintf("not pitched yet: original gravity %s", sgText(b.After.OriginalGravitySG))
		}
		return
	}
	now := t.NowHours
	past := b.sample.share(func(x *summary) bool { return x.height <= now })
	if past >= 0.5 {
		s.Also = append(s.Also, PastHeight)
	}
	gravities := t.used(Gravity, FinalGravity)
	if len(gravities) > 0 {
		// The pace is of the wort's own fermentation: nine tenths done.
		was, is := b.Before.WindowHours[1], b.After.WindowHours[1]
		switch {
		case is.Mid > was.High:
			s.Also = append(s.Also, Slow)
		case is.Mid < was.Low:
			s.Also = append(s.Also, Fast)
		}
	}
	switch {
	case b.ended(gravities):
	case b.lagging(gravities):
	case s.Is(Slow):
		s.first(Slow)
		s.Text = fmt.Sprintf("slower than planned: finished %s after pitching, planned %s", hoursText(b.After.FinishedHours), hoursText(b.Before.FinishedHours))
		s.Advice = []string{"check the beer's temperature against the yeast's range, and keep it there; give it time before doing more"}
	case s.Is(Fast):
		s.first(Fast)
		s.Text = fmt.Sprintf("faster than planned: finished %s after pitching, planned %s", hoursText(b.After.FinishedHours), hoursText(b.Before.FinishedHours))
		s.Advice = []string{"check that the beer is not warmer than meant; look after honey sooner"}
	case past >= 0.5:
		s.first(PastHeight)
		s.Text = fmt.Sprintf("past the height, on course: finished %s", inHours(shift(b.After.FinishedHours, -now)))
	default:
		s.Code = OnCourse
		s.Text = fmt.Sprintf("on course: the height is %s", inHours(shift(b.After.HeightHours, -now)))
	}
	if s.Code != Finished && s.Code != Stuck && now > b.After.FinishedHours.High {
		s.Advice = append(s.Advice, "it should be over by now: read the gravity twice, two days apart or more")
	}
	for _, i := range b.Conditioned.HoneyLeft {
		h := &b.Conditioned.Design.Honey[i]
		if h.MassKg > 0 && h.Moment == design.MomentFermenting && now > b.After.HeightHours.High+h.HoursAfterHeight {
			s.Advice = append(s.Advice, fmt.Sprintf("the %s is past its hour and not logged: log it if it went in", h.Name))
		}
	}
}

// contradiction notes doubts beside the state. Readings that agree with each
// other for days do not contradict anything when a fermentation is stuck: it is
// the model that knows no stuck yeast.
func (b *Batch) contradiction() {
	s := &b.State
	if s.Code == Stuck {
		b.Doubts = slices.DeleteFunc(b.Doubts, func(d Doubt) bool {
			return slices.ContainsFunc(d.Points, func(p int) bool { return p >= s.Steady.First && p <= s.Steady.Last })
		})
	}
	if len(b.Doubts) > 0 {
		s.Also = append(s.Also, Contradicts)
	}
}

// first makes one of the other states the first.
func (s *State) first(code StateCode) {
	s.Code = code
	s.Also = slices.DeleteFunc(s.Also, func(c StateCode) bool { return c == code })
}

// ended judges gravities that stand still.
func (b *Batch) ended(gravities []*Point) bool {
	s := &b.State
	if !s.Steady.Yes {
		return false
	}
	sg, expected := s.Steady.SG, b.Before.FinalGravitySG
	begun := b.After.OriginalGravitySG.Mid - sg
	switch {
	case begun < begunSG && b.Timeline.NowHours < startedHours():
		return false // still in the lag
	case begun < begunSG:
		s.first(Stuck)
		s.Text = fmt.Sprintf("nothing has happened: %.3f still after %.0f h", sg, b.Timeline.NowHours)
		s.Advice = []string{"wort that stands without working yeast spoils: pitch fresh, active yeast soon", "check the temperature, and that the yeast was alive"}
	case sg > expected.High+aboveBandSG:
		s.first(Stuck)
		s.Text = fmt.Sprintf("stuck: %.3f on readings %.1f days apart, expected %s", sg, s.Steady.Hours/hoursPerDay, sgText(expected))
		s.Advice = slices.Clone(stuckAdvice)
	default:
		s.first(Finished)
		s.Text = fmt.Sprintf("finished: %.3f on readings %.1f days apart", sg, s.Steady.Hours/hoursPerDay)
		if s.Steady.Refractometer {
			s.Advice = append(s.Advice, "both readings are by refractometer, which in beer is good to 0.002 at best: confirm with a hydrometer")
		}
	}
	return true
}

// startedHours is when nine in ten fermentations have full activity: one and a
// half times the long lag.
func startedHours() float64 {
	var t theta
	t[iLag] = doubt.Z90
	return 1.5 * t.clock().lag
}

// lagging judges a fermentation that has not begun, or is not seen to have.
func (b *Batch) lagging(gravities []*Point) bool {
	s, now := &b.State, b.Timeline.NowHours
	fallen := 0.0
	if n := len(gravities); n > 0 {
		fallen = b.After.OriginalGravitySG.Mid - gravities[n-1].Value
	}
	for _, p := range b.Timeline.used(Foam) {
		if p.Value > foamNone {
			fallen = begunSG
		}
	}
	lag := ferment.UsualLagHours
	for _, x := range b.Inputs {
		if x.Name == "lag" {
			lag = x.After.Mid
		}
	}
	if fallen >= begunSG || now > 1.5*lag {
		return false
	}
	s.first(Lag)
	s.Text = fmt.Sprintf("in the lag: yeast is settling in; the height is %s", inHours(shift(b.After.HeightHours, -now)))
	return true
}
