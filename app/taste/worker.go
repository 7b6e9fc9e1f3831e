package taste

import (
	"time"

	"skep/app/ghost"
	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
	"skep/plotting/style"
)

// ask is what the Taste place's worker needs to know to draw its pictures.
type ask struct {
	taught        ui.Taught
	ghost         *design.Design // the earlier state kept beside it; nil: none
	rest          int            // whose temperature the pictures' axis is
	units         plotting.Units
	say           ui.Formatter
	palette       style.Palette
	sizes         [calc.Outcomes]plotting.Size
	labels        [2]string // now, before
	reducedMotion bool      // nothing glides
	settled       bool      // no lever is being moved: axes may fit again
	finish        bool      // it is shown, or soon will be, when the beer is finished
}

// Frame is its answer: numbers for the texts; the pictures wait in the
// painter.
type Frame struct {
	err        error // why the design is refused: there are no numbers then
	Prediction calc.Prediction
	Ghost      *calc.Prediction
	Than       calc.Difference          // what the beer has more than the ghost, from the same draws
	hotter     [calc.Outcomes]calc.Band // what one degree more changes
	lessons    int                      // that the numbers use
	tasted     bool                     // that dryness and body are as one tasting would score them
	readings   bool                     // that something was measured
	honey      []design.Honey           // as it went in and will
	gliding    bool                     // the axes are still on their way: ask for another frame
	finish     bool                     // it is known when the beer is finished
}

// worker computes and draws frames. It belongs to the worker's goroutine,
// but for the painter, which the window shows from.
type worker struct {
	knower     ui.Knower
	planner    ui.Knower
	axesEngine *calc.Engine // a plan's
	painter    *plotting.Painter

	temperaturesC []float64

	axes     *plotting.Axes
	axesKey  string
	lastTick time.Time

	ghostOf         *design.Design
	ghostRest       int
	ghostWhole      bool // with its course
	ghostCurves     calc.Curves
	ghostPrediction calc.Prediction
	ghostDrawn      *calc.Drawn

	now func() time.Time
}

func newWorker(painter *plotting.Painter) *worker {
	l := &worker{
		painter: painter, now: time.Now, temperaturesC: ui.PictureTemperaturesC(),
	}
	return l
}

// frame computes and draws one.
func (l *worker) frame(v ask) Frame {
	plan, err := l.planner.Know(&ui.Taught{Doubts: v.taught.Doubts})
	if err != nil {
		return Frame{err: err}
	}
	if plan.New {
		l.axesEngine, l.axesKey = plan.Engine, "" // drawn with other doubts
	}
	beer, err := l.knower.Know(&v.taught)
	if err != nil {
		return Frame{err: err}
	}
	if beer.New {
		l.ghostOf = nil
	}
	d := beer.Design
	v.taught.Design = d
	if v.ghost != nil && beer.Known != nil { // with what was measured, as the beer
		if g, ok := ghost.Design(d); ok {
			v.ghost = &g
		}
	}
	x := beer.Engine.Doubts()
	f := Frame{lessons: len(v.taught.Lessons), tasted: x.Dryness.SD > 0 || x.Body.SD > 0, readings: beer.Known != nil, honey: d.Honey, finish: v.finish}
	kept, beside := l.ghost(beer.Engine, v)
	var other *calc.Drawn
	if beside {
		other = l.ghostDrawn
	}
	var curves calc.Curves
	if f.Prediction, curves, f.Than, err = beer.Engine.FrameBeside(d, v.rest, l.temperaturesC, other, v.finish); err != nil {
		return Frame{err: err}
	}
	at := d.Mash.Rest[v.rest].TemperatureC
	marks := f.Prediction.Four()
	f.hotter = curves.Hotter
	lines := make([]plotting.Line, 0, 2)
	if beside {
		prediction := l.ghostPrediction // a copy: the next frame may write over this one
		f.Ghost = &prediction
		lines = append(lines, plotting.Line{Name: v.labels[1], Role: plotting.Before, Curves: kept})
	}
	now := plotting.Line{Name: v.labels[0], Role: plotting.Now, Curves: curves, Marks: marks}
	if f.Ghost != nil {
		for o, d := range f.Than.Four() {
			now.Than[o] = v.say.EndLabel(calc.Outcome(o), d)
		}
	}
	lines = append(lines, now)

	shown := []calc.Curves{curves}
	if f.Ghost != nil {
		shown = append(shown, l.ghostCurves)
	}
	if f.gliding, err = l.fit(v, shown...); err != nil {
		return Frame{err: err}
	}
	l.painter.Draw(v.palette, plotting.Four(lines, at, l.axes.Ranges(), v.units), v.sizes[:]...)
	return f
}

// ghost is the curves of the earlier state, computed when it changes: without the
// course, which only a list shows, while a lever moves.
func (l *worker) ghost(e *calc.Engine, v ask) (calc.Curves, bool) {
	if v.ghost == nil || v.rest >= len(v.ghost.Mash.Rest) {
		l.ghostOf = nil
		return calc.Curves{}, false
	}
	if l.ghostOf != nil && l.ghostRest == v.rest && (l.ghostWhole || !v.settled) && l.ghostOf.Like(v.ghost) {
		return l.ghostCurves, true
	}
	p, curves, drawn, err := e.FrameBeer(*v.ghost, v.rest, l.temperaturesC)
	if err == nil && v.settled {
		p, err = e.Predict(*v.ghost)
	}
	if err != nil {
		return calc.Curves{}, false
	}
	kept := v.ghost.Clone()
	l.ghostDrawn = drawn
	l.ghostOf, l.ghostRest, l.ghostWhole, l.ghostCurves, l.ghostPrediction = &kept, v.rest, v.settled, curves, p
	return curves, true
}
