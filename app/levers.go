package app

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"skep/app/lever"
	"skep/app/paper"
	"skep/app/quantity"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	table "skep/calc/lever"
	"skep/calc/says"
)

// levers are the five that the Taste place has at its left.
type levers struct {
	b *bench

	rest    *lever.Lever
	minutes *lever.Lever
	yeast   *lever.TwoHanded
	honey   *lever.Lever
	moment  *lever.Lever

	yeastName, honeyName, restName *ui.Choice

	strain string // whose range a reset goes back to
}

// shown are the levers of the Taste place, in the order in which they stand.
var shown = [...]table.Lever{table.Rest, table.Minutes, table.Yeast, table.Honey, table.Moment}

func newLevers(b *bench) *levers {
	l := &levers{b: b}
	d := b.Design()

	l.rest = l.slider(table.Rest, &d)
	l.restName = ui.NewChoice("", true, l.chooseRest)
	l.restName.Name = words.T("which rest")
	l.rest.Sub = l.restName

	l.minutes = l.slider(table.Minutes, &d)

	l.yeast = lever.NewTwoHanded(b.Say().Sentence(table.Yeast.Title()), l.scale(table.Yeast, &d), d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct,
		func(low, high float64) string { return b.Say().FormatRange(quantity.Percent, low, high) })
	l.yeast.Parse = func(text string) (float64, float64, string, error) {
		r, err := b.Read().ParseRange(quantity.Percent, text, quantity.Limits{Low: l.yeast.Scale.Min, High: l.yeast.Scale.Max})
		return r.Low, r.High, r.Echo, err
	}
	l.yeast.LowWord, l.yeast.HighWord = l.ends(table.Yeast)
	l.yeast.OnChanged = func(low, high float64) {
		l.moving(table.Yeast, func(s *calc.Setting) { s.AttenuationLowPct, s.AttenuationHighPct = low, high })
	}
	l.yeast.OnCommitted = func(float64, float64) { b.EndMove() }
	l.yeastName = ui.NewChoice("", true, l.chooseYeast)
	l.yeastName.Name = words.T("yeast")
	l.yeast.Sub = l.yeastName

	l.honey = l.slider(table.Honey, &d)
	l.honeyName = ui.NewChoice("", true, l.chooseHoney)
	l.honeyName.Name = words.T("kind of honey")
	l.honey.Sub = l.honeyName

	l.moment = l.slider(table.Moment, &d)
	l.moment.Format = l.placeText
	l.moment.Scale.Stops = table.Places()
	for _, s := range table.Stops() {
		l.moment.Ticks = append(l.moment.Ticks, lever.Tick{Value: s.Place, Word: b.Say().Sentence(s.Short)})
	}
	l.moment.Ticks = append(l.moment.Ticks, lever.Tick{Value: 0, Word: words.T("height")}, lever.Tick{Value: table.LastHour, Word: words.T("+96 h")})
	l.moment.Parse = l.parseMoment

	for i, r := range l.rails() {
		name := shown[i].String()
		r.OnLocked = func(locked bool) { l.lock(name, locked) }
		r.OnHint = b.Hint
		r.OnNote = b.note
	}
	l.opened(&d)
	return l
}

// slider is a lever of one handle, as the table has it, in the unit that a
// person reads.
func (l *levers) slider(which table.Lever, d *design.Design) *lever.Lever {
	kind, factor := which.Shown()
	read, _ := paper.KindOf(kind)
	s := l.b.Levers.Setting(d)
	x := lever.New(l.b.Say().Sentence(which.Title()), l.scale(which, d), factor*which.Get(&s),
		func(v float64) string { return l.b.Say().Quantity(says.Of(kind, v)) })
	x.Parse = func(text string) (float64, string, error) {
		r, err := l.b.Read().Parse(read, text, quantity.Limits{Low: x.Scale.Min, High: x.Scale.Max})
		return r.Value, r.Echo, err
	}
	x.LowWord, x.HighWord = l.ends(which)
	x.OnChanged = func(v float64) { l.moving(which, func(s *calc.Setting) { which.Put(s, v/factor) }) }
	x.OnCommitted = func(float64) { l.b.EndMove() }
	return x
}

