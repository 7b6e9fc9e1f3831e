package taste

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/plane"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	table "skep/calc/lever"
	"skep/calc/quantity"
	"skep/calc/tune"
)

// landing is the third column: the plane on which the beer lands, what is
// wanted, and the ways there.
type landing struct {
	b      *Place
	Plane  *plane.Plane
	wishes *plane.WishRow
	List   *plane.WayList
	column fyne.CanvasObject

	arrows  map[table.Lever]tune.Arrow // as last computed
	reach   [][]plane.Point            // the outline, of
	reachOf []tune.Point
	pulled  *design.Design // the design when an arrow was grabbed
	step    float64        // and that arrow's step: it turns round at a lever's end
	Ways    *tune.Result

	pinning bool // the pin is being dragged
}

func newLanding(t *Place) *landing {
	b := t
	l := &landing{b: b, arrows: map[table.Lever]tune.Arrow{}}
	l.Plane = plane.New()
	l.Plane.OnHint = b.Hint
	l.Plane.SetWhole(b.WholePlane())
	l.Plane.OnZoom = b.SetWholePlane
	l.Plane.OnPin = func(dryness, body *float64) {
		l.pinning = true
		if b.Card.shown {
			b.Card.point(dryness, body)
			return
		}
		ui.Move(b, words.T("landing point"), "pin", func(d *design.Design) { d.Taste.Dryness, d.Taste.Body = dryness, body })
	}
	l.Plane.OnPinEnd = func() {
		l.pinning = false
		if b.Card.shown {
			b.Post()
			return
		}
		b.EndMove()
	}
	l.Plane.OnArrow = l.pull
	l.Plane.OnArrowEnd = func(string) { l.pulled = nil; b.EndMove() }

	l.wishes = plane.NewWishRow(
		func(key string, v float64) string {
			if key == plane.AtHandKey {
				return b.Say().Format(quantity.MassG, 1000*v)
			}
			return b.Say().Number(wishKind(key), v)
		},
		func(key, text string) (float64, string, error) {
			r, err := b.Read().Parse(wishKind(key), text, wishLimits(key))
			if key == plane.AtHandKey {
				r.Value /= 1000
			}
			return r.Value, r.Echo, err
		})
	l.wishes.OnHint = b.Hint
	l.wishes.OnNote = b.note
	l.wishes.OnWish = func(key string, v *float64) {
		if b.Card.shown && b.Card.wish(key, v) {
			return
		}
		ui.Change(b, words.T("what is wanted"), func(d *design.Design) {
			switch key {
			case plane.DrynessKey:
				d.Taste.Dryness = v
			case plane.BodyKey:
				d.Taste.Body = v
			case plane.HoneyKey:
				d.Taste.Honey = v
			case plane.AtHandKey:
				d.Taste.HoneyAtHandKg = v
			default:
				d.Taste.StrengthPct = v
			}
		})
	}
	l.List = plane.NewWayList()
	l.List.OnHint = b.Hint
	l.List.OnUse = l.Use
	l.column = container.New(&plane.Column{}, l.Plane, l.wishes, l.List)
	return l
}

func wishKind(key string) quantity.Kind {
	switch key {
	case plane.StrengthKey:
		return quantity.Strength
	case plane.AtHandKey:
		return quantity.MassG
	}
	return quantity.Index
}

func wishLimits(key string) quantity.Limits {
	k, _ := design.KeyOf("taste." + key)
	limits := ui.LimitsOf(k)
	if key == plane.AtHandKey { // in grams, as the honey's lever is
		limits.High *= 1000
	}
	return limits
}

// Strains are those that may be brewed with instead, as they stand in the
// design and the catalogue.
func (l *landing) Strains() []design.Yeast {
	d := l.b.Design()
	return l.b.Catalogue().StrainsBeside(&d, l.b.Own())
}

// Ask is what the worker is to compute for the plane.
func (l *landing) Ask(taught ui.Taught) landingAsk {
	d := &taught.Design
	q := landingAsk{Taught: taught, rest: l.b.Rest(d), settled: !l.b.Moving(),
		honey: l.b.Honey(d), wishes: tune.WishesOf(d.Taste), pinning: l.pinning}
	// While a lever is on its way no ways are sought.
	if (q.settled || q.pinning) && !held(d, table.Yeast) {
		q.Strains = l.b.TaughtStrains(l.Strains())
	}
	return q
}

