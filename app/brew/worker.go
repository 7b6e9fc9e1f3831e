package brew

import (
	"skep/app/brew/mashcourse"
	"skep/app/ui"
	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/tune"
)

// dayAsk is what the Brew place asks of its worker.
type dayAsk struct {
	ui.Taught
	land        bool // the landing plane is shown
	rest, honey int  // that the levers move
}

// dayFrame is what the Brew place's worker answers.
type dayFrame struct {
	design     design.Design
	day        brewday.Day
	prediction calc.Prediction
	landing    *tune.Cloud // nil: not asked for
	refused    error       // why the engine will not predict it; nil: it did
	mash       []mashcourse.Point
}

// dayWorker works the day out, on the worker's goroutine.
type dayWorker struct{ knower ui.Knower }

// day works one out. A design that the engine refuses has a day too: what is
// wrong stands at its step.
func (l *dayWorker) day(q dayAsk) *dayFrame {
	f := &dayFrame{design: q.Design}
	var p calc.Prediction
	b, err := l.knower.Know(&q.Taught)
	if f.refused = err; err == nil {
		f.design = b.Design
		p, f.refused = b.Engine.Predict(b.Design)
	}
	if f.refused == nil && q.land {
		f.landing, f.refused = land(&b, q.rest, q.honey)
	}
	if f.refused != nil {
		p = calc.Prediction{} // what was computed before it was refused is no answer
	}
	f.prediction = p
	f.day = brewday.Plan(f.design, p)
	if f.refused == nil {
		f.mash = mashcourse.Of(f.design, q.Doubts.RestShiftC)
	}
	return f
}

// land is where the beer lands, with the cloud of its draws.
func land(b *ui.Beer, rest, honey int) (*tune.Cloud, error) {
	t, err := tune.NewAt(b.Engine.Fork(), b.Design, rest, honey)
	if err != nil {
		return nil, err
	}
	l, err := t.Land()
	return &l.Cloud, err
}
