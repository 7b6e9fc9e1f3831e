package ferment

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/quantity"
)

// readingEntry is where a reading is written down: what, how much, when. It
// also changes one that stands in the list.
type readingEntry struct {
	p      *Place
	column *ui.Column

	head              *ui.Head
	what, instrument  *ui.Choice
	value, warm, when *ui.Entry
	at                *ui.Caption
	write, leave      *ui.Choice
	foamTitle         *ui.Caption
	foam              [3]*ui.Choice
	pitched           *ui.Choice
	paste, open       *ui.Choice
	note              *ui.Texts
	reading           string // what is being written down
	refracts          bool
	changing          int // place of the reading that is changed; -1: a new one
	was               design.Reading
	last              string // what was said
}

func newReadingEntry(p *Place) *readingEntry {
	e := &readingEntry{p: p, reading: measured.Gravity, changing: -1}
	e.head = ui.NewHead(words.T("Write down"))
	quiet := func(text string) *ui.Caption { return ui.NewCaption(text, look.CaptionSize, false, ui.InkQuiet) }
	word := func(text, name string, list bool, tap func()) *ui.Choice {
		c := ui.NewChoice(text, list, tap)
		c.Ink, c.TextSize, c.Name = ui.InkFull, 13, name
		return c
	}
	e.what = word("", words.T("what is written down"), true, e.chooseWhat)
	e.what.Bold = true
	e.instrument = word("", words.T("instrument"), true, e.chooseInstrument)
	e.value, e.warm, e.when = ui.NewEntry(p.host), ui.NewEntry(p.host), ui.NewEntry(p.host)
	for _, f := range []*ui.Entry{e.value, e.warm, e.when} {
		f.OnSubmitted = func(string) { e.take() }
		f.Restored = func() { e.remark("") }
	}
	e.value.Hint = words.T("As the instrument showed it. Enter writes it down.")
	e.warm.Name = words.T("temperature of the sample")
	e.when.Name, e.when.Hint = words.T("when"), words.T("now, 14:30, yesterday 9:15, 21 Jun 14:30, or 36 h after pitching")
	e.at = quiet(words.T("at"))
	e.write = word(words.T("write down"), "", false, e.take)
	e.write.Ink, e.write.Bold = ui.InkAccent, true
	e.leave = word(words.T("leave it"), "", false, e.stop)
	e.foamTitle = quiet(words.T("Foam"))
	for i, text := range []string{words.T("rising"), words.T("at its height"), words.T("falling")} {
		e.foam[i] = word(text, words.T("foam"), false, func() { e.quick(measured.Foam, float64(i+1)) })
		e.foam[i].Ink = ui.InkAccent
	}
	e.pitched = word(words.T("Yeast pitched"), "", false, func() { e.quick(measured.Pitched, 1) })
	e.pitched.Ink = ui.InkAccent
	e.paste = word(words.T("Paste a log"), "", false, p.pasteCSV)
	e.open = word(words.T("Open a log"), "", false, p.openCSV)
	for _, c := range []*ui.Choice{e.paste, e.open} {
		c.Ink, c.Hint, c.OnHint = ui.InkAccent, words.T("A CSV of dates and gravities from any logger; you see what was understood before it is taken."), p.host.Hint
	}
	e.note = &ui.Texts{Make: func() *ui.Paragraph { return ui.NewParagraph("", look.CaptionSize+1, ui.InkWarning) }}

	e.column = ui.NewColumn(e.head,
		ui.NewFlow(e.what, e.value, e.instrument).Wide(e.value, 84),
		ui.NewFlow(e.at, e.warm, quiet(words.T("when")), e.when, e.write, e.leave).Wide(e.warm, 56).Wide(e.when, 96),
		ui.NewFlow(e.foamTitle, e.foam[0], e.foam[1], e.foam[2]),
		ui.NewFlow(e.paste, e.open, e.pitched), // last, as it goes once it is pressed
		e.note)                                 // under all that can be pressed: it comes and goes
	e.clear()
	return e
}