// update shows what the design asks for.
func (l *landing) update(d *design.Design) {
	l.Plane.ReducedMotion = l.b.ReducedMotion()
	l.Plane.SetMoving(l.b.Moving())
	l.Plane.SetPin(plane.Wish{Dryness: d.Taste.Dryness, Body: d.Taste.Body})
	l.wishes.Set(plane.DrynessKey, d.Taste.Dryness)
	l.wishes.Set(plane.BodyKey, d.Taste.Body)
	l.wishes.Set(plane.StrengthKey, d.Taste.StrengthPct)
	l.wishes.Set(plane.HoneyKey, d.Taste.Honey)
	l.wishes.Set(plane.AtHandKey, d.Taste.HoneyAtHandKg)
}

// show puts a computed landing up.
func (l *landing) show(p *landingFrame) {
	if p.Err != nil {
		l.refuse(p.Err)
		return
	}
	l.Plane.ReducedMotion = l.b.ReducedMotion()
	l.Plane.SetMoving(l.b.Moving())
	l.Plane.Set(l.data(p))
	if p.stale {
		return
	}
	l.Ways = p.ways
	l.List.Set(l.cards(p))
	var at []plane.Point
	if p.ways != nil && p.priced {
		for i := range p.ways.Ways {
			w := &p.ways.Ways[i].Prediction
			at = append(at, plane.Point{Dryness: w.Dryness.Mid, Body: w.Body.Mid})
		}
	}
	l.Plane.SetWays(at)
}

// refuse shows why there is no landing.
func (l *landing) refuse(why error) {
	l.Ways = nil
	l.Plane.Set(plane.Data{Note: words.Error(why)})
	l.Plane.SetWays(nil)
	l.List.Set(nil)
}

func (l *landing) data(p *landingFrame) plane.Data {
	ring := func(points []tune.Point) [][]plane.Point {
		out := make([]plane.Point, len(points))
		for i, q := range points {
			out[i] = plane.Point{Dryness: q.Dryness, Body: q.Body}
		}
		return [][]plane.Point{out}
	}
	if len(p.reach) == 0 || len(l.reachOf) == 0 || &p.reach[0] != &l.reachOf[0] { // mostly it stays
		l.reach, l.reachOf = ring(p.reach), p.reach
	}
	data := plane.Data{
		Here:  plane.Point{Dryness: p.Landing.Cloud.Mid.Dryness, Body: p.Landing.Cloud.Mid.Body},
		Half:  ring(p.Landing.Cloud.Half),
		Most:  ring(p.Landing.Cloud.Most),
		Reach: l.reach,
	}
	for _, a := range p.Landing.Arrows {
		l.arrows[a.Lever] = a
		if !p.free.Set[a.Lever] {
			continue
		}
		data.Arrows = append(data.Arrows, plane.Arrow{Lever: a.Lever.String(),
			Word: l.b.Say().Sentence(a.Lever.Toward(a.Step > 0)), Step: l.b.Say().Quantity(a.Lever.Difference(math.Abs(a.Step))),
			Does: func() string { return l.b.Say().Differences(a.Difference) },
			To:   plane.Point{Dryness: a.To.Dryness, Body: a.To.Body}})
	}
	if g := l.b.Shown.Ghost; g != nil {
		data.Ghost = &plane.Ghost{At: plane.Point{Dryness: g.Dryness.Mid, Body: g.Body.Mid}, Name: words.T("before"), Than: func() string { return l.b.Say().Differences(l.b.Shown.Than.Four()) }}
	}
	return data
}

// pull moves a lever by its arrow: so many natural steps from where it stood
// when the arrow was grabbed.
func (l *landing) pull(lever string, steps float64) {
	which, _ := table.Named(lever)
	if l.pulled == nil {
		d := l.b.Design()
		l.pulled, l.step = &d, l.arrows[which].Step
	}
	at := l.b.At()
	ui.Move(l.b, l.b.Say().Sentence(which.Change()), lever, func(d *design.Design) { at.Pull(d, l.pulled, which, steps*l.step) })
}

// held says whether a lever may not move.
func held(d *design.Design, which table.Lever) bool {
	return slices.Contains(d.Taste.Hold, which.String())
}
