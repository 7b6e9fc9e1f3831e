package ferment

import (
	"slices"
	"strings"

	"skep/app/batches"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/quantity"
)

// finish closes a batch: what it came to, how it tastes, and its place
// in the ledger.
type finish struct {
	p         *Place
	head      *ui.Head
	fields    [4]*ui.Entry
	rows      [4]*ui.Flow
	note      *ui.Entry
	noteRow   *ui.Flow
	keep, add *ui.Choice
	buttons   *ui.Flow
	remarks   *ui.Texts
	missed    string // what was said to be missing: once is enough
}

// finishWhat are the readings that close a batch, in the order of the fields.
var finishWhat = [4]string{measured.FinalGravity, ui.VolumePackaged, ui.PerceivedDryness, ui.PerceivedBody}

func newFinish(p *Place) *finish {
	f := &finish{p: p}
	f.head = ui.NewHead(words.T("Finish"))
	quiet := func(text string) *ui.Caption { return ui.NewCaption(text, look.CaptionSize+1, false, ui.InkQuiet) }
	hints := [4]string{
		words.T("By hydrometer, at 20 °C."), words.T("What went into bottles or keg."),
		words.T("As it tastes: 0 very sweet to 100 very dry."), words.T("As it tastes: 0 thin to 100 full."),
	}
	for i, what := range finishWhat {
		e := ui.NewEntry(p.host)
		e.Name, e.Hint = readingName(what), hints[i]
		e.OnSubmitted = func(string) { f.write() }
		e.Restored = func() { f.remark("") }
		f.fields[i] = e
		f.rows[i] = ui.NewFlow(e, quiet(readingName(what))).Wide(e, 84)
	}
	f.note = ui.NewEntry(p.host)
	f.note.Name = words.T("a note on the taste")
	f.note.SetPlaceHolder(f.note.Name)
	f.noteRow = ui.NewFlow(f.note).Wide(f.note, 400)
	f.keep = ui.NewChoice(words.T("write these down"), false, func() { f.write() })
	f.add = ui.NewChoice(words.T("close the batch"), false, f.closeBatch)
	for _, c := range []*ui.Choice{f.keep, f.add} {
		c.Ink, c.TextSize = ui.InkAccent, 13
	}
	f.add.Hint, f.add.OnHint = words.T("Writes down what is typed, and makes the batch history: it can be read and brewed again."), p.host.Hint
	f.buttons = ui.NewFlow(f.keep, f.add)
	f.remarks = &ui.Texts{Make: func() *ui.Paragraph { return ui.NewParagraph("", look.CaptionSize+1, ui.InkWarning) }}
	return f
}

func (f *finish) parts() []ui.Part {
	return []ui.Part{f.head, f.rows[0], f.rows[1], f.rows[2], f.rows[3], f.noteRow, f.buttons, f.remarks}
}

// sync shows what was written down in the empty fields. A closed batch is history.
func (f *finish) sync(d *design.Design) {
	f.keep.SetOff(d.Batch.Closed != "")
	f.add.SetOff(d.Batch.Closed != "")
	for i, what := range finishWhat {
		kind, _ := ui.ReadingKind(what)
		text := f.p.host.Say().Unit(kind)
		switch {
		case kind == quantity.Gravity && text == "":
			text = words.T("SG")
		case kind == quantity.Index:
			text = words.T("0 to 100")
		}
		for _, r := range d.Reading {
			if r.What == what && r.Instrument != "refractometer" {
				text = f.p.valueText(r)
			}
		}
		f.fields[i].SetHolder(text)
	}
}

// write writes down what was typed and says so.
func (f *finish) write() {
	if f.writeDown() {
		f.p.host.ShowMessage(words.T("Written down. Close the batch, and the next prediction can learn from it."))
	}
}

