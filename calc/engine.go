package calc

import (
	"runtime"
	"slices"

	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/message"
	"skep/calc/parallel"
	"skep/calc/recipe"
	"skep/calc/water"
)

// Draws is how many times a prediction is drawn for its bands. It is one
// number everywhere, so that the window, the commands and the printed sheet
// agree to the last digit; TestBandsConverge shows what it costs in accuracy.
const Draws = 256

// Engine predicts. It keeps what is costly to compute between calls (the mash
// over temperature, the strain's appetite), so a lever that leaves those alone
// costs little. An Engine is for one goroutine.
type Engine struct {
	own    doubt.Draws // of a plan
	draws  doubt.Draws // own, or those that readings have left
	middle [doubt.Inputs]float64
	doubts Doubts
	logged Logged
	reachC float64 // the mash is tabulated so far about a rest; 0: over the levers' range

	mashes  []keptMash // the last ones tabulated, the newest last
	lasting lastingMash

	strains []strainTakes // the last ones asked for, the newest last

	fixed    []Inputs // of the draws with the doubts, without any design
	drawn    []drawn
	honeys   []honeySums
	rows     mashRows
	curved   keptCurves
	windows  []keptWindow // by draw
	compared Drawn        // of the last difference
	beside   Drawn        // of the last FrameBeer
	scratch  [workers]*scratch
	work     [workers]Draw
	beers    []Beer
	times    []Times
}

// workers is how many goroutines share the temperatures of a picture.
const workers = 2

// NewEngine makes an engine with the standard draws.
func NewEngine() *Engine { return NewEngineDraws(Draws) }

// NewEngineDraws makes an engine with n draws, to study convergence.
func NewEngineDraws(n int) *Engine {
	own := doubt.New(n)
	e := &Engine{own: own, draws: own, drawn: make([]drawn, 0, n), honeys: make([]honeySums, 0, n), beers: make([]Beer, n), times: make([]Times, n)}
	e.fixed = e.doubts.sd().scores(e.draws)
	for i := range e.scratch {
		e.scratch[i] = newScratch(n)
	}
	return e
}

// SetMeasured makes the engine draw as readings have left it, of a design with
// what was measured put in (package follow): rows of equal weight in the place of
// its own draws, nil for those, and what was logged. Its middle is then the rows'
// mean. The zero values bring the plan back, to the last bit.
//
// A [Lander], and a tuner, keep what their engine had when they were made.
func (e *Engine) SetMeasured(draws doubt.Draws, logged Logged) error {
	if draws == nil {
		draws = e.own
	}
	if len(draws) != len(e.own) {
		return message.Fault("%d draws, expected %d", len(draws), len(e.own))
	}
	e.logged = logged
	if len(draws) == len(e.draws) && (len(draws) == 0 || &draws[0] == &e.draws[0]) {
		return nil
	}
	e.draws = draws
	e.middle = [doubt.Inputs]float64{}
	if &draws[0] != &e.own[0] {
		for i := range draws {
			for j, z := range draws[i] {
				e.middle[j] += z / float64(len(draws))
			}
		}
	}
	e.strains = nil
	e.redraw()
	return nil
}

// Fork is another engine with the same draws, doubts and measurements, which goes
// its own way from now on.
func (e *Engine) Fork() *Engine {
	n := len(e.own)
	f := &Engine{
		own: e.own, draws: e.draws, middle: e.middle, doubts: e.Doubts(), logged: e.logged, fixed: e.fixed,
		mashes: slices.Clone(e.mashes), lasting: e.lasting,
		drawn: make([]drawn, 0, n), honeys: make([]honeySums, 0, n), beers: make([]Beer, n), times: make([]Times, n),
	}
	for i := range f.scratch {
		f.scratch[i] = newScratch(n)
	}
	return f
}

// Measured is what [Engine.SetMeasured] has left; draws are nil for the engine's
// own.
func (e *Engine) Measured() (doubt.Draws, Logged) {
	if len(e.draws) > 0 && &e.draws[0] == &e.own[0] {
		return nil, e.logged
	}
	return e.draws, e.logged
}

// Own are the engine's own draws, of a plan. They are to be read only.
func (e *Engine) Own() doubt.Draws { return e.own }

// redraw works the draws out anew. The old stay as they are: a Lander reads them.
func (e *Engine) redraw() {
	e.fixed = e.doubts.sd().scores(e.draws)
	e.rows.forget()
}

// Predict says what the design's own yeast, the first, makes of it.
//
// The design should be valid (see [design.Design.Validate]); one that is not
// gives an error that names what is wrong.
func (e *Engine) Predict(d design.Design) (Prediction, error) { return e.PredictYeast(d, 0) }

// PredictYeast is Predict with the i-th yeast of the design brewed with instead.
func (e *Engine) PredictYeast(d design.Design, i int) (Prediction, error) {
	b, err := e.ready(d, i)
	if err != nil {
		return Prediction{}, err
	}
	p := e.predict(b, toTheEnd, func(int, *Draw) {})
	e.day(b, &p)
	return p, nil
}

// Frame is [Engine.Predict] and [Engine.Curves] of one design, made ready once:
// all that a window shows of it while a lever is dragged.
func (e *Engine) Frame(d design.Design, rest int, temperaturesC []float64) (Prediction, Curves, error) {
	p, c, _, err := e.FrameBeside(d, rest, temperaturesC, nil, true)
	return p, c, err
}

