package follow

import (
	"math"
	"time"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/nextreading"
)

// Follower follows batches. It keeps the mash and the plan's bands of the last
// design: a new reading costs only the update. A Follower is for one goroutine;
// the zero value is ready.
type Follower struct {
	engine *calc.Engine
	scores []theta // that the sampler's draws are made of; nil: the usual

	planKey string
	planned Bands // without the hours

	beforeKey string
	before    Bands
}

// Batch is all that is known of a fermentation. It is for one goroutine.
type Batch struct {
	Known
	// Before is what was predicted with what was measured of volumes, mash,
	// temperature and honey, but no gravity and no foam; After is the posterior.
	Before, After Bands
	Prediction    calc.Prediction // After, with all that an engine says
	Inputs        []Input
	State         State
	Moment        Moment
	Honey         HoneyLog
	Bottle        Bottle
	Notes         []message.Message

	times []calc.Times // of the posterior's draws
	shown nextShown
	next  []nextreading.Worth // nil: not asked for yet
}

// How far the bands by the hour go at least, and at most, and beyond the last thing
// that happens.
const (
	horizonLeast  = 4 * 24
	horizonMost   = 60 * 24
	horizonBeyond = 24
)

// horizon is the last hour of the bands where all is finished at some hour.
func (b *Batch) horizon(finishedHours float64) int {
	last := max(finishedHours, b.Timeline.NowHours)
	for _, s := range b.Conditioned.Design.Temperature {
		last = max(last, s.AtHours)
	}
	return int(min(max(math.Ceil(last)+horizonBeyond, horizonLeast), horizonMost))
}

// Follow is [Follower.Know] with everything that a fermentation is judged by.
func (f *Follower) Follow(d design.Design, now time.Time, in measured.Instruments, x calc.Doubts) (*Batch, error) {
	k, err := f.Know(d, now, in, x)
	if err != nil {
		return nil, err
	}
	b := &Batch{Known: *k}
	if b.model == nil { // without a reading
		if b.model, err = newModel(f.engine, &b.Conditioned, 0); err != nil {
			return nil, err
		}
		if err := f.plan(&b.Known); err != nil {
			return nil, err
		}
	}
	if err := b.courses(f); err != nil {
		return nil, err
	}
	b.inputs()
	b.moment()
	b.Bottle.Guard = b.guard()
	b.state()
	b.bottle()
	b.Notes = append(b.Notes, b.Timeline.Notes...)
	return b, nil
}

// courses fills in the bands by the hour, after and before, and what honey did.
func (b *Batch) courses(f *Follower) error {
	d := b.Conditioned.Design
	b.shown = newNextShown(calc.Draws)
	b.times = make([]calc.Times, calc.Draws)
	// A quarter more than planned: seldom does it take longer.
	horizon := b.horizon(1.25 * b.planned.FinishedHours.High)
	for needed := horizon; ; horizon = needed {
		logs := newHoneyRows(calc.Draws)
		var err error
		b.After, b.Prediction, err = predicted(b.Engine, d, horizon, func(i int, x *calc.Draw) {
			b.times[i] = x.Times
			b.shown.note(i, x, b.Timeline.NowHours)
			logs.note(i, b.model.brew, x)
		})
		if err != nil {
			return err
		}
		if needed = b.horizon(b.After.FinishedHours.High); needed <= horizon {
			b.logged(logs)
			break
		}
	}
	if f.beforeKey != f.planKey || len(f.before.Hours) <= horizon {
		if err := f.engine.SetMeasured(nil, b.Conditioned.Logged(0)); err != nil {
			return err
		}
		before, _, err := predicted(f.engine, d, horizon, func(int, *calc.Draw) {})
		if err != nil {
			return err
		}
		f.beforeKey, f.before = f.planKey, before
	}
	b.Before = f.before
	return nil
}
