package taste

import (
	"math"
	"time"

	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
	"skep/plotting/style"
)

// ask is what the Taste place's worker needs to know to draw its pictures.
type ask struct {
	taught  ui.Taught
	ghost   *design.Design // the earlier state kept beside it; nil: none
	rest    int            // whose temperature the pictures' axis is
	units   plotting.Units
	palette style.Palette
	sizes   [calc.Outcomes]plotting.Size
	labels  [2]string // now, before
	settled bool      // no lever is being moved: axes may fit again
}

// Frame is its answer: numbers for the texts; the pictures wait in the
// painter.
type Frame struct {
	err        error // why the design is refused: there are no numbers then
	Prediction calc.Prediction
	Ghost      *calc.Prediction
	hotter     [calc.Outcomes]float64 // how the middles change with one degree more
	lessons    int                    // that the numbers use
	readings   bool                   // that something was measured
	honey      []design.Honey         // as it went in and will
	gliding    bool                   // the axes are still on their way: ask for another frame
}

// worker computes and draws frames. It belongs to the worker's goroutine,
// but for the painter, which the window shows from.
type worker struct {
	knower      ui.Knower
	planner     ui.Knower    // of the state kept beside the design, which stays a plan
	axesEngine  *calc.Engine // a plan's as well
	ghostEngine *calc.Engine
	painter     *plotting.Painter

	temperaturesC []float64

	axes     *plotting.Axes
	axesKey  string
	lastTick time.Time

	ghostOf         *design.Design
	ghostRest       int
	ghostCurves     calc.Curves
	ghostPrediction calc.Prediction

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
		l.ghostEngine, l.axesEngine = plan.Engine, plan.Engine.Fork()
		l.ghostOf, l.axesKey = nil, "" // drawn with other doubts
	}
	beer, err := l.knower.Know(&v.taught)
	if err != nil {
		return Frame{err: err}
	}
	d := beer.Design
	v.taught.Design = d
	f := Frame{lessons: len(v.taught.Lessons), readings: beer.Known != nil, honey: d.Honey}
	var curves calc.Curves
	if f.Prediction, curves, err = beer.Engine.Frame(d, v.rest, l.temperaturesC); err != nil {
		return Frame{err: err}
	}
	at := d.Mash.Rest[v.rest].TemperatureC
	marks := f.Prediction.Four()
	f.hotter = l.hotter(curves, at)
	lines := make([]plotting.Line, 0, 2)
	if ghost, ok := l.ghost(v); ok {
		prediction := l.ghostPrediction // a copy: the next frame may write over this one
		f.Ghost = &prediction
		lines = append(lines, plotting.Line{Name: v.labels[1], Role: plotting.Before, Curves: ghost})
	}
	lines = append(lines, plotting.Line{Name: v.labels[0], Role: plotting.Now, Curves: curves, Marks: marks})

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

// hotter is how the middles of the curves change from a temperature to one
// degree more; past their end, over the last degree they hold.
func (l *worker) hotter(c calc.Curves, tempC float64) (change [calc.Outcomes]float64) {
	from := math.Min(math.Max(tempC, calc.RestLowC), calc.RestHighC-1)
	mid := func(o int, t float64) float64 {
		place := (t - calc.RestLowC) / ui.PictureStepC
		i := min(int(place), len(c.TemperatureC)-2)
		u := place - float64(i)
		return (1-u)*c.Bands[o][i].Mid + u*c.Bands[o][i+1].Mid
	}
	for o := range change {
		change[o] = mid(o, from+1) - mid(o, from)
	}
	return change
}

// ghost is the curves of the earlier state, computed when it changes.
func (l *worker) ghost(v ask) (calc.Curves, bool) {
	if v.ghost == nil || v.rest >= len(v.ghost.Mash.Rest) {
		l.ghostOf = nil
		return calc.Curves{}, false
	}
	if l.ghostOf != nil && l.ghostRest == v.rest && l.ghostOf.Equal(*v.ghost) {
		return l.ghostCurves, true
	}
	p, curves, err := l.ghostEngine.Frame(*v.ghost, v.rest, l.temperaturesC)
	if err != nil {
		return calc.Curves{}, false
	}
	kept := v.ghost.Clone()
	l.ghostOf, l.ghostRest, l.ghostCurves, l.ghostPrediction = &kept, v.rest, curves, p
	return curves, true
}
