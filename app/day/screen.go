package day

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/running"
)

// Sizes of the letters: figures are read from two metres, the rest from one.
const (
	figureSize = 64
	titleSize  = 34
	textSize   = 22
	smallSize  = 18
	edge       = 28
)

// screen is the step that fills the window. It has the keyboard: every key that is
// pressed is for the day.
type screen struct {
	widget.BaseWidget
	d *Day

	ground  *canvas.Rectangle
	title   *ui.Caption
	hour    *ui.Caption
	where   *ui.Paragraph
	figures [3]figure
	lines   []*itemLine
	clocks  [3]*clockPanel
	measure *ui.Paragraph
	typed   *ui.Caption
	message *ui.Paragraph
	means   *ui.Paragraph
	ways    [5]*wayLine
	dismiss *ui.Choice
	caution *ui.Paragraph
	keys    *ui.Paragraph
	next    *bigButton
	banner  *bigButton
	back    *ui.Choice
	ahead   *ui.Choice
	undo    *ui.Choice
	leave   *ui.Choice
	abandon *ui.Choice
	objects []fyne.CanvasObject
}

// figure is a number that is read at arm's length and beyond.
type figure struct{ value, label *ui.Caption }

func newScreen(d *Day) *screen {
	s := &screen{d: d, ground: canvas.NewRectangle(color.Transparent)}
	s.title = ui.NewCaption("", titleSize, true, ui.InkFull)
	s.title.Yields = true
	s.hour = ui.NewCaption("", titleSize, false, ui.InkFull)
	s.hour.Align = fyne.TextAlignTrailing
	s.where = ui.NewParagraph("", smallSize, ui.InkQuiet)
	s.measure = ui.NewParagraph("", textSize, ui.InkFull)
	s.typed = ui.NewCaption("", figureSize, true, ui.InkAccent)
	s.message = ui.NewParagraph("", smallSize, ui.InkWarning)
	s.means = ui.NewParagraph("", textSize, ui.InkFull)
	s.means.Bold = true
	s.caution = ui.NewParagraph("", smallSize, ui.InkWarning)
	s.caution.Bold, s.caution.Bar = true, true
	s.keys = ui.NewParagraph("", smallSize, ui.InkQuiet)
	s.next = newBigButton(d.Press)
	s.banner = newBigButton(d.Press)
	s.banner.loud = true
	choice := func(text string, tap func()) *ui.Choice {
		c := ui.NewChoice(text, false, func() { tap(); d.refocus() })
		c.TextSize, c.Height, c.Ink = smallSize, 44, ui.InkAccent
		return c
	}
	s.back = choice(words.T("← back"), func() { d.Look(-1) })
	s.ahead = choice(words.T("ahead →"), func() { d.Look(1) })
	s.undo = choice(words.T("undo (U)"), d.Undo)
	s.leave = choice(words.T("leave (Esc)"), d.Leave)
	s.abandon = choice(words.T("end the day…"), d.askAbandon)
	s.dismiss = choice(words.T("not now"), d.Dismiss)
	s.objects = []fyne.CanvasObject{s.ground, s.title, s.hour, s.where}
	for i := range s.figures {
		s.figures[i] = figure{ui.NewCaption("", figureSize, true, ui.InkFull), ui.NewCaption("", smallSize, false, ui.InkQuiet)}
		s.objects = append(s.objects, s.figures[i].value, s.figures[i].label)
	}
	for i := range s.clocks {
		s.clocks[i] = newClockPanel(d)
		s.objects = append(s.objects, s.clocks[i].objects()...)
	}
	for i := range s.ways {
		s.ways[i] = newWayLine(func() { d.Take(i) })
		s.objects = append(s.objects, s.ways[i])
	}
	s.objects = append(s.objects, s.measure, s.typed, s.message, s.means, s.dismiss, s.caution, s.keys,
		s.next, s.back, s.ahead, s.undo, s.leave, s.abandon, s.banner)
	s.ExtendBaseWidget(s)
	return s
}

// refocus gives the keyboard back after a press of something.
func (d *Day) refocus() {
	if d.open {
		d.focus()
	}
}

func (d *Day) askAbandon() {
	ui.Ask(d.host, words.T("End the brew day?"),
		words.T("The clocks stop. What was measured stays in the design."),
		ui.Answer{Text: words.T("Go on"), Do: d.refocus, Main: true},
		ui.Answer{Text: words.T("End the day"), Do: d.Abandon})
}

var (
	_ fyne.Focusable  = (*screen)(nil)
	_ fyne.Tappable   = (*screen)(nil)
	_ fyne.Accessible = (*screen)(nil)
)

func (s *screen) FocusGained()            {}
func (s *screen) FocusLost()              {}
func (s *screen) Tapped(*fyne.PointEvent) { s.d.refocus() }
func (s *screen) TypedRune(r rune) {
	if r != ' ' {
		s.d.Type(r)
	}
}

func (s *screen) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		s.d.Press()
	case fyne.KeyLeft:
		s.d.Look(-1)
	case fyne.KeyRight:
		s.d.Look(1)
	case fyne.KeyBackspace:
		s.d.Back()
	case fyne.KeyEscape:
		if s.d.typed != "" {
			s.d.typed = ""
			s.d.refresh()
			return
		}
		s.d.Leave()
	}
}

// AccessibilityLabel says the step and what is next.
func (s *screen) AccessibilityLabel() string {
	return words.T("Brew day, {step}; next: {next}", s.title.Text, s.next.text)
}
func (s *screen) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