// sync shows the units, and takes the pressing of "pitched" away once done.
func (e *readingEntry) sync(d *design.Design) {
	pitched := false
	for _, r := range d.Reading {
		pitched = pitched || r.What == measured.Pitched
	}
	if e.pitched.Hidden != pitched {
		e.pitched.Hidden = pitched
	}
	if e.changing >= 0 && (e.changing >= len(d.Reading) || d.Reading[e.changing] != e.was) {
		e.stop() // undone, or changed elsewhere
	}
	e.mark()
}

// mark shows what the fields are for.
func (e *readingEntry) mark() {
	gravity, foam, pitched := ui.IsGravity(e.reading), e.reading == measured.Foam, e.reading == measured.Pitched
	name := readingName(e.reading)
	e.what.SetText(name)
	e.value.Name = name
	kind, _ := ui.ReadingKind(e.reading)
	unit := e.p.host.Say().Unit(kind)
	e.instrument.SetText(words.T("hydrometer"))
	if gravity && unit == "" {
		unit = words.T("SG")
	}
	if e.refracts {
		e.instrument.SetText(words.T("refractometer"))
		if gravity {
			unit = "°Bx"
		}
	}
	if foam {
		unit = words.T("1 to 3")
	}
	e.value.SetHolder(unit)
	e.warm.SetHolder(e.p.host.Say().Unit(quantity.Temperature))
	e.when.SetHolder(words.T("now"))
	e.warm.Hint = words.T("The temperature of the sample, for the correction. Left empty: {temperature}.",
		e.p.host.Say().Format(quantity.Temperature, design.NewReading().TemperatureC))
	e.value.Hidden = pitched
	e.at.Hidden, e.warm.Hidden, e.instrument.Hidden = !gravity, !gravity, !gravity
	e.leave.Hidden = e.changing < 0
	head := words.T("Write down")
	if e.changing >= 0 {
		head = words.T("Change a reading")
	}
	e.head.Text.SetText(head)
}

func (e *readingEntry) clear() {
	e.value.SetText("")
	e.warm.SetText("")
	e.when.SetText("")
	e.changing = -1
	e.mark()
}

// stop leaves the reading that was being changed as it is.
func (e *readingEntry) stop() {
	e.clear()
	e.remark("")
}

func (e *readingEntry) chooseWhat() {
	var items []*fyne.MenuItem
	for _, what := range []string{measured.Gravity, measured.FinalGravity, measured.OriginalGravity, measured.ForcedFerment, measured.BeerTemperature,
		measured.HoneyAdded, measured.VolumeFermenter, ui.VolumePackaged, measured.PreBoilGravity, measured.PreBoilVolume, measured.MashTemperature} {
		m := fyne.NewMenuItem(readingName(what), func() {
			e.reading = what
			e.mark()
			e.remark("")
			e.p.host.Window().Canvas().Focus(e.value)
		})
		m.Checked = what == e.reading
		items = append(items, m)
	}
	ui.PopUp(e.p.host, e.what, items...)
}

func (e *readingEntry) chooseInstrument() {
	set := func(refracts bool) func() {
		return func() { e.refracts = refracts; e.mark(); e.p.relayout() }
	}
	ui.PopUp(e.p.host, e.instrument,
		fyne.NewMenuItem(words.T("hydrometer"), set(false)),
		fyne.NewMenuItem(words.T("refractometer"), set(true)))
}

// load puts a reading into the fields, to be changed.
func (e *readingEntry) load(i int) {
	d := e.p.host.Design()
	if i >= len(d.Reading) {
		return
	}
	r := d.Reading[i]
	e.changing, e.was = i, r
	e.reading, e.refracts = r.What, r.Instrument == "refractometer"
	e.value.SetText(e.p.valueText(r))
	e.warm.SetText(e.p.host.Say().Format(quantity.Temperature, r.TemperatureC))
	e.when.SetText("")
	if !r.At.IsZero() {
		e.when.SetText(words.Date(r.At.In(e.p.Zone), "2 Jan 2006 15:04"))
	}
	e.mark()
	e.remark("")
	first := e.value
	if first.Hidden {
		first = e.when
	}
	ui.Focus(e.p.host, first)
	first.TypedShortcut(&fyne.ShortcutSelectAll{}) // typing replaces what stands there
}