// FrameBeside is [Engine.Frame] and [Engine.Difference] from another beer, nil for
// none. When the beer is finished is known where that is asked for: it takes half of
// the courses' time.
func (e *Engine) FrameBeside(d design.Design, rest int, temperaturesC []float64, other *Drawn, finish bool) (p Prediction, c Curves, more Difference, err error) {
	b, err := e.ready(d, 0)
	if err != nil {
		return p, c, more, err
	}
	far := toTheWindow
	if finish {
		far = toTheEnd
	}
	p = e.predict(b, far, func(int, *Draw) {})
	e.day(b, &p)
	// Of the same strain the beers just drawn are compared, before the curves may make
	// another brew ready; another strain is drawn with doubts of its own, so last.
	same := other != nil && sameStrain(&other.yeast, &b.yeast)
	if same {
		if more, err = e.difference(other, b); err != nil {
			return p, c, more, err
		}
	}
	if c, err = e.about(b, rest, temperaturesC, true); err != nil {
		return p, c, more, err
	}
	if other != nil && !same {
		more, err = e.Difference(other, d, 0)
	}
	return p, c, more, err
}

// FrameBeer is [Engine.Frame] without following a course, and the beer draw by draw:
// what a window shows while a lever is dragged of another state kept beside the
// design. Of the prediction it has what [Engine.PredictBeer] says, of the curves not
// what a degree more changes; the draws are good until the next call.
func (e *Engine) FrameBeer(d design.Design, rest int, temperaturesC []float64) (Prediction, Curves, *Drawn, error) {
	b, err := e.ready(d, 0)
	if err != nil {
		return Prediction{}, Curves{}, nil, err
	}
	e.eachDraw(b, unfollowed, nil)
	e.drawInto(&e.beside, b)
	p := e.drawnBeer(b)
	b.widen(&p)
	c, err := e.about(b, rest, temperaturesC, false)
	return p, c, &e.beside, err
}

// PredictBeer is what [Engine.PredictYeast] says of the quantities of the beer and
// the wort, without following a course: the rest of the prediction is empty.
func (e *Engine) PredictBeer(d design.Design, i int) (Prediction, error) {
	b, err := e.ready(d, i)
	if err != nil {
		return Prediction{}, err
	}
	e.eachDraw(b, unfollowed, nil)
	p := e.drawnBeer(b)
	b.widen(&p)
	return p, nil
}

// PredictDay is [Engine.PredictYeast] but for the four times that come from following
// the course of every draw, and for what is said of them: a fifth of the work.
// [FromCourses] tells by key.
func (e *Engine) PredictDay(d design.Design, i int) (Prediction, error) {
	b, err := e.ready(d, i)
	if err != nil {
		return Prediction{}, err
	}
	e.eachDraw(b, unfollowed, nil)
	p := e.drawnBeer(b)
	e.day(b, &p)
	p.Warnings, p.OutsideWindow = nil, nil
	return p, nil
}

// FromCourses tells whether a published key is one of the times that are drawn by
// following the course of every draw.
func FromCourses(key string) bool {
	return slices.ContainsFunc(moments, func(m moment) bool { return m.key == key })
}

// Strains are the four outcomes with each yeast of the design, in its order,
// the rest as it stands: what a comparison needs, without the rest of a
// [Prediction].
func (e *Engine) Strains(d design.Design) ([][Outcomes]Band, error) {
	plan, err := recipe.Sound(d)
	if err != nil {
		return nil, err
	}
	tempC := d.Mash.Rest[0].TemperatureC
	all := make([][Outcomes]Band, len(d.Yeast))
	for i, y := range d.Yeast {
		b, err := e.prepare(d, &plan, y, 0)
		if err != nil {
			return nil, err
		}
		all[i] = b.outcomesOf(e.rows.at(b, e.fixed, tempC)[0], e.scratch[0])
		b.widenOutcomes(b.stops(), tempC, &all[i])
	}
	return all, nil
}

// Each does a job for the numbers below n on as many processors as there are, each
// with a fork of the engine.
func (e *Engine) Each(n int, do func(e *Engine, i int)) {
	forks := make([]*Engine, min(runtime.NumCPU(), n))
	for i := range forks {
		forks[i] = e.Fork()
	}
	parallel.Each(len(forks), n, func(worker, i int) { do(forks[worker], i) })
}

// paced gives a brew the clock of the i-th yeast.
func (e *Engine) paced(b *Brew, i int) *Brew {
	b.clock = e.doubts.pace(i)
	b.pace(&b.mid, &e.middle)
	return b
}

// soundWith is the liquor of a design that is not refused and has an i-th yeast.
func soundWith(d design.Design, i int) (water.Plan, error) {
	if i < 0 || i >= len(d.Yeast) {
		return water.Plan{}, message.Fault("yeast.%d is not there: the design has %d", i, len(d.Yeast))
	}
	return recipe.Sound(d)
}

// Brew makes a design ready with one of its yeasts, to be drawn from input by
// input. It keeps nothing that the engine may change.
func (e *Engine) Brew(d design.Design, i int) (*Brew, error) {
	plan, err := soundWith(d, i)
	if err != nil {
		return nil, err
	}
	b, err := e.brewOf(d, &plan, d.Yeast[i], 0)
	if err != nil {
		return nil, err
	}
	logged := e.logged
	b.logged = &logged
	return e.paced(b, i), nil
}

// ready prepares a design with one of its yeasts.
func (e *Engine) ready(d design.Design, i int) (*Brew, error) {
	plan, err := soundWith(d, i)
	if err != nil {
		return nil, err
	}
	b, err := e.prepare(d, &plan, d.Yeast[i], 0)
	if err != nil {
		return nil, err
	}
	return e.paced(b, i), nil
}
