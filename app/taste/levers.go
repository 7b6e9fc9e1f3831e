package taste

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"skep/app/lever"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	table "skep/calc/lever"
	"skep/calc/measured"
	"skep/calc/quantity"
)

// levers are the five that the Taste place has at its left.
type levers struct {
	b *Place

	Rest    *lever.Lever
	Minutes *lever.Lever
	Yeast   *lever.TwoHanded
	Honey   *lever.Lever
	Moment  *lever.Lever

	YeastName, honeyName, restName *ui.Choice

	strain string               // whose range a reset goes back to
	now    measured.Conditioned // as they were last updated
}

// shown are the levers of the Taste place, in the order in which they stand.
var shown = [...]table.Lever{table.Rest, table.Minutes, table.Yeast, table.Honey, table.Moment}

func newLevers(b *Place) *levers {
	l := &levers{b: b}
	d := b.Design()

	l.Rest = l.slider(table.Rest, &d)
	l.restName = ui.NewChoice("", true, l.ChooseRest)
	l.restName.Name = words.T("which rest")
	l.Rest.Sub = l.restName

	l.Minutes = l.slider(table.Minutes, &d)

	l.Yeast = lever.NewTwoHanded(b.Say().Sentence(table.Yeast.Title()), l.scale(table.Yeast, &d), d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct,
		func(low, high float64) string { return b.Say().FormatRange(quantity.Percent, low, high) })
	l.Yeast.Parse = func(text string) (float64, float64, string, error) {
		r, err := b.Read().ParseRange(quantity.Percent, text, quantity.Limits{Low: l.Yeast.Scale.Min, High: l.Yeast.Scale.Max})
		return r.Low, r.High, r.Echo, err
	}
	l.Yeast.LowWord, l.Yeast.HighWord = l.ends(table.Yeast)
	l.Yeast.OnChanged = func(low, high float64) {
		l.moving(table.Yeast, func(s *table.Setting) { s.AttenuationLowPct, s.AttenuationHighPct = low, high })
	}
	l.Yeast.OnCommitted = func(float64, float64) { b.EndMove() }
	l.YeastName = ui.NewChoice("", true, l.ChooseYeast)
	l.YeastName.Name = words.T("yeast")
	l.Yeast.Sub = l.YeastName

	l.Honey = l.slider(table.Honey, &d)
	l.honeyName = ui.NewChoice("", true, l.ChooseHoney)
	l.honeyName.Name = words.T("kind of honey")
	l.Honey.Sub = l.honeyName

	l.Moment = l.slider(table.Moment, &d)
	l.Moment.Format = l.placeText
	l.Moment.Scale.Stops = table.Places()
	for _, s := range table.Stops() {
		l.Moment.Ticks = append(l.Moment.Ticks, lever.Tick{Value: s.Place, Word: b.Say().Sentence(s.Short)})
	}
	l.Moment.Ticks = append(l.Moment.Ticks, lever.Tick{Value: 0, Word: words.T("height")}, lever.Tick{Value: table.LastHour, Word: words.T("+96 h")})
	l.Moment.Parse = l.parseMoment

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
	s := l.b.At().Setting(d)
	x := lever.New(l.b.Say().Sentence(which.Title()), l.scale(which, d), factor*which.Get(&s),
		func(v float64) string { return l.b.Say().Quantity(quantity.Of(kind, v)) })
	x.Parse = func(text string) (float64, string, error) {
		r, err := l.b.Read().Parse(kind, text, quantity.Limits{Low: x.Scale.Min, High: x.Scale.Max})
		return r.Value, r.Echo, err
	}
	x.LowWord, x.HighWord = l.ends(which)
	x.OnChanged = func(v float64) { l.moving(which, func(s *table.Setting) { which.Put(s, v/factor) }) }
	x.OnCommitted = func(float64) { l.b.EndMove() }
	return x
}

// scale is the range of a lever in a design, in the unit that a person reads.
func (l *levers) scale(which table.Lever, d *design.Design) lever.Scale {
	low, high := which.Limits(d, l.b.At())
	_, factor := which.Shown()
	steps := which.Steps()
	return lever.Scale{Min: low * factor, Max: high * factor, Step: steps.Step * factor, Big: steps.Big * factor, Page: steps.Page * factor}
}

func (l *levers) ends(which table.Lever) (low, high string) {
	a, z := which.Ends()
	return l.b.Say().Sentence(a), l.b.Say().Sentence(z)
}