// writeDown puts all that was typed into the design as one step; false when it
// can't, which was said.
func (f *finish) writeDown() bool {
	b := f.p.host
	var got []design.Reading
	now, _ := f.p.parseWhen("")
	for i, what := range finishWhat {
		if strings.TrimSpace(f.fields[i].Text) == "" {
			continue
		}
		kind, limits := ui.ReadingKind(what)
		q, err := b.Read().Parse(kind, f.fields[i].Text, limits)
		if err != nil {
			f.remark(words.T("{name}: {why}", ui.FirstUpper(readingName(what)), ui.SentenceOf(f.p.host.Say().Why(err))))
			return false
		}
		r := design.NewReading()
		r.What, r.Value, r.At = what, q.Value, now
		got = append(got, r)
	}
	note := strings.TrimSpace(f.note.Text)
	if len(got) == 0 && note == "" {
		f.remark(words.T("Nothing was typed: a final gravity, a volume, or how it tastes."))
		return false
	}
	if err := b.Edit(words.T("finish the batch"), func(d *design.Design) {
		for _, r := range got {
			// A taste or volume has one value; a final gravity may be read again.
			if r.What != measured.FinalGravity {
				d.Reading = slices.DeleteFunc(d.Reading, func(x design.Reading) bool { return x.What == r.What })
			}
			d.Reading = append(d.Reading, r)
		}
		if note != "" {
			d.Notes = strings.TrimSpace(d.Notes + "\n" + words.T("Tasted {when}: {note}", now.In(f.p.Zone).Format("2006-01-02"), note))
		}
	}); err != nil {
		f.remark(ui.SentenceOf(f.p.host.Say().Why(err)))
		return false
	}
	for _, e := range append(f.fields[:], f.note) {
		e.SetText("")
	}
	f.remark("")
	return true
}

func (f *finish) remark(text string) {
	f.remarks.SetOne(text)
	f.p.relayout()
	for _, o := range f.remarks.Objects() {
		f.p.Side.column.Reveal(o)
	}
}

// closeBatch writes down all that is typed, says once what is missing, and makes the
// batch history: in its own file, or, of a design that was measured without being
// made a batch, in a new one.
func (f *finish) closeBatch() {
	if f.p.moment.demo.showing() {
		f.remark(words.T("This is the club's beer, to look at: it does not go among your own batches."))
		return
	}
	if f.typed() && !f.writeDown() {
		return
	}
	b := f.p.host
	d := b.Design()
	if missing := f.missing(&d); missing != "" && missing != f.missed {
		f.missed = missing
		f.remark(words.T("Not written down yet: {missing}. Close once more to leave it so.", missing))
		return
	}
	f.closed(&d, func(path string, err error) {
		if err != nil {
			f.remark(ui.SentenceOf(f.p.host.Say().Why(err)))
			return
		}
		f.missed = ""
		f.remark("")
		b.ShowMessage(words.T("Closed: {path}. From now on it is read; “Brew again” makes a design of it.", path))
		f.p.added() // the next prediction has learnt from it
	})
}

// typed says that something stands in the fields.
func (f *finish) typed() bool {
	for _, e := range append(f.fields[:], f.note) {
		if strings.TrimSpace(e.Text) != "" {
			return true
		}
	}
	return false
}

// missing are the names of what closes a batch and was never written down.
func (f *finish) missing(d *design.Design) string {
	var list []string
	for _, what := range finishWhat {
		if !slices.ContainsFunc(d.Reading, func(r design.Reading) bool { return r.What == what }) {
			list = append(list, readingName(what))
		}
	}
	return strings.Join(list, ", ")
}

// closed closes the batch and says in which file it is.
func (f *finish) closed(d *design.Design, then func(path string, err error)) {
	b := f.p.host
	today := batches.DayOf(b.Now())
	if path := b.Path(); d.Batch.Brewed != "" && path != "" && f.p.Save != nil {
		if err := b.Edit(words.T("close the batch"), func(d *design.Design) { d.Batch.Closed = today }); err != nil {
			then("", err)
			return
		}
		f.p.Save(func(err error) { then(path, err) })
		return
	}
	d.Batch.Closed = today
	if d.Batch.Brewed == "" {
		d.Batch.Brewed = today
		if len(d.Reading) > 0 {
			d.Batch.Brewed = batches.DayOf(slices.MinFunc(d.Reading, func(a, b design.Reading) int { return a.At.Compare(b.At) }).At)
		}
	}
	folder, from, batch, to := f.p.ledgerFolder(), b.Path(), d.Clone(), ""
	b.Write(folder, folder, func() (err error) {
		to, err = batches.Keep(folder, from, batch)
		return err
	}, func(err error) {
		if err == nil && f.p.Open != nil {
			f.p.Open(to)
		}
		then(to, err)
	})
}
