package app

import (
	"math"
	"time"

	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
)

// view is what the worker needs to know of the window to draw a frame.
type view struct {
	design  design.Design
	ghost   *design.Design // the earlier state kept beside it; nil: none
	rest    int            // whose temperature the pictures' axis is
	units   plotting.Units
	palette plotting.Palette
	sizes   [calc.Outcomes]plotting.Size
	labels  [2]string    // now, before
	settled bool         // no lever is being moved: axes may fit again
	at      int          // the place it is for
	doubts  calc.Doubts  // what the ledger has narrowed
	lessons int          // how many lessons are in the design and the doubts
	strains *strainsView // what the Yeasts place asks; nil: another place
	landing *landingView // what the landing plane asks, of its own worker; nil: it is not shown
	day     bool         // the Brew place asks for the day
}

// frame is what the worker answers: numbers for the texts; the pictures wait
// in the painter.
type frame struct {
	err        error
	prediction calc.Prediction
	ghost      *calc.Prediction
	hotter     [calc.Outcomes]float64 // how the middles change with one degree more
	lessons    int                    // that the numbers use
	gliding    bool                   // the axes are still on their way: ask for another frame
	strains    []strainFrame          // the Yeasts place's
	day        *brewFrame             // the Brew place's; nil: not asked for
}

// live computes and draws frames. It belongs to the worker's goroutine, but
// for the painter, which the window shows from.
type live struct {
	engine, ghostEngine, axesEngine *calc.Engine
	painter                         *plotting.Painter
	strains                         *strainsLive

	temperaturesC []float64

	axes     *plotting.Axes
	axesKey  string
	lastTick time.Time

	ghostOf         *design.Design
	ghostRest       int
	ghostCurves     calc.Curves
	ghostPrediction calc.Prediction

	now func() time.Time
	doubter
}

// doubter gives engines the doubts that the ledger has left, when they change.
type doubter struct{ key string }

func (k *doubter) doubt(x calc.Doubts, engines ...*calc.Engine) error {
	key := doubtsKey(x)
	if key == k.key {
		return nil
	}
	for _, e := range engines {
		if err := e.SetDoubts(x); err != nil {
			return err
		}
	}
	k.key = key
	return nil
}

// The pictures' points: half a degree apart, a line of 29 points bends less
// than a pixel between them.
const pictureStepC = 0.5

func newLive(painter *plotting.Painter) *live {
	l := &live{
		engine: calc.NewEngine(), ghostEngine: calc.NewEngine(), axesEngine: calc.NewEngine(),
		painter: painter, now: time.Now,
	}
	for t := calc.RestLowC; t <= calc.RestHighC+1e-9; t += pictureStepC {
		l.temperaturesC = append(l.temperaturesC, t)
	}
	return l
}

// frame computes and draws one.
func (l *live) frame(v view) frame {
	if v.strains != nil {
		return l.strains.frame(v)
	}
	before := l.key
	if err := l.doubt(v.doubts, l.engine, l.ghostEngine, l.axesEngine); err != nil {
		return frame{err: err}
	}
	if l.key != before {
		l.ghostOf, l.axesKey = nil, "" // drawn with other doubts
	}
	if v.day {
		return l.brewDay(v.design)
	}
	f := frame{lessons: v.lessons}
	curves, err := l.engine.Curves(v.design, v.rest, l.temperaturesC)
	if err != nil {
		return frame{err: err}
	}
	if f.prediction, err = l.engine.Predict(v.design); err != nil {
		return frame{err: err}
	}
	at := v.design.Mash.Rest[v.rest].TemperatureC
	marks := f.prediction.Four()
	f.hotter = l.hotter(curves, at)
	lines := make([]plotting.Line, 0, 2)
	if ghost, ok := l.ghost(v); ok {
		prediction := l.ghostPrediction // a copy: the next frame may write over this one
		f.ghost = &prediction
		lines = append(lines, plotting.Line{Name: v.labels[1], Role: plotting.Before, Curves: ghost})
	}
	lines = append(lines, plotting.Line{Name: v.labels[0], Role: plotting.Now, Curves: curves, Marks: marks})

	shown := []calc.Curves{curves}
	if f.ghost != nil {
		shown = append(shown, l.ghostCurves)
	}
	if f.gliding, err = l.fit(v, shown...); err != nil {
		return frame{err: err}
	}
	l.painter.Draw(v.palette, plotting.Four(lines, at, l.axes.Ranges(), v.units), v.sizes[:]...)
	return f
}

// hotter is how the middles of the curves change from a temperature to one
// degree more; past their end, over the last degree they hold.
func (l *live) hotter(c calc.Curves, tempC float64) (change [calc.Outcomes]float64) {
	from := math.Min(math.Max(tempC, calc.RestLowC), calc.RestHighC-1)
	mid := func(o int, t float64) float64 {
		place := (t - calc.RestLowC) / pictureStepC
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
func (l *live) ghost(v view) (calc.Curves, bool) {
	if v.ghost == nil || v.rest >= len(v.ghost.Mash.Rest) {
		l.ghostOf = nil
		return calc.Curves{}, false
	}
	if l.ghostOf != nil && l.ghostRest == v.rest && l.ghostOf.Equal(*v.ghost) {
		return l.ghostCurves, true
	}
	curves, err := l.ghostEngine.Curves(*v.ghost, v.rest, l.temperaturesC)
	if err != nil {
		return calc.Curves{}, false
	}
	p, err := l.ghostEngine.Predict(*v.ghost)
	if err != nil {
		return calc.Curves{}, false
	}
	kept := v.ghost.Clone()
	l.ghostOf, l.ghostRest, l.ghostCurves, l.ghostPrediction = &kept, v.rest, curves, p
	return curves, true
}
