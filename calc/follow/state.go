package follow

import (
	"slices"

	"skep/calc"
	"skep/calc/ferment"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/packaging"
	"skep/calc/quantity"
)

// StateCode says where a fermentation stands.
type StateCode string

// The states.
const (
	NotPitched StateCode = "not-pitched"
	Lag        StateCode = "lag"
	OnCourse   StateCode = "on-course"
	Fast       StateCode = "fast"
	Slow       StateCode = "slow"
	PastHeight StateCode = "past-height"
	Stuck      StateCode = "stuck"
	Finished   StateCode = "finished"
	// Only beside another:
	Contradicts  StateCode = "reading-contradicts"
	HoneyOverdue StateCode = "honey-overdue"
)

// State is where a fermentation stands, in a code and in words.
type State struct {
	Code   StateCode
	Also   []StateCode // what is true as well
	Text   message.Message
	Advice []message.Message // what is usually done
	Steady Steady
}

// Is tells whether a state is the first or one of the others.
func (s *State) Is(code StateCode) bool { return s.Code == code || slices.Contains(s.Also, code) }

// Where a gravity counts as above what was expected, SG: beyond the band's end
// and what an instrument may be off (ours).
const aboveBandSG = 0.002

// A fall of gravity that shows a fermentation has begun, SG.
const begunSG = 0.002

func (s *State) advise(text string, with ...any) {
	s.Advice = append(s.Advice, message.New(text, with...))
}

// stuck is what is usually done.
func (s *State) stuck() {
	warmer := func(k float64) quantity.Quantity { return quantity.Of(quantity.Degrees, k) }
	s.advise("make sure first: a hydrometer, a sample at {temperature} without bubbles, and the same again tomorrow (a refractometer misleads in beer)", quantity.Of(quantity.Temperature, 20))
	s.advise("warm the beer by {least} to {most} and swirl the yeast up gently, without letting air in", warmer(2).Unitless(), warmer(3))
	s.advise("if nothing moves in three days, pitch fresh yeast that is already working")
	s.advise("do not bottle: a fermentation that stopped may start again in the glass")
}

func (b *Batch) state() {
	s := &b.State
	t := &b.Timeline
	s.Steady = b.steady()
	defer b.contradiction()
	if !t.Pitched {
		s.Code = NotPitched
		og := gravityBand(b.After.OriginalGravitySG)
		s.Text = message.New("not pitched yet: the plan stands, {og} to begin with", og)
		if len(t.Used(measured.OriginalGravity)) > 0 {
			s.Text = message.New("not pitched yet: original gravity {og}", og)
		}
		return
	}
	now := t.NowHours
	past := b.share(func(x *calc.Times) bool { return x.HeightHours <= now })
	if past >= 0.5 {
		s.Also = append(s.Also, PastHeight)
	}
	gravities := t.Used(measured.Gravity, measured.FinalGravity)
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
		s.Text = message.New("slower than planned: finished {span} after pitching, not {planned}", hourBand(b.After.FinishedHours), hourBand(b.Before.FinishedHours))
		s.advise("check the beer's temperature against the yeast's range, and keep it there; give it time before doing more")
	case s.Is(Fast):
		s.first(Fast)
		s.Text = message.New("faster than planned: finished {span} after pitching, not {planned}", hourBand(b.After.FinishedHours), hourBand(b.Before.FinishedHours))
		s.advise("check that the beer is not warmer than meant; look after honey sooner")
	case past >= 0.5:
		s.first(PastHeight)
		s.Text = message.New("on course, past the height: finished {when}", FromNow(shift(b.After.FinishedHours, -now)))
	default:
		s.Code = OnCourse
		s.Text = message.New("on course: the height is {when}", FromNow(shift(b.After.HeightHours, -now)))
	}
	if s.Code != Finished && s.Code != Stuck && now > b.After.FinishedHours.High {
		s.advise("it should be over by now: read the gravity twice, {gap} days apart or more", b.Bottle.Guard.Gap())
	}
	b.overdue()
	b.fewReadings(gravities)
}

