package yeasts

import (
	"image/color"
	"slices"
	"strings"
	"sync"
	"time"

	"skep/app/compare"
	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
	"skep/plotting/style"
)

// ask is what the Yeasts place asks of its worker: the first strains of
// the design instead of the one.
type ask struct {
	taught        ui.Taught
	rest          int
	units         plotting.Units
	palette       style.Palette
	sizes         [calc.Outcomes]plotting.Size
	slots         []int // the line style of each strain, in the design's order
	reducedMotion bool  // nothing glides
	lit           int   // the strain to bring out; -1: none
	// own are the strains as the design has them: what the ledger has taught is
	// in those that are computed with, and must not be taken for the file's.
	own []design.Yeast
}

// frame is its answer; the pictures wait in the painter.
type frame struct {
	err     error // why the design is refused: there are no numbers then
	strains []strainFrame
	gliding bool // the axes are still on their way: ask for another frame
}

// strainFrame is one strain as computed.
type strainFrame struct {
	Yeast      design.Yeast
	atC        float64 // the mash rest of the prediction
	Prediction calc.Prediction
	curves     calc.Curves

	// Difference is from the brew's own strain, with which it was taken; nil in
	// its own row.
	Difference *calc.Difference
	than       design.Yeast
}

// worker computes and draws the Yeasts place's frames, on the worker's
// goroutine. What is known of a strain on a wort is kept: putting another one
// beside it, changing their order or pointing at one computes nothing anew, and
// a moving mash rest only where it stands on the lines.
type worker struct {
	knower        ui.Knower
	engines       [2]*calc.Engine // the beer's, and a fork of it
	painter       *plotting.Painter
	temperaturesC []float64

	axes *plotting.Axes
	wort design.Design // what the kept ones were computed for
	kept []strainFrame

	now      func() time.Time
	lastTick time.Time
}

func newWorker(painter *plotting.Painter) *worker {
	return &worker{
		painter: painter, temperaturesC: ui.PictureTemperaturesC(), now: time.Now,
	}
}

func (l *worker) frame(v ask) frame {
	strains, err := l.compute(&v)
	if err != nil {
		return frame{err: err}
	}
	shown := slices.Clone(strains)
	for i := range shown {
		shown[i].Yeast = v.own[i]
	}
	f := frame{strains: shown}
	curves := make([]calc.Curves, len(strains))
	for i := range strains {
		curves[i] = strains[i].curves
	}
	f.gliding = l.fit(curves, v.reducedMotion)
	l.draw(&v, strains)
	return f
}