// fill shows the step that is looked at, as the hour is now.
func (s *screen) fill() {
	d := s.d
	if d.state == nil {
		return
	}
	now := d.now()
	s.hour.SetText(now.In(d.zone).Format("15:04"))
	list, at := d.steps()
	if len(list) == 0 {
		s.title.SetText(d.state.Title)
		s.lay()
		return
	}
	step, items := d.step()
	s.title.SetText(d.print(step.Title))
	where := words.T("step {number} of {count}", at+1, len(list))
	if d.looking != d.state.Step {
		where = words.T("{where}, not the one at hand: only looking", where)
	} else if at+1 < len(list) {
		where = words.T("{where}; then {next}", where, d.print(list[at+1].Title))
	}
	s.where.SetText(where)
	n := 0
	for _, x := range step.Numbers {
		if x.Lead && n < len(s.figures) {
			s.figures[n].value.SetText(d.quantity(x.Quantity))
			s.figures[n].label.SetText(d.print(x.Label))
			n++
		}
	}
	for ; n < len(s.figures); n++ {
		s.figures[n].value.SetText("")
		s.figures[n].label.SetText("")
	}
	s.fillItems(items)
	s.fillClocks()
	s.fillMeasure(step, items)
	caution := ""
	if len(step.Cautions) > 0 {
		caution = d.print(step.Cautions[0])
	}
	for _, w := range step.Warnings[:min(1, len(step.Warnings))] {
		caution = words.T("Check: {warning}. {caution}", d.print(w.Message), caution)
	}
	s.caution.SetText(caution)
	s.fillBanner()
	s.lay()
}

func (s *screen) fillBanner() {
	s.banner.Hide()
	if d := s.d; len(d.rings) > 0 {
		_, text := d.ringWords(&d.rings[0], d.now())
		if n := len(d.rings) - 1; n > 0 {
			text = words.N("{what} (and {count} more)", "{what} (and {count} more)", n, text)
		}
		s.banner.set(text, words.T("Space: seen"))
		s.banner.Show()
	}
}

// fillMeasure shows what a number that is typed is for, and the answer to the last.
func (s *screen) fillMeasure(step *brewday.Step, items []running.Item) {
	d := s.d
	measure, typed := "", ""
	if n := d.state.ToMeasure(items); n >= 0 {
		b := items[n].Blank
		measure = words.T("Type {name}", d.blankName(b))
		if b.Expect.Kind != 0 {
			measure = words.T("Type {name}, wanted {value}", d.blankName(b), d.quantity(b.Expect))
		}
		typed = d.typed + "_"
		if unit := d.host.Say().Unit(b.Kind); unit != "" {
			typed += " " + unit
		}
	}
	s.measure.SetText(measure)
	s.typed.SetText(typed)
	s.message.SetText(d.message)
	means := ""
	a := d.answer
	if a != nil {
		means = words.T("{measured}, as planned.", a.measured)
		if !a.reply.AsPlanned {
			means = words.T("{measured}. {means}.", a.measured, d.print(a.reply.Means))
		}
	}
	s.means.SetText(means)
	for i, w := range s.ways {
		w.set("", "")
		if a != nil && i < len(a.reply.Ways) {
			beer := ""
			if i < len(a.beers) && len(a.reply.Ways[i].Settings) > 0 {
				beer = a.beers[i]
			}
			w.set(d.print(a.reply.Ways[i].Text), beer)
		}
	}
	next := ""
	switch n := d.state.NextItem(items); {
	case d.typed != "":
		next = words.T("Write down {typed}", d.typed)
	case n >= 0:
		next = d.itemText(&items[n])
	default:
		list, at := d.steps()
		if at+1 < len(list) {
			next = words.T("On to {step}", d.print(list[at+1].Title))
		} else {
			next = words.T("The yeast is in: the day is done")
		}
	}
	s.next.set(next, words.T("Space"))
	s.keys.SetText(words.T("← → look back and ahead · digits: what is measured · H holds a clock, + − move it, E ends it · U undo · Esc leave, the day goes on"))
}

func (s *screen) fillItems(items []running.Item) {
	d := s.d
	next := d.state.NextItem(items)
	for len(s.lines) < len(items) {
		l := newItemLine()
		s.lines = append(s.lines, l)
		s.objects = append(s.objects[:1:1], append([]fyne.CanvasObject{l}, s.objects[1:]...)...)
	}
	for i, l := range s.lines {
		if i >= len(items) {
			l.set("", false, false, nil)
			continue
		}
		item := items[i]
		l.set(d.itemText(&item), d.state.IsDone(&item), i == next, func() {
			if step, items := d.step(); step != nil && i < len(items) {
				d.toggle(step, &items[i])
			}
			d.refocus()
		})
	}
}

func (s *screen) fillClocks() {
	d, n := s.d, 0
	for i := range d.state.Clocks {
		if c := &d.state.Clocks[i]; c.Running() && n < len(s.clocks) {
			s.clocks[n].fill(c)
			n++
		}
	}
	for ; n < len(s.clocks); n++ {
		s.clocks[n].fill(nil)
	}
}

func (s *screen) MinSize() fyne.Size { return fyne.NewSize(600, 400) }

func (s *screen) CreateRenderer() fyne.WidgetRenderer { return &screenRenderer{s} }

type screenRenderer struct{ s *screen }

func (r *screenRenderer) MinSize() fyne.Size           { return r.s.MinSize() }
func (r *screenRenderer) Layout(fyne.Size)             { r.s.lay() }
func (r *screenRenderer) Objects() []fyne.CanvasObject { return r.s.objects }
func (r *screenRenderer) Destroy()                     {}
func (r *screenRenderer) Refresh() {
	r.s.ground.FillColor = ui.PaletteOf(r.s.Theme()).Background
	r.s.ground.Refresh()
	r.s.lay()
	for _, o := range r.s.objects[1:] {
		o.Refresh()
	}
}
