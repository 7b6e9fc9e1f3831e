package ferment

import (
	"math"

	"fyne.io/fyne/v2"

	"skep/app/plane"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/honeyways"
	table "skep/calc/lever"
)

// landingPlane is the landing plane of the re-tune: where the beer lands by
// what was measured, what honey can still do, and the pin.
type landingPlane struct {
	p     *Place
	plane *plane.Plane
	from  *design.Design // when an arrow was grabbed; nil: none is
}

func newLandingPlane(p *Place) *landingPlane {
	l := &landingPlane{p: p, plane: plane.New()}
	b := p.host
	l.plane.OnHint = b.Hint
	l.plane.OnPin = func(dryness, body *float64) {
		ui.Move(b, words.T("landing point"), "pin", func(d *design.Design) { d.Taste.Dryness, d.Taste.Body = dryness, body })
	}
	l.plane.OnPinEnd = b.EndMove
	l.plane.OnArrow = l.pull
	l.plane.OnArrowEnd = func(string) { l.from = nil; b.EndMove() }
	return l
}

// pull moves the honey that is left by an arrow.
func (l *landingPlane) pull(_ string, steps float64) {
	at := l.p.Side.left.honey
	d := l.p.host.Design()
	if at < 0 || at >= len(d.Honey) {
		return
	}
	if l.from == nil {
		l.from = &d
	}
	which := table.At{Honey: at}
	ui.Move(l.p.host, words.T("honey still to go in"), "honey", func(d *design.Design) {
		which.Pull(d, l.from, table.Honey, steps*table.Honey.Natural(l.from))
	})
}

func (l *landingPlane) sync(d *design.Design) {
	l.plane.SetMoving(l.p.host.Moving())
	l.plane.SetPin(plane.Wish{Dryness: d.Taste.Dryness, Body: d.Taste.Body})
}

// Rings of a bell-shaped cloud in two directions: half of it lies within 1.18
// standard deviations, four fifths within 1.79 (the chi-squared distribution
// with two degrees of freedom); a band ends at 1.28.
const (
	bandSD = 1.2816
	halfSD = 1.1774
	mostSD = 1.7941
)

// show puts the measured beer on the plane. The bands of dryness and body are
// known, not how they go together: the rings take them as independent.
func (l *landingPlane) show(f *frame) {
	b := f.batch
	point := func(w *honeyways.Way) plane.Point {
		return plane.Point{Dryness: w.Lands[calc.Dryness].Mid, Body: w.Lands[calc.Body].Mid}
	}
	data := plane.Data{Here: plane.Point{Dryness: b.After.Dryness.Mid, Body: b.After.Body.Mid},
		Half: [][]plane.Point{ring(b.After.Dryness, b.After.Body, halfSD/bandSD)}, Most: [][]plane.Point{ring(b.After.Dryness, b.After.Body, mostSD/bandSD)}}
	if f.left {
		// One lever reaches along a line: there and back again.
		var line []plane.Point
		for i := range f.ways.Ladder {
			line = append(line, point(&f.ways.Ladder[i]))
		}
		for i := len(line) - 2; i > 0; i-- {
			line = append(line, line[i])
		}
		data.Reach = [][]plane.Point{line}
		data.Arrows = []plane.Arrow{{Lever: table.Honey.String(), Word: l.p.host.Say().Sentence(table.Honey.Toward(true)), Step: l.p.host.Say().Quantity(table.Honey.Difference(f.ways.StepKg)), To: point(&f.ways.More)}}
	}
	l.plane.Set(data)
}

// ring is an ellipse about two bands, so many of them wide.
func ring(x, y calc.Band, wide float64) []plane.Point {
	const corners = 36
	out := make([]plane.Point, corners)
	side := func(v calc.Band, to float64) float64 {
		if to < 0 {
			return v.Mid + to*wide*(v.Mid-v.Low)
		}
		return v.Mid + to*wide*(v.High-v.Mid)
	}
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		out[i] = plane.Point{Dryness: min(max(side(x, cos), 0), 100), Body: min(max(side(y, sin), 0), 100)}
	}
	return out
}

func (l *landingPlane) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{l.plane} }

// mostPlane is as high as it is drawn; the rest of the page has to be seen too.
const mostPlane = 224

func (l *landingPlane) Lay(x, y, width float32) float32 {
	h := min(width, mostPlane)
	ui.Put(l.plane, x, y, width, h)
	return h
}