// fewReadings says on what the honey moment hangs where one wrong reading would move
// it: on a single gravity, or on those before one that was left out.
func (b *Batch) fewReadings(gravities []*measured.Point) {
	s := &b.State
	if len(b.Moment.Planned) == 0 || b.Moment.Phase == Past {
		return
	}
	for i := len(b.Timeline.Points) - 1; i >= 0; i-- {
		p := &b.Timeline.Points[i]
		if !p.InBeer() {
			continue
		}
		if p.Has(measured.Spike) {
			s.advise("the reading of {gravity} at {hours} does not fit those before it and is left out: read again before the honey goes in", gravity(p.Value), quantity.Of(quantity.WholeHours, p.Hours))
			return
		}
		break
	}
	if len(gravities) == 1 && len(b.Timeline.Used(measured.Foam)) == 0 {
		s.advise("the honey moment hangs on a single reading, {gravity} at {hours}: read again before the honey goes in", gravity(gravities[0].Value), quantity.Of(quantity.WholeHours, gravities[0].Hours))
	}
}

// overdue tells of planned honey that is past its hour and not logged: more
// likely than not where the window is about to shut, else nearly surely.
func (b *Batch) overdue() {
	s, m := &b.State, &b.Moment
	for _, p := range m.Planned {
		late := calc.Band{Low: -p.From.High, Mid: -p.From.Mid, High: -p.From.Low}
		shuts := m.Phase == Closing || m.Phase == Past
		if !(late.Low > 0 || shuts && late.Mid > 0.5) {
			continue
		}
		mass := quantity.Of(quantity.MassKg, b.Conditioned.Design.Honey[p.Place].MassKg)
		s.Also = append(s.Also, HoneyOverdue)
		s.Text = message.New("{text}; {mass} of honey is overdue by {span}", s.Text, mass, hourBand(late))
		switch {
		case s.Code == Finished || s.Code == Stuck || m.Phase == Past:
			s.advise("honey: log it if it is in; if not, it can still go in now but needs time, and two equal readings days apart before bottling, or take it out of the design")
		case m.Phase == NotYet:
			s.advise("honey: log it if it is in; if not, wait until the window opens")
		default:
			s.advise("honey: add it now, or log it if it is in")
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
func (b *Batch) ended(gravities []*measured.Point) bool {
	s := &b.State
	if !s.Steady.Yes {
		return false
	}
	end := b.expectedEnd()
	sg, expected := s.Steady.SG, calc.Band{Low: end.Low, Mid: (end.Low + end.High) / 2, High: end.High}
	begun := b.After.OriginalGravitySG.Mid - sg
	switch {
	case begun < begunSG && b.Timeline.NowHours < b.model.startedHours():
		return false // still in the lag
	case begun < begunSG:
		s.first(Stuck)
		s.Text = message.New("nothing has happened: {gravity} still after {hours}", gravity(sg), quantity.Of(quantity.WholeHours, b.Timeline.NowHours))
		s.advise("wort that stands without working yeast spoils: pitch fresh, active yeast soon")
		s.advise("check the temperature, and that the yeast was alive")
	case s.Steady.Judged.Reason == packaging.Stalled || s.Steady.Judged.Reason == packaging.PlanOver && sg > expected.High+aboveBandSG:
		s.first(Stuck)
		s.Text = message.New("stuck: {gravity} on readings {days} apart; {expected} was expected", gravity(sg), days(s.Steady.Hours), gravityBand(expected))
		s.stuck()
	case !s.Steady.Judged.Ended:
		if b.Bottle.Guard.Slowest.Kind != packaging.Ordinary {
			s.Text = message.New("stands at {gravity} on readings {days} apart, but what is slow in this beer may go on for weeks", gravity(sg), days(s.Steady.Hours))
		} else {
			s.Text = message.New("stands at {gravity} on readings {days} apart, at the upper end of what was expected, {expected}: done, or stuck", gravity(sg), days(s.Steady.Hours), gravityBand(expected))
			s.advise("waiting does not tell the end from a stall: a forced fermentation of a sample does, in days")
		}
		s.first(PastHeight)
	default:
		s.first(Finished)
		s.Text = message.New("finished: {gravity} on readings {days} apart", gravity(sg), days(s.Steady.Hours))
		if s.Steady.Refractometer {
			s.advise("both readings are by refractometer, which in beer is good to {points} at best: confirm with a hydrometer", quantity.Of(quantity.Points, measured.CorrelationSD))
		}
	}
	return true
}

// lagging judges a fermentation that has not begun, or is not seen to have.
func (b *Batch) lagging(gravities []*measured.Point) bool {
	s, now := &b.State, b.Timeline.NowHours
	fallen := 0.0
	if n := len(gravities); n > 0 {
		fallen = b.After.OriginalGravitySG.Mid - gravities[n-1].Value
	}
	for _, p := range b.Timeline.Used(measured.Foam) {
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
	s.Text = message.New("in the lag: the yeast is settling in; the height is {when}", FromNow(shift(b.After.HeightHours, -now)))
	return true
}
