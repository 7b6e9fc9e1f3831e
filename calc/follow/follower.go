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
	Next          []nextreading.Worth // what could be measured, the most telling first

	times []calc.Times // of the posterior's draws
	left  calc.Band    // SG still to fall from now on, in the posterior
}

// horizonHours is how far the bands by the hour go at least, and at most.
const (
	horizonLeast = 14 * 24
	horizonMost  = 60 * 24
)

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
	shown := newNextShown(calc.Draws)
	if err := b.courses(f, &shown); err != nil {
		return nil, err
	}
	b.next(&shown)
	b.inputs()
	b.moment()
	b.Bottle.Guard = b.guard()
	b.state()
	b.bottle()
	b.Notes = append(b.Notes, b.Timeline.Notes...)
	return b, nil
}

// courses fills in the bands by the hour, before and after, and what honey did.
func (b *Batch) courses(f *Follower, shown *nextShown) error {
	d := b.Conditioned.Design
	now := math.Ceil(b.Timeline.NowHours) + 24
	horizon := int(min(max(horizonLeast, math.Ceil(b.planned.FinishedHours.High)+24, now), horizonMost))
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
	logs := newHoneyRows(calc.Draws)
	b.times = make([]calc.Times, calc.Draws)
	var err error
	b.After, b.Prediction, err = predicted(b.Engine, d, horizon, func(i int, x *calc.Draw) {
		b.times[i] = x.Times()
		shown.note(i, x, b.Timeline.NowHours)
		logs.note(i, b.model.brew, x, b.Timeline.NowHours)
	})
	b.logged(logs)
	return err
}
