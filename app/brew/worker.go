package brew

import (
	"skep/app/ui"
	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/mash"
)

// dayFrame is what the Brew place's worker answers.
type dayFrame struct {
	design  design.Design
	day     brewday.Day
	refused error // why the engine will not predict it; nil: it did
	mash    []mashPoint
}

// dayWorker works the day out, on the worker's goroutine.
type dayWorker struct {
	engine *calc.Engine
	doubts string // that the engine has
}

// day works one out. A design that the engine refuses has a day too: what is
// wrong stands at its step.
func (l *dayWorker) day(taught ui.Taught) *dayFrame {
	d := taught.Design
	f := &dayFrame{design: d}
	var p calc.Prediction
	if _, f.refused = taught.Teach(&l.doubts, l.engine); f.refused == nil {
		p, f.refused = l.engine.Predict(d)
	}
	if f.refused != nil {
		p = calc.Prediction{} // what was computed before it was refused is no answer
	}
	f.day = brewday.Plan(d, p)
	if f.refused == nil {
		f.mash = mashCourse(d, taught.Doubts.RestShiftC)
	}
	return f
}

// mashPoint is the mash on its way: shares of the grist's extract.
type mashPoint struct {
	minute, temperatureC float64
	extract, sugars      float64
}

// courseEveryMin is how finely the mash is drawn.
const courseEveryMin = 1

// mashCourse is the mash minute by minute, at rests as much warmer as the
// ledger has found the thermometer off; nothing where there is none.
func mashCourse(d design.Design, shiftC float64) []mashPoint {
	points, err := mash.Course(calc.MashInput(d, shiftC), courseEveryMin)
	all := calc.Grist(d).LaboratoryKg // what the shares are of
	if err != nil || !(all > 0) {
		return nil
	}
	out := make([]mashPoint, 0, len(points))
	for _, p := range points {
		extract := p.ExtractKg / all
		out = append(out, mashPoint{p.Minute, p.TemperatureC, extract, extract * p.Wort.Sugars()})
	}
	return out
}
