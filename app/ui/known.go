package ui

import (
	"time"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/measured"
)

// Beer is the one that every place shows: what the numbers are predicted with,
// and from. Without a reading it is the plan.
type Beer struct {
	Engine *calc.Engine  // the knower's own: fork it for another goroutine
	Design design.Design // with what was measured in the place of what was planned
	Known  *follow.Known // nil: nothing is written down yet
	// New says that the engine draws otherwise than it did for the beer before:
	// what was computed with that one, or with forks of it, holds no more.
	New bool
}

// Spent are the levers that can't be moved any more, as taste.hold takes them.
func (b *Beer) Spent() []string {
	if b.Known == nil {
		return nil
	}
	return b.Known.Conditioned.Hold()
}

// Knower makes the one beer of what a place is taught, for a worker. It keeps
// the last: only another reading, lesson or minute, or a lever that readings
// tell of, costs an update of 20 to 40 ms. It is for one goroutine; the zero
// value is ready.
type Knower struct {
	follower follow.Follower
	plan     *calc.Engine
	doubts   string // that the plan's engine has
	planned  bool   // the last beer was a plan

	of   design.Design // what kept was made of
	with string        // the doubts
	at   time.Time
	kept *follow.Known // nil: none
}

// Know gives the beer as it stands.
func (k *Knower) Know(t *Taught) (Beer, error) {
	if len(t.Design.Reading) == 0 {
		return k.plain(t)
	}
	k.planned = false
	with := t.Key()
	if k.kept != nil && k.with == with && k.at.Equal(t.Now) {
		d, honey, ok := k.reuse(&t.Design)
		if ok && (t.Moving || !honey) {
			return Beer{Engine: k.kept.Engine, Design: d, Known: k.kept}, nil
		}
	}
	known, err := k.follower.Know(t.Design, t.Now, measured.Instruments{}, t.Doubts)
	if err != nil {
		k.kept = nil
		return Beer{}, err
	}
	k.of, k.with, k.at, k.kept = t.Design.Clone(), with, t.Now, known
	return Beer{Engine: known.Engine, Design: known.Conditioned.Design, Known: known, New: true}, nil
}

// plain is the plan's beer.
func (k *Knower) plain(t *Taught) (Beer, error) {
	b := Beer{Design: t.Design, New: !k.planned}
	if k.plan == nil {
		k.plan = calc.NewEngine()
	}
	if with := t.Key(); with != k.doubts {
		if err := k.plan.SetDoubts(t.Doubts); err != nil {
			return Beer{}, err
		}
		k.doubts, b.New = with, true
	}
	k.planned, k.kept, b.Engine = true, nil, k.plan
	return b, nil
}

// reuse is the kept beer with what no reading tells of taken from a design:
// words, wishes, the package, and the honey to come, which honey tells of. It is
// not ok where the design differs in more.
func (k *Knower) reuse(now *design.Design) (d design.Design, honey, ok bool) {
	c := &k.kept.Conditioned
	d = c.Design.Clone()
	like := now.Clone()
	free := func(to, from *design.Design) {
		to.Title, to.Notes, to.Package, to.Taste, to.Ghost = from.Title, from.Notes, from.Package, from.Taste, from.Ghost
	}
	free(&like, &k.of)
	free(&d, now)
	for _, i := range c.HoneyLeft {
		if i >= len(like.Honey) || i >= len(k.of.Honey) || like.Honey[i].Moment != k.of.Honey[i].Moment {
			continue
		}
		honey = honey || like.Honey[i] != k.of.Honey[i]
		d.Honey[i], like.Honey[i] = like.Honey[i], k.of.Honey[i]
	}
	return d, honey, like.Equal(k.of)
}
