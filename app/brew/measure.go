package brew

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/table"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
)

// measures are a step's blanks: what was measured is written into the design
// as a reading, raw, with the time.
type measures struct {
	p     *Place
	title *ui.Caption
	lines []*blankLine
	n     int
}

// blankLine is one thing to measure.
type blankLine struct {
	p    *Place
	what string

	name, expect *ui.Caption
	value, warm  *ui.Entry
	at           *ui.Caption
	instrument   *table.Choice
	refracts     bool
	foam         *table.Choice
	put          *table.Choice
	last         *ui.Caption
	out          *table.Choice
	note         *ui.Paragraph
}

func (p *Place) newBlankLine() *blankLine {
	l := &blankLine{p: p}
	l.name = ui.NewCaption("", 13, false, ui.InkFull)
	l.name.Yields = true
	l.expect = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)
	l.value, l.warm = ui.NewEntry(p.host), ui.NewEntry(p.host)
	l.value.SetSeen(p.reveal)
	l.warm.SetSeen(p.reveal)
	l.value.Restored = func() { l.show("") }
	l.warm.Restored = l.value.Restored
	l.value.OnSubmitted = func(string) { l.write() }
	l.warm.OnSubmitted = func(string) { l.write() }
	l.at = ui.NewCaption(words.T("at"), look.CaptionSize, false, ui.InkQuiet)
	l.instrument = p.parts.Choice("", true, l.chooseInstrument)
	l.foam = p.parts.Choice("", true, l.chooseFoam)
	l.put = p.parts.Choice(words.T("write down"), false, l.write)
	l.put.Ink, l.put.TextSize = ui.InkAccent, 13
	l.instrument.Ink, l.foam.Ink = ui.InkFull, ui.InkFull
	l.last = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)
	l.last.Yields = true
	l.out = p.parts.Choice("", false, l.remove)
	l.out.Icon, l.out.OnHint = look.IconClose(), p.host.Hint
	l.note = ui.NewParagraph("", look.CaptionSize, ui.InkWarning)
	return l
}

// set shows the blanks of a step. Those without a place in the design are for
// the printed sheet only.
func (m *measures) set(step brewday.Key, list []brewday.Blank) {
	m.n = 0
	for _, b := range list {
		// A moment is written down with every reading anyway.
		if b.What == "" || m.n > 0 && m.lines[m.n-1].what == b.What && b.Kind == quantity.Moment {
			continue
		}
		b.Label = message.Plain(ui.BlankLabel(step, &b))
		if m.n == len(m.lines) {
			m.lines = append(m.lines, m.p.newBlankLine())
		}
		m.lines[m.n].set(b)
		m.n++
	}
}

func (l *blankLine) gravity() bool { return ui.IsGravity(l.what) }

func (l *blankLine) set(b brewday.Blank) {
	if l.what != b.What {
		l.what = b.What
		l.value.SetText("")
		l.note.SetText("")
	}
	label := words.Print(b.Label)
	l.name.SetText(label)
	expect := ""
	if b.Expect.Kind != quantity.None {
		expect = words.T("expected {value}", l.p.format.Quantity(b.Expect.Plain()))
	}
	l.expect.SetText(expect)
	l.value.Name = words.T("measured: {name}", label)
	l.value.Hint = words.T("What the instrument showed. Enter writes it into the design, with the time.")
	l.warm.Name = words.T("temperature of the sample: {name}", label)
	l.put.Name = label
	l.instrument.Name = words.T("instrument for {name}", label)
	l.foam.Name = label
	l.out.Name = words.T("take the last reading back: {name}", label)
	l.out.Hint = l.out.Name
	if l.foam.Text == "" {
		l.foam.SetText(words.T("how the foam stands"))
	}
	l.sync()
}

// sync shows what was measured last.
func (l *blankLine) sync() {
	l.instrument.SetText(words.T("hydrometer"))
	if l.refracts {
		l.instrument.SetText(words.T("refractometer"))
	}
	l.warm.SetHolder(l.p.host.Say().Unit(quantity.Temperature))
	l.value.SetHolder(l.unit())
	d := l.p.host.Design()
	text, n := "", 0
	for _, r := range d.Reading {
		if r.What == l.what {
			n++
			text = l.readingText(r)
		}
	}
	if n > 1 {
		text = words.N("{last}, the last of {count}", "{last}, the last of {count}", n, text)
	}
	l.last.SetText(text)
}