// compute gives the strains of the view, from what is kept or anew, and puts
// what was measured into its design.
func (l *worker) compute(v *ask) ([]strainFrame, error) {
	beer, err := l.knower.Know(&v.taught)
	if err != nil {
		return nil, err
	}
	if beer.New {
		l.engines = [2]*calc.Engine{beer.Engine, beer.Engine.Fork()}
		l.kept = nil
	}
	v.taught.Design = beer.Design
	d := &v.taught.Design
	at := d.Mash.Rest[v.rest].TemperatureC
	if wort := wortOf(d, v.rest); !wort.Equal(l.wort) {
		l.wort, l.kept = wort, nil
	}
	n := len(v.slots)
	strains := make([]strainFrame, n)
	for i := range strains {
		strains[i] = l.known(d.Yeast[i])
		if strains[i].curves.TemperatureC != nil {
			continue
		}
		curves, err := l.engines[0].CurvesYeast(*d, i, v.rest, l.temperaturesC)
		if err != nil {
			return nil, err
		}
		strains[i].curves = curves
	}
	errs := make([]error, n)
	var wait sync.WaitGroup
	for k, e := range l.engines {
		wait.Go(func() {
			for i := k; i < n; i += len(l.engines) {
				if s := &strains[i]; s.Prediction.Wort == (calc.Wort{}) || s.atC != at {
					s.Prediction, errs[i] = e.PredictYeast(*d, i)
					s.atC, s.than = at, design.Yeast{}
				}
			}
		})
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	if err := l.compare(d, strains); err != nil {
		return nil, err
	}
	l.kept = append([]strainFrame(nil), strains...)
	return strains, nil
}

// compare sets each strain against the brew's own, where that is not known yet.
func (l *worker) compare(d *design.Design, strains []strainFrame) error {
	own := strains[0].Yeast
	strains[0].Difference, strains[0].than = nil, own
	known := true
	for i := range strains {
		known = known && strains[i].than == own
	}
	if known {
		return nil
	}
	differences, err := compare.Differences(l.engines[0], *d, len(strains))
	for i := range differences {
		strains[i].Difference, strains[i].than = differences[i], own
	}
	return err
}

// known is what is kept of a strain, or the bare strain.
func (l *worker) known(y design.Yeast) strainFrame {
	for i := range l.kept {
		if l.kept[i].Yeast == y {
			return l.kept[i]
		}
	}
	return strainFrame{Yeast: y}
}

// wortOf is the design without what has no part in a strain's curves over the
// temperature of a rest: the strains, that temperature, and words.
func wortOf(d *design.Design, rest int) design.Design {
	w := d.Clone()
	w.Title, w.Notes, w.Yeast, w.Ghost, w.Taste = "", "", nil, nil, design.Taste{}
	w.Mash.Rest[rest].TemperatureC = float64(-rest) // no temperature, but the rest's number
	return w
}

// fit lets the axes glide to what holds all strains. They do not depend on
// where the mash rest stands, so they are still while it moves.
func (l *worker) fit(curves []calc.Curves, reducedMotion bool) (gliding bool) {
	now := l.now()
	since := min(now.Sub(l.lastTick), ui.FrameTime)
	l.lastTick = now
	span := plotting.Span(curves...)
	if l.axes == nil {
		l.axes = plotting.NewAxes(span)
		return false
	}
	l.axes.Refix(span)
	l.axes.Release(curves...)
	if reducedMotion {
		l.axes.Jump()
		return false
	}
	return l.axes.Advance(since)
}

// faded is the alpha of the other lines while one is brought out.
const faded = 0x48

func (l *worker) draw(v *ask, strains []strainFrame) {
	palette := v.palette
	lines := make([]plotting.Line, len(strains))
	names := endNames(strains, float64(v.sizes[0].Width)/v.sizes[0].Scale)
	for i := range strains {
		s := &strains[i]
		slot := v.slots[i]
		lines[i] = plotting.Line{
			Name: names[i], Role: plotting.Strain, Index: slot,
			Curves: s.curves, Marks: s.Prediction.Four(), ShowBand: i == v.lit || len(strains) == 1,
		}
		if v.lit >= 0 && i != v.lit {
			palette.Series[slot] = fade(palette.Series[slot])
		}
	}
	at := v.taught.Design.Mash.Rest[v.rest].TemperatureC
	l.painter.Draw(palette, plotting.Four(lines, at, l.axes.Ranges(), v.units), v.sizes[:]...)
}

func fade(c color.NRGBA) color.NRGBA {
	c.A = faded
	return c
}

// endNames are the names at the lines' ends. In a narrow picture they would
// push the lines together, so the first word stands for the name where it
// tells the strains apart; the whole name is in the table.
func endNames(strains []strainFrame, wide float64) []string {
	const roomy = 400
	names := make([]string, len(strains))
	count := map[string]int{}
	first := func(name string) string {
		if word := strings.Fields(name); len(word) > 1 {
			return strings.Trim(word[0], ",;:")
		}
		return name
	}
	for i := range strains {
		names[i] = ui.OrUnnamed(strains[i].Yeast.Name)
		count[first(names[i])]++
	}
	for i, name := range names {
		if wide < roomy && len(names) > 1 && count[first(name)] == 1 {
			names[i] = first(name)
		}
	}
	return names
}
