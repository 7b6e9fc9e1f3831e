package taste

import (
	"skep/app/ui"
	"skep/calc/design"
	table "skep/calc/lever"
	"skep/calc/tune"
)

// landingAsk is what the landing plane asks of the worker.
type landingAsk struct {
	Taught  ui.Taught
	rest    int
	settled bool
	honey   int // which honey the levers move
	wishes  tune.Wishes
	pinning bool           // the pin is being dragged: the ways follow it
	Strains []design.Yeast // what may be brewed with instead; nil when the yeast is held
}

// landingFrame is the plane's part of a frame.
type landingFrame struct {
	Landing tune.Landing
	reach   []tune.Point
	ways    *tune.Result // nil: nothing is wished for, or stale
	stale   bool         // a lever is on its way: what stands there stays till it rests
	priced  bool         // the ways carry predictions: nothing was moving
	free    tune.Levers
	Err     error // why the plane can't be drawn
}

// landingLive computes the plane's frames on a worker of its own, so that the
// pictures need not wait for it, with an engine of its own: the tuner keeps
// the mash tabulated between frames.
type landingLive struct {
	knower      ui.Knower
	beer        ui.Beer
	tuner       *tune.Tuner
	rest, honey int

	asked  *landingKey // what the priced ways were found for
	answer *tune.Result
}

// landingKey is what an answer depends on.
type landingKey struct {
	design design.Design
	wishes tune.Wishes
	free   tune.Levers
}

func NewLandingLive() *landingLive { return &landingLive{} }

func (l *landingLive) Frame(v landingAsk) *landingFrame { return l.compute(&v) }

func (l *landingLive) compute(v *landingAsk) *landingFrame {
	f := &landingFrame{}
	if f.Err = l.move(v); f.Err != nil {
		return f
	}
	if f.Landing, f.Err = l.tuner.Land(); f.Err != nil {
		return f
	}
	free := tune.Free(v.Taught.Design.Taste.Hold, l.beer.Spent()...)
	f.free = free
	if f.reach, f.Err = l.tuner.Outline(free.ThisStrain()); f.Err != nil {
		return f
	}
	w := v.wishes
	if w.Empty() {
		return f
	}
	if !v.settled && !v.pinning {
		f.stale = true
		return f
	}
	chosen := free.Set[table.Yeast]
	free = free.ThisStrain() // a strain is chosen, not made
	if chosen {
		free.Strains = v.Strains
	}
	f.ways, f.priced, f.Err = l.ways(v, free)
	return f
}

// move brings the tuner to the design as it can still be tuned.
func (l *landingLive) move(v *landingAsk) error {
	var err error
	if l.beer, err = l.knower.Know(&v.Taught); err != nil {
		return err
	}
	if l.beer.New {
		l.tuner, l.asked = nil, nil // a tuner keeps the draws that it was made with
	}
	v.Taught.Design = l.beer.Design
	if l.tuner != nil && l.rest == v.rest && l.honey == v.honey {
		return l.tuner.Move(v.Taught.Design)
	}
	t, err := tune.NewAt(l.beer.Engine, v.Taught.Design, v.rest, v.honey)
	if err != nil {
		return err
	}
	l.tuner, l.rest, l.honey = t, v.rest, v.honey
	return nil
}

// ways answers the wishes: quickly while something moves, with each way's
// prediction when all is still.
func (l *landingLive) ways(v *landingAsk, free tune.Levers) (*tune.Result, bool, error) {
	w := v.wishes
	if !v.settled {
		r, err := l.tuner.Live(w, free)
		return &r, false, err
	}
	key := landingKey{v.Taught.Design, w, free}
	if l.asked != nil && l.asked.design.Equal(key.design) && l.asked.wishes.Equal(w) && l.asked.free.Equal(free) {
		return l.answer, true, nil
	}
	r, err := l.tuner.To(w, free)
	if err != nil {
		return nil, false, err
	}
	l.asked, l.answer = &key, &r
	return &r, true, nil
}