func (l *blankLine) unit() string {
	if l.gravity() {
		if l.refracts {
			return "°Bx"
		}
		if u := l.p.host.Say().Unit(quantity.Gravity); u != "" {
			return u
		}
		return words.T("SG")
	}
	kind, _ := ui.ReadingKind(l.what)
	return l.p.host.Say().Unit(kind)
}

// readingText is a reading in words.
func (l *blankLine) readingText(r design.Reading) string {
	say := l.p.host.Say()
	value := ""
	switch {
	case r.What == "pitched":
		value = words.T("pitched")
	case r.What == "foam":
		value = foamWords()[min(max(int(r.Value), 0), 3)]
	case l.gravity() && r.Instrument == "refractometer":
		value = words.T("{value} °Bx", l.p.host.Say().PlainNumber(r.Value))
	default:
		kind, _ := ui.ReadingKind(l.what)
		value = say.Format(kind, r.Value)
	}
	if l.gravity() {
		value = words.T("{value} at {temperature}", value, say.Format(quantity.Temperature, r.TemperatureC))
	}
	if r.At.IsZero() {
		return value
	}
	return words.T("{value}, {when}", value, words.Date(r.At.In(l.p.zone), "2 Jan 15:04"))
}

func foamWords() [4]string {
	return [4]string{words.T("no foam"), words.T("foam rising"), words.T("foam at its height"), words.T("foam falling")}
}

func (l *blankLine) chooseInstrument() {
	set := func(refracts bool) func() {
		return func() { l.refracts = refracts; l.sync() }
	}
	ui.PopUp(l.p.host, l.instrument,
		fyne.NewMenuItem(words.T("hydrometer"), set(false)),
		fyne.NewMenuItem(words.T("refractometer"), set(true)))
}

func (l *blankLine) chooseFoam() {
	var items []*fyne.MenuItem
	for i, w := range foamWords() {
		items = append(items, fyne.NewMenuItem(w, func() { l.keep(float64(i), 0) }))
	}
	ui.PopUp(l.p.host, l.foam, items...)
}

// write puts what was typed into the design.
func (l *blankLine) write() {
	if l.what == "pitched" {
		l.keep(1, 0)
		return
	}
	value, warm, err := l.typed()
	if err != nil {
		l.show(words.T("{name}: {why}", l.name.Text, l.p.host.Say().Why(err)))
		return
	}
	l.keep(value, warm)
}

func (l *blankLine) typed() (value, warm float64, err error) {
	kind, limits := ui.ReadingKind(l.what)
	if l.gravity() && l.refracts {
		value, err = l.p.host.Read().Plain(l.value.Text, "°Bx", 0, 60)
	} else {
		var r quantity.Reading
		r, err = l.p.host.Read().Parse(kind, l.value.Text, limits)
		value = r.Value
	}
	warm = design.NewReading().TemperatureC
	if err == nil && l.gravity() && strings.TrimSpace(l.warm.Text) != "" {
		var r quantity.Reading
		r, err = l.p.host.Read().Parse(quantity.Temperature, l.warm.Text, quantity.Limits{Low: -5, High: 105})
		if err != nil {
			err = message.NewError("its temperature: {why}", err)
		}
		warm = r.Value
	}
	return value, warm, err
}

func (l *blankLine) show(text string) {
	l.p.host.Withdraw(l.note.Text)
	l.note.SetText(text)
	if text != "" {
		l.p.host.Warn(text)
	}
	l.p.relayout()
}

// keep adds the reading.
func (l *blankLine) keep(value, warmC float64) {
	r := design.NewReading()
	r.What, r.Value, r.At = l.what, value, l.p.now().UTC().Truncate(time.Second)
	if l.gravity() {
		r.TemperatureC = warmC
		if l.refracts {
			r.Instrument = "refractometer"
		}
	}
	reading := l.readingText(r)
	if err := l.p.host.Edit(words.T("reading: {name}", l.name.Text), func(d *design.Design) { d.Reading = append(d.Reading, r) }); err != nil {
		l.show(l.p.host.Say().Why(err))
		return
	}
	l.value.SetText("")
	l.show("")
	l.p.host.ShowMessage(words.T("Written down: {name}, {value}", l.name.Text, reading))
}

// remove takes the last reading of this kind back.
func (l *blankLine) remove() {
	ui.Change(l.p.host, words.T("take back: {name}", l.name.Text), func(d *design.Design) {
		for i := len(d.Reading) - 1; i >= 0; i-- {
			if d.Reading[i].What == l.what {
				d.Reading = append(d.Reading[:i], d.Reading[i+1:]...)
				return
			}
		}
	})
}