// typed reads the fields.
func (e *readingEntry) typed() (design.Reading, error) {
	b := e.p.host
	r := design.NewReading()
	r.What, r.Value = e.reading, 1
	named := func(name string, err error) error {
		return message.NewError("{name}: {why}", name, err)
	}
	var err error
	if r.At, err = e.p.parseWhen(e.when.Text); err != nil {
		return r, named(words.T("when"), err)
	}
	if e.changing >= 0 && e.when.Text == words.Date(e.was.At.In(e.p.Zone), "2 Jan 2006 15:04") {
		r.At = e.was.At // with its seconds
	}
	if r.What == measured.Pitched {
		return r, nil
	}
	kind, limits := ui.ReadingKind(e.reading)
	switch {
	case r.What == measured.Foam:
		r.Value, err = b.Read().Plain(e.value.Text, "", 0, 3)
	case ui.IsGravity(r.What) && e.refracts:
		r.Instrument = "refractometer"
		r.Value, err = b.Read().Plain(e.value.Text, "°Bx", 0, 60)
	default:
		var q quantity.Reading
		q, err = b.Read().Parse(kind, e.value.Text, limits)
		r.Value = q.Value
	}
	if err != nil {
		return r, named(readingName(e.reading), err)
	}
	if ui.IsGravity(r.What) && strings.TrimSpace(e.warm.Text) != "" {
		q, err := b.Read().Parse(quantity.Temperature, e.warm.Text, quantity.Limits{Low: -5, High: 105})
		if err != nil {
			return r, named(e.warm.Name, err)
		}
		r.TemperatureC = q.Value
	}
	return r, nil
}

// take writes what was typed into the design.
func (e *readingEntry) take() {
	r, err := e.typed()
	if err != nil {
		e.remark(ui.SentenceOf(e.p.host.Say().Why(err)))
		return
	}
	if at := e.changing; at >= 0 {
		err := e.p.host.Edit(words.T("change a reading: {name}", readingName(r.What)), func(d *design.Design) {
			if at < len(d.Reading) {
				e.was = r // what sync finds is the change itself
				d.Reading[at] = r
			}
		})
		if err != nil {
			e.remark(ui.SentenceOf(e.p.host.Say().Why(err)))
			return
		}
		e.stop()
		return
	}
	e.put(r)
}

// quick is a reading by one press, at the time that stands in the field.
func (e *readingEntry) quick(what string, value float64) {
	r := design.NewReading()
	r.What, r.Value = what, value
	var err error
	if r.At, err = e.p.parseWhen(e.when.Text); err != nil {
		e.remark(ui.SentenceOf(e.p.host.Say().Why(err)))
		return
	}
	e.put(r)
}

// put adds a reading and says so; honey before the yeast gets a word.
func (e *readingEntry) put(r design.Reading) {
	early := r.What == measured.HoneyAdded && e.beforePitching(r.At)
	if err := e.p.write(r); err != nil {
		e.remark(ui.SentenceOf(e.p.host.Say().Why(err)))
		return
	}
	e.clear()
	if at := e.p.host.Window().Canvas().Focused(); (at == e.warm || at == e.when) && !e.value.Hidden {
		ui.Focus(e.p.host, e.value) // for the next one
	}
	e.remark("")
	if early {
		e.remark(words.T("No yeast was pitched before that honey: it counts as in the wort at pitching."))
	}
	e.p.host.ShowMessage(words.T("Written down: {name}, {value}", readingName(r.What), strings.TrimSpace(e.p.readingText(r)+" · "+e.p.clock(r.At))))
}

func (e *readingEntry) beforePitching(at time.Time) bool {
	d := e.p.host.Design()
	for _, r := range d.Reading {
		if r.What == measured.Pitched && !r.At.After(at) {
			return false
		}
	}
	return true
}

// remark puts one line under the fields.
func (e *readingEntry) remark(text string) {
	e.last = text
	e.note.SetOne(text)
	e.p.relayout()
}
