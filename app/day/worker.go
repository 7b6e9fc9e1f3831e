package day

import (
	"skep/app/ui"
	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
)

// question is what the worker is asked: the beer as it stands, and what the ways of
// an answer would make of it.
type question struct {
	taught ui.Taught
	ways   []brewday.Way
	answer int // counts the answers
}

// frame is what it answers.
type frame struct {
	design  design.Design // as planned, with what the day has set
	day     brewday.Day
	beer    calc.Prediction // with what was measured
	refused error
	answer  int
	ways    []calc.Prediction // zero where the engine refuses one
}

type worker struct {
	knower ui.Knower
	other  ui.Knower // for the ways, so that the first keeps its beer
}

func (w *worker) work(q question) *frame {
	f := &frame{design: q.taught.Design.Clone(), answer: q.answer}
	f.design.Reading = nil
	if f.beer, f.refused = predict(&w.knower, q.taught); f.refused != nil {
		f.beer = calc.Prediction{}
	}
	f.day = brewday.Plan(f.design, f.beer)
	for i := range q.ways {
		t := q.taught
		t.Design = t.Design.Clone()
		var p calc.Prediction
		if apply(&t.Design, q.ways[i].Settings) == nil {
			p, _ = predict(&w.other, t)
		}
		f.ways = append(f.ways, p)
	}
	return f
}

func predict(k *ui.Knower, t ui.Taught) (calc.Prediction, error) {
	beer, err := k.Know(&t)
	if err != nil {
		return calc.Prediction{}, err
	}
	return beer.Engine.Predict(beer.Design)
}