// scale is the range of a lever in a design, in the unit that a person reads.
func (l *levers) scale(which table.Lever, d *design.Design) lever.Scale {
	low, high := which.Limits(d, l.b.Levers)
	_, factor := which.Shown()
	steps := which.Steps()
	return lever.Scale{Min: low * factor, Max: high * factor, Step: steps.Step * factor, Big: steps.Big * factor, Page: steps.Page * factor}
}

func (l *levers) ends(which table.Lever) (low, high string) {
	a, z := which.Ends()
	return l.b.Say().Sentence(a), l.b.Say().Sentence(z)
}

// moving changes the design while a lever is dragged.
func (l *levers) moving(which table.Lever, how func(*calc.Setting)) {
	ui.Move(l.b, l.b.Say().Sentence(which.Change()), which.String(), func(d *design.Design) { l.b.Levers.Change(d, which, how) })
}

func (l *levers) rails() []*lever.Rail {
	return []*lever.Rail{&l.rest.Rail, &l.minutes.Rail, &l.yeast.Rail, &l.honey.Rail, &l.moment.Rail}
}

func (l *levers) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{l.rest, l.minutes, l.yeast, l.honey, l.moment}
}

// opened takes a newly opened design's values as what a reset goes back to.
func (l *levers) opened(d *design.Design) {
	l.b.Levers = table.At{}
	s := l.b.Levers.Setting(d)
	for _, x := range l.sliders() {
		_, factor := x.which.Shown()
		x.SetDefault(factor * x.which.Get(&s))
	}
	l.strain = d.Yeast[0].Name
	l.yeast.SetDefaults(s.AttenuationLowPct, s.AttenuationHighPct)
	l.update(d)
}

// A slider is a lever of one handle with its row.
type slider struct {
	*lever.Lever
	which table.Lever
}

func (l *levers) sliders() [4]slider {
	return [...]slider{{l.rest, table.Rest}, {l.minutes, table.Minutes}, {l.honey, table.Honey}, {l.moment, table.Moment}}
}

// update shows a design. Levers that already stand there stay untouched.
func (l *levers) update(d *design.Design) {
	l.b.Levers.Rest = l.b.Levers.In(d).Rest
	s := l.b.Levers.Setting(d)
	for _, x := range l.sliders() {
		_, factor := x.which.Shown()
		x.Scale.Max = l.scale(x.which, d).Max
		x.SetValue(factor * x.which.Get(&s))
	}
	if name := d.Yeast[0].Name; name != l.strain { // its range comes with it
		l.strain = name
		l.yeast.SetDefaults(s.AttenuationLowPct, s.AttenuationHighPct)
	}
	l.yeast.SetValues(s.AttenuationLowPct, s.AttenuationHighPct)

	l.yeastName.SetText(ui.OrUnnamed(d.Yeast[0].Name))
	h := l.b.Levers.HoneyOf(d)
	l.honeyName.SetText(ui.OrUnnamed(h.Name))
	l.restName.Hidden = len(d.Mash.Rest) < 2
	if len(d.Mash.Rest) > 1 {
		l.restName.SetText(words.T("rest {{.N}} of {{.Of}}", map[string]any{"N": fmt.Sprint(l.b.Levers.Rest + 1), "Of": fmt.Sprint(len(d.Mash.Rest))}))
	}
	for i, rail := range l.rails() {
		rail.SetLocked(slices.Contains(d.Taste.Hold, shown[i].String()))
	}
}

// lock keeps a lever's place, in the design, so that tuning respects it.
func (l *levers) lock(name string, locked bool) {
	what := words.T("lock")
	if !locked {
		what = words.T("unlock")
	}
	ui.Change(l.b, what, func(d *design.Design) {
		d.Taste.Hold = slices.DeleteFunc(slices.Clone(d.Taste.Hold), func(h string) bool { return h == name })
		if locked {
			d.Taste.Hold = append(d.Taste.Hold, name)
		}
	})
}

// note is what a lever has to say of a typed text.
func (b *bench) note(text string, bad bool) {
	if bad {
		b.Warn(text)
		return
	}
	b.Tell(text)
}
