package ferment

import (
	"errors"
	"os"
	"slices"
	"strings"

	"skep/app/batches"
	"skep/app/look"
	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/follow"
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
	said      *ui.Texts
}

// finishWhat are the readings that close a batch, in the order of the fields.
var finishWhat = [4]string{follow.FinalGravity, ui.VolumePackaged, ui.PerceivedDryness, ui.PerceivedBody}

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
		f.fields[i] = e
		f.rows[i] = ui.NewFlow(e, quiet(readingName(what))).Wide(e, 84)
	}
	f.note = ui.NewEntry(p.host)
	f.note.Name = words.T("a note on the taste")
	f.note.SetPlaceHolder(f.note.Name)
	f.noteRow = ui.NewFlow(f.note).Wide(f.note, 400)
	f.keep = ui.NewChoice(words.T("write these down"), false, f.write)
	f.add = ui.NewChoice(words.T("add to the ledger"), false, f.toLedger)
	for _, c := range []*ui.Choice{f.keep, f.add} {
		c.Ink, c.TextSize = ui.InkAccent, 13
	}
	f.add.Hint, f.add.OnHint = words.T("Saves a copy of this design with its readings in the ledger's folder."), p.host.Hint
	f.buttons = ui.NewFlow(f.keep, f.add)
	f.said = &ui.Texts{Make: func() *ui.Paragraph { return ui.NewParagraph("", look.CaptionSize+1, ui.InkWarning) }}
	return f
}

func (f *finish) parts() []ui.Part {
	return []ui.Part{f.head, f.rows[0], f.rows[1], f.rows[2], f.rows[3], f.noteRow, f.buttons, f.said}
}

// sync shows what was written down in the empty fields.
func (f *finish) sync(d *design.Design) {
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

// write puts all that was typed into the design as one step.
func (f *finish) write() {
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
			f.remark(words.T("{name}: {why}", ui.FirstUpper(readingName(what)), ui.SentenceOf(words.Error(err))))
			return
		}
		r := design.NewReading()
		r.What, r.Value, r.At = what, q.Value, now
		got = append(got, r)
	}
	note := strings.TrimSpace(f.note.Text)
	if len(got) == 0 && note == "" {
		f.remark(words.T("Nothing was typed: a final gravity, a volume, or how it tastes."))
		return
	}
	if err := b.Edit(words.T("finish the batch"), func(d *design.Design) {
		for _, r := range got {
			// A taste or volume has one value; a final gravity may be read again.
			if r.What != follow.FinalGravity {
				d.Reading = slices.DeleteFunc(d.Reading, func(x design.Reading) bool { return x.What == r.What })
			}
			d.Reading = append(d.Reading, r)
		}
		if note != "" {
			d.Notes = strings.TrimSpace(d.Notes + "\n" + words.T("Tasted {when}: {note}", now.In(f.p.Zone).Format("2006-01-02"), note))
		}
	}); err != nil {
		f.remark(ui.SentenceOf(words.Error(err)))
		return
	}
	for _, e := range append(f.fields[:], f.note) {
		e.SetText("")
	}
	f.remark("")
	b.Tell(words.T("Written down. Add the batch to the ledger, and the next prediction can learn from it."))
}

func (f *finish) remark(text string) {
	f.said.Set(nil)
	if text != "" {
		f.said.Set([]string{text})
	}
	f.p.relayout()
}

// toLedger saves a copy of the design, readings and all, in the ledger's folder.
func (f *finish) toLedger() {
	if f.p.moment.demo.showing() {
		f.remark(words.T("This is the club's beer, to look at: it does not go among your own batches."))
		return
	}
	d := f.p.host.Design()
	if !slices.ContainsFunc(d.Reading, func(r design.Reading) bool { return r.What == follow.FinalGravity || r.What == follow.Gravity }) {
		f.remark(words.T("There is no gravity of the beer yet: the ledger would have nothing to learn from."))
		return
	}
	path, err := f.ledge(&d)
	if err != nil {
		f.remark(ui.SentenceOf(words.Error(err)))
		return
	}
	f.remark("")
	f.p.host.Tell(words.T("In the ledger: {path}", path))
	f.p.added() // the next prediction has learnt from it
}

func (f *finish) ledge(d *design.Design) (string, error) {
	src, err := copyOf(f.p.host.Path(), d)
	if err != nil {
		return "", err
	}
	folder := f.p.ledgerFolder()
	if folder == "" {
		folder = batches.DefaultFolder()
	}
	if err := batches.Make(folder); err != nil {
		return "", err
	}
	return batches.Add(folder, src)
}

// copyOf is a design as a text: its file's own, comments and all, with what is
// unsaved in it; or a fresh one where there is no file.
func copyOf(path string, d *design.Design) ([]byte, error) {
	if path == "" {
		return file.Encode(*d)
	}
	src, err := savefile.Read(path)
	var gone *savefile.Error
	switch {
	case errors.Is(err, os.ErrNotExist), errors.As(err, &gone) && gone.Missing():
		return file.Encode(*d)
	case err != nil:
		return nil, err
	}
	doc, findings := file.Parse(path, src)
	if doc == nil || design.HasErrors(findings) {
		return file.Encode(*d)
	}
	return doc.Write(*d)
}

// ToLedger closes the batch, as its button does.
func (p *Place) ToLedger() { p.Side.finish.toLedger() }