// moving changes the design while a lever is dragged.
func (l *levers) moving(which table.Lever, how func(*table.Setting)) {
	ui.Move(l.b, l.b.Say().Sentence(which.Change()), which.String(), func(d *design.Design) { l.b.At().Change(d, which, how) })
}

func (l *levers) rails() []*lever.Rail {
	return []*lever.Rail{&l.Rest.Rail, &l.Minutes.Rail, &l.Yeast.Rail, &l.Honey.Rail, &l.Moment.Rail}
}

func (l *levers) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{l.Rest, l.Minutes, l.Yeast, l.Honey, l.Moment}
}

// opened takes a newly opened design's values as what a reset goes back to.
func (l *levers) opened(d *design.Design) {
	l.b.SetAt(table.At{})
	s := l.b.At().Setting(d)
	for _, x := range l.sliders() {
		_, factor := x.which.Shown()
		x.SetDefault(factor * x.which.Get(&s))
	}
	l.strain = d.Yeast[0].Name
	l.Yeast.SetDefaults(s.AttenuationLowPct, s.AttenuationHighPct)
	l.update()
}

// A slider is a lever of one handle with its row.
type slider struct {
	*lever.Lever
	which table.Lever
}

func (l *levers) sliders() [4]slider {
	return [...]slider{{l.Rest, table.Rest}, {l.Minutes, table.Minutes}, {l.Honey, table.Honey}, {l.Moment, table.Moment}}
}

// update shows the design, with what was measured where that stands for what was
// planned. Levers that already stand there stay untouched.
func (l *levers) update() {
	c := l.b.Conditioned()
	l.now = c
	d := &c.Design
	at := l.b.At()
	at.Rest = at.In(d).Rest
	l.b.SetAt(at)
	s := l.b.At().Setting(d)
	for _, x := range l.sliders() {
		_, factor := x.which.Shown()
		x.Scale.Max = l.scale(x.which, d).Max
		x.SetValue(factor * x.which.Get(&s))
	}
	if name := d.Yeast[0].Name; name != l.strain { // its range comes with it
		l.strain = name
		l.Yeast.SetDefaults(s.AttenuationLowPct, s.AttenuationHighPct)
	}
	l.Yeast.SetValues(s.AttenuationLowPct, s.AttenuationHighPct)

	l.YeastName.SetText(ui.OrUnnamed(d.Yeast[0].Name))
	h := l.b.At().HoneyOf(d)
	l.honeyName.SetText(ui.OrUnnamed(h.Name))
	l.restName.Hidden = len(d.Mash.Rest) < 2
	if len(d.Mash.Rest) > 1 {
		l.restName.SetText(words.T("rest {n} of {of}", fmt.Sprint(l.b.At().Rest+1), fmt.Sprint(len(d.Mash.Rest))))
	}
	for i, rail := range l.rails() {
		rail.SetLocked(slices.Contains(d.Taste.Hold, shown[i].String()))
		why := ""
		if spent, ok := l.spent(&c, shown[i]); ok {
			why = ui.SpentWords(l.b, spent)
		}
		rail.SetSpent(why)
	}
	_, pitched := l.spent(&c, table.Yeast)
	l.YeastName.SetOff(pitched)
	_, in := l.spent(&c, table.Honey)
	l.honeyName.SetOff(in && len(d.Honey) < 2)
}

// spent says whether a lever can't be moved any more.
func (l *levers) spent(c *measured.Conditioned, which table.Lever) (measured.Spent, bool) {
	return c.SpentAt(which.String(), l.b.Rest(&c.Design), l.b.Honey(&c.Design))
}

// showMoment shows when the honey went in: that counts from the height, which
// only the worker knows.
func (l *levers) showMoment(f *Frame) {
	c := l.now
	if _, in := l.spent(&c, table.Moment); in && len(f.honey) == len(c.Design.Honey) {
		c.Design.Honey = f.honey
		s := l.b.At().Setting(&c.Design)
		_, factor := table.Moment.Shown()
		l.Moment.SetValue(factor * table.Moment.Get(&s))
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
func (b *Place) note(text string, bad bool) {
	b.Withdraw(b.refused)
	b.refused = ""
	switch {
	case bad:
		b.refused = text
		b.Warn(text)
	case text != "":
		b.ShowMessage(text)
	}
}

// UnitsChanged shows the levers' values in other units.
func (b *Place) UnitsChanged() {
	for _, r := range b.Levers.rails() {
		r.Refresh()
	}
}
