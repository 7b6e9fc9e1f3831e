package app

import (
	"skep/app/batches"
	"skep/app/ui"
	"skep/app/words"
)

// brewThis makes a dated batch of the design and opens it; the design stays as it is.
func (b *bench) brewThis() { b.brewThen(func() {}) }

// brewThen does so and then something with the batch. A design that is not saved yet
// is asked about first.
func (b *bench) brewThen(then func()) {
	d, begin := b.Design(), func() { b.beginBatch(then) }
	switch {
	case d.Batch.Brewed != "":
		b.Warn(words.T("This is a batch already, brewed on {day}: “Brew again” makes a design of it.", ui.DayWords(d.Batch.Brewed, b.Now())))
	case !b.Unsaved() || b.Demonstration():
		begin()
	default:
		ui.Ask(b, words.T("The design is not saved"),
			words.T("A batch is a file of its own. “{title}” itself is not saved yet, and would be gone.", b.Title()),
			ui.Answer{Text: words.T("Cancel"), Do: func() {}},
			ui.Answer{Text: words.T("Brew without saving it"), Do: begin},
			ui.Answer{Text: words.T("Save, then brew"), Do: func() { b.Save(begin) }, Main: true})
	}
}

func (b *bench) beginBatch(then func()) {
	folder, from, d, now, path := b.LedgerFolder(), b.Path(), b.Design(), b.Now(), ""
	b.Write(folder, folder, func() (err error) {
		path, err = batches.Begin(folder, from, d, now)
		return err
	}, func(err error) {
		if err != nil {
			b.Warn(ui.SentenceOf(b.Say().Why(err)))
			return
		}
		b.OpenThen(path, func() {
			b.ledger.Read()
			b.ShowMessage(words.T("Brewing: what is measured goes into the batch, {path}. The design stays as it is.", path))
			then()
		})
	})
}

// brewThisAgain makes a design of the batch that is open.
func (b *bench) brewThisAgain() { b.BrewAgain(batches.Again(b.Design())) }

// batchMark is what the bar says of a batch beside its title; empty of a plan.
func (b *bench) batchMark() string {
	d := b.Design()
	switch {
	case b.Editor.Closed() != "":
		return words.T("closed {day}, to be read", ui.DayWords(d.Batch.Closed, b.Now()))
	case d.Batch.Brewed != "":
		return words.T("batch of {day}", ui.DayWords(d.Batch.Brewed, b.Now()))
	}
	return ""
}
