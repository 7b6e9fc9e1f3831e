package brew

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/figures"
	"skep/app/look"
	"skep/app/plane"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/tune"
)

// beer is what the day comes to, beside the steps in which it is edited: in a wide
// window a column with the landing plane over the numbers, else one line above the
// steps. The numbers are the worker's prediction of the one beer.
type beer struct {
	p      *Place
	title  *ui.Caption
	plane  *plane.Plane
	cells  []*beerCell
	wide   bool // a column of its own
	object fyne.CanvasObject
}

// beerCell is one number: what it is, its value and its band.
type beerCell struct {
	name, value, band *ui.Caption
	fill              func(p *calc.Prediction) (value, band string)
}

// Sizes of the column, and of the line.
const (
	wideWindow = 1600 // from here the beer has a column of its own
	beerColumn = 330
	beerLine   = 40
	beerRow    = 38 // of the column
)

func newBeer(p *Place) *beer {
	b := &beer{p: p, title: ui.NewCaption(words.T("The beer"), look.TitleSize, true, ui.InkFull), plane: plane.New()}
	all := figures.All(p.host)
	for _, key := range []string{"original_gravity_sg", "final_gravity_sg", "strength_pct", "colour_ebc", "bitterness_ibu", "dryness", "body", "honey_character"} {
		b.add(all[slices.IndexFunc(all, func(f figures.Figure) bool { return f.Key == key })])
	}

	b.plane.OnHint = p.host.Hint
	b.plane.OnPin = func(dryness, body *float64) {
		ui.Move(p.host, words.T("landing point"), "pin", func(d *design.Design) { d.Taste.Dryness, d.Taste.Body = dryness, body })
	}
	b.plane.OnPinEnd = p.host.EndMove
	objects := []fyne.CanvasObject{b.title, b.plane}
	for _, c := range b.cells {
		objects = append(objects, c.name, c.value, c.band)
	}
	b.object = ui.NewPanel(container.New(&beerLayout{b}, objects...), 10)
	return b
}

func (b *beer) add(f figures.Figure) {
	b.cells = append(b.cells, &beerCell{
		name:  ui.NewCaption(f.Name, look.CaptionSize, false, ui.InkQuiet),
		value: ui.NewCaption(ui.NoNumber, look.TextSize, true, ui.InkFull),
		band:  ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet),
		fill:  f.Show,
	})
}

// sync shows what the design asks for.
func (b *beer) sync(d *design.Design) {
	b.plane.SetMoving(b.p.host.Moving())
	b.plane.SetPin(plane.Wish{Dryness: d.Taste.Dryness, Body: d.Taste.Body})
}

// show puts a prediction up; a refused design has no numbers.
func (b *beer) show(f *dayFrame) {
	for _, c := range b.cells {
		value, band := ui.NoNumber, ""
		if f.refused == nil {
			value, band = c.fill(&f.prediction)
		}
		c.value.SetText(value)
		c.band.SetText(band)
	}
	switch {
	case f.refused != nil:
		b.plane.Set(plane.Data{Note: ui.Refused(f.refused)})
	case f.landing != nil:
		b.plane.Set(plane.Data{
			Here: plane.Point{Dryness: f.landing.Mid.Dryness, Body: f.landing.Mid.Body},
			Half: ring(f.landing.Half), Most: ring(f.landing.Most),
		})
	}
	b.object.(*ui.Panel).Content.Refresh()
}

func ring(points []tune.Point) [][]plane.Point {
	out := make([]plane.Point, len(points))
	for i, q := range points {
		out[i] = plane.Point{Dryness: q.Dryness, Body: q.Body}
	}
	return [][]plane.Point{out}
}

// beerLayout is the column or the line, in which Fyne's row could not leave out what has
// no room.
type beerLayout struct{ b *beer }

func (*beerLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(200, beerLine-20) }

func (l *beerLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	b := l.b
	if b.wide {
		b.title.Show()
		b.plane.Show()
		l.column(size)
		return
	}
	b.title.Hide()
	b.plane.Hide()
	l.line(size)
}

// column is the plane over the numbers, each with its band below it.
func (l *beerLayout) column(size fyne.Size) {
	b := l.b
	t := b.title.MinSize()
	ui.Put(b.title, 2, 0, size.Width-2, t.Height)
	y := t.Height + 6
	side := min(size.Width, size.Height-y-float32(len(b.cells))*beerRow-8)
	ui.Put(b.plane, (size.Width-side)/2, y, side, side)
	y += side + 10
	for _, c := range b.cells {
		v, n := c.value.MinSize(), c.name.MinSize()
		ui.Put(c.name, 2, y+(v.Height-n.Height)*0.7, size.Width/2, n.Height)
		ui.Put(c.value, size.Width-v.Width-2, y, v.Width, v.Height)
		c.band.Show()
		d := c.band.MinSize()
		ui.Put(c.band, size.Width-d.Width-2, y+v.Height-1, d.Width, d.Height)
		y += beerRow
	}
}

// line is name and value in a row, with the bands where all of them fit; what has
// no room at all is left out from the end.
func (l *beerLayout) line(size fyne.Size) {
	const after = 5
	between := float32(18)
	bands, all := float32(0), -between
	for _, c := range l.b.cells {
		all += c.name.MinSize().Width + after + c.value.MinSize().Width + between
		bands += after + c.band.MinSize().Width
	}
	banded := all+bands <= size.Width
	if all > size.Width {
		between = 11
	}
	x := float32(2)
	for _, c := range l.b.cells {
		n, v, d := c.name.MinSize(), c.value.MinSize(), c.band.MinSize()
		w := n.Width + after + v.Width
		if banded {
			w += after + d.Width
		}
		fits := x+w <= size.Width+1
		for _, o := range []*ui.Caption{c.name, c.value, c.band} {
			o.Hidden = !fits
		}
		c.band.Hidden = !fits || !banded
		if !fits {
			x = size.Width + 2
			continue
		}
		y := (size.Height - v.Height) / 2
		ui.Put(c.name, x, y+(v.Height-n.Height)*0.7, n.Width, n.Height)
		ui.Put(c.value, x+n.Width+after, y, v.Width, v.Height)
		ui.Put(c.band, x+n.Width+after+v.Width+after, y+(v.Height-d.Height)*0.7, d.Width, d.Height)
		x += w + between
	}
}
