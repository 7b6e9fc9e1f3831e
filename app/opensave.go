package app

import (
	"errors"
	"path/filepath"

	"fyne.io/fyne/v2"

	"skep/app/begin"
	"skep/app/disk"
	"skep/app/editor"
	"skep/app/recovery"
	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/words"
	"skep/assets"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/start"
)

// open reads a design file in place of the present design, whose changes the
// person has agreed to lose or has saved.
func (b *bench) open(path string) { b.openThen(path, func() {}) }

// openThen is open, and goes on once the file is there.
func (b *bench) openThen(path string, then func()) {
	b.read(path, then, func(findings []design.Finding, err error) { b.refuseFile(path, findings, err) })
}

// read reads a design file beside the window. What has come of it is thrown away where
// the person has opened or changed something meanwhile.
func (b *bench) read(path string, then func(), refused func(findings []design.Finding, err error)) {
	b.openings++
	n, was, at := b.openings, b.Design(), b.Path()
	still := func() bool {
		switch {
		case n != b.openings:
			return false
		case b.Path() != at || !b.Design().Equal(was):
			b.Warn(words.T("{path} was not opened: the design here was changed before it was read. Open it again.", path))
			return false
		}
		return true
	}
	b.keeper.Run(b.keeper.Opening(path, still, func(o *editor.Opened, err error) {
		if err != nil {
			refused(o.Findings, err)
			return
		}
		b.came(path, o.Findings)
		then()
	}), func(error) {})
}

// came takes up a file that was opened.
func (b *bench) came(path string, findings []design.Finding) {
	b.opened()
	b.remember(b.Path())
	switch {
	case b.ReadOnly() != nil:
		b.Warn(words.Error(b.ReadOnly()))
	case len(findings) > 0:
		b.Warn(moreFindings(findings))
	default:
		b.Tell(words.T("Opened {path}", path))
	}
	b.remarkOnBatch()
	b.Changed()
	if busy := b.keeper.Busy(); busy != nil {
		b.askBusy(busy)
	}
}

// moreFindings is the first remark on a file, and that there are others.
func moreFindings(findings []design.Finding) string {
	if n := len(findings) - 1; n > 0 {
		return words.N("{finding} (and {count} more; skep check lists them)", "{finding} (and {count} more; skep check lists them)", n, findings[0])
	}
	return words.Error(findings[0])
}

// reopen is open for the file of the last time. One that is gone was renamed, moved,
// or is on a disk that is not here: said once, and another design stands here.
func (b *bench) reopen(path string) {
	b.read(path, func() {}, func(findings []design.Finding, err error) {
		var failed *savefile.Error
		if !errors.As(err, &failed) || !failed.Missing() {
			b.refuseFile(path, findings, err)
			return
		}
		b.Warn(words.T("{path} was open last and is not there now: renamed, moved, or on a disk that is not here. Open it with Ctrl+O; this is a demonstration.", path))
		b.Prefs.Last = ""
		b.SavePrefs()
	})
}

func (b *bench) remember(path string) {
	b.Prefs.Opened(path)
	b.SavePrefs()
}

// demo opens a demonstration as an unsaved copy.
func (b *bench) demo(name string) {
	src, err := assets.Demo(name)
	if err == nil {
		err = b.Editor.Replace(name, src)
	}
	if err != nil {
		b.Warn(b.Say().Why(err))
		return
	}
	b.Demo = true
	b.opened()
	b.Prefs.Last = ""
	b.SavePrefs()
	b.Tell(words.T("A copy of a Gate Field design: change it as you like, it has no file yet"))
	b.Changed()
}

// showDemoBeer opens the club's beer half way through its fermentation, and keeps in
// mind what was open.
func (b *bench) showDemoBeer() {
	before := b.Path()
	src, err := assets.DemoFermenting(b.Now())
	if err == nil {
		err = b.Editor.Replace("gate-field-fermenting.toml", src)
	}
	if err != nil {
		b.Warn(b.Say().Why(err))
		return
	}
	b.opened()
	b.Demo, b.demoBeer, b.beforeDemo = true, true, before
	b.Tell(words.T("A beer of the club at Gate Field, to look at: one reading does not fit. Change what you like, nothing of it is kept."))
	b.Changed()
}

// putDemoBeerAway brings back what was open before.
func (b *bench) putDemoBeerAway() {
	if b.beforeDemo == "" {
		b.demo(assets.DemoMiddle)
		return
	}
	b.read(b.beforeDemo, func() {}, func([]design.Finding, error) { b.demo(assets.DemoMiddle) })
}

// askNew, askOpen and the demos first ask about unsaved changes.
func (b *bench) askNew() { b.guard(b.startFromWhatYouHave) }

// startFromWhatYouHave puts a new design in the place of the present one and
// opens the card that asks for the rest. What the person has is read, and the first
// design worked out, beside the window.
func (b *bench) startFromWhatYouHave() {
	folder, catalogue, usual, title := b.OwnFolder, b.Catalogue(), b.Prefs.Kit, words.T("Honey beer")
	still := ui.Wanted(b)
	b.Disk().Ask(disk.Own, words.T("Reading {file}…", folder), func() func() {
		choices, problems := begin.Load(folder, catalogue)
		answers, kit := choices.First(usual)
		answers.Title = title
		begun, err := start.Design(calc.NewEngine(), answers, choices.Larder(), nil)
		return func() {
			if !still() || !b.begin("a new design", begun.Design, err) {
				return
			}
			b.taste.Card.Open(choices, answers, kit)
			b.Changed()
			if len(problems) > 0 {
				b.Warn(words.T("Left out: {why}", problems[0].Error()))
			}
		}
	})
}

func (b *bench) askDemo(name string) { b.guard(func() { b.demo(name) }) }

func (b *bench) askOpen() { b.guard(b.chooseFile) }

// chooseFile offers the files that were open last; what is typed there may be a path.
func (b *bench) chooseFile() {
	if len(b.Prefs.Recent) == 0 {
		b.browse()
		return
	}
	var items []ui.Item
	for _, path := range b.Prefs.Recent {
		items = append(items, ui.Item{Name: filepath.Base(path), Note: filepath.Dir(path), Take: func() { b.open(path) }})
	}
	p := ui.NewPicker(b, words.T("Open a design"), words.T("search, or type a path"), items)
	p.Own = func(path string) ui.Item {
		return ui.Item{Name: words.T("Open {path}", path), Take: func() { b.open(path) }}
	}
	p.Foot = ui.NewButton(words.T("Look through the folders…"), func() { p.Hide(); b.browse() })
	p.Show()
}

// browse looks through the folders, beginning where the last design lies.
func (b *bench) browse() {
	folder := ui.FolderOf(b.Path())
	if b.Path() == "" && len(b.Prefs.Recent) > 0 {
		folder = ui.FolderOf(b.Prefs.Recent[0])
	}
	ui.OpenFile(b, folder, []string{".toml"}, b.open)
}

func (b *bench) dropped(_ fyne.Position, uris []fyne.URI) {
	if len(uris) > 0 {
		path := uris[0].Path()
		b.guard(func() { b.open(path) })
	}
}

// save writes the design to its file, and asks for one if it has none. then
// runs when it is written.
func (b *bench) save(then func()) {
	gone := false
	b.saveBy(func() (editor.Job, error) { return b.keeper.Saving(&gone) }, func(err error) {
		var busy *recovery.Busy
		switch {
		case errors.As(err, &busy):
			b.askElsewhere(busy, then)
		case errors.Is(err, editor.ErrNoPath):
			b.saveAs(then)
		case errors.Is(err, editor.ErrChangedUnderneath):
			b.askUnderneath(then)
		default:
			b.saved(err, then)
			if gone {
				b.Warn(words.T("{path} was not there any more and is written anew. If it was renamed, the other file holds what was saved before.", b.Editor.Path()))
			}
		}
	})
}

// saveBy runs a save beside the window, one after the other.
func (b *bench) saveBy(begin func() (editor.Job, error), then func(error)) {
	if b.saving {
		b.afterSave = append(b.afterSave, func() { b.saveBy(begin, then) })
		return
	}
	job, err := begin()
	if err != nil {
		then(err)
		return
	}
	b.saving = true
	b.keeper.Run(job, func(err error) {
		b.saving = false
		then(err)
		for !b.saving && len(b.afterSave) > 0 {
			next := b.afterSave[0]
			b.afterSave = b.afterSave[1:]
			next()
		}
	})
}

func (b *bench) saved(err error, then func()) {
	if err != nil {
		b.Warn(b.Say().Why(err))
		return
	}
	b.remember(b.Editor.Path())
	b.day.Saved()
	b.ledger.Relearn()
	b.Tell(words.T("Saved {path}", b.Editor.Path()))
	if then != nil {
		then()
	}
}

// saveOver writes the design to a path, whatever stands there.
func (b *bench) saveOver(path string, then func(error)) {
	b.saveBy(func() (editor.Job, error) { return b.keeper.SavingOver(path) }, then)
}

// saveAs asks for a name.
func (b *bench) saveAs(then func()) {
	path := b.Path()
	if path == "" {
		// The ending by which a desktop knows a design of ours.
		path = filepath.Join(ui.FolderOf(""), ui.FileName(b.Title())+".skep.toml")
	}
	ui.PathDialog{
		Title: words.T("Save the design as"), Path: path, Ending: ".toml", Known: b.Path(), Folders: true,
		Save: func(path string, done func(error)) {
			b.saveOver(path, func(err error) {
				done(err)
				if err == nil {
					b.saved(nil, then)
				}
			})
		},
	}.Show(b)
}

// askUnderneath asks what to keep when the file was changed by somebody else.
func (b *bench) askUnderneath(then func()) {
	path := b.Editor.Path()
	ui.Ask(b, words.T("The file has changed"),
		words.T("{path} was changed by another program since it was opened here.", path),
		ui.Answer{Text: words.T("Cancel"), Do: func() {}},
		ui.Answer{Text: words.T("Take theirs"), Do: func() { b.open(path) }},
		ui.Answer{Text: words.T("Save beside"), Do: func() { b.saveAs(then) }},
		ui.Answer{Text: words.T("Keep mine"), Do: func() {
			b.saveOver(path, func(err error) { b.saved(err, then) })
		}, Main: true})
}

// guard runs what would lose unsaved changes only after asking, and after a save that
// is on its way.
func (b *bench) guard(then func()) {
	if b.saving {
		b.afterSave = append(b.afterSave, func() { b.guard(then) })
		return
	}
	if !b.Editor.Touched() {
		then()
		return
	}
	ui.Ask(b, words.T("Unsaved changes"),
		words.T("{title} has changes that are not saved.", b.Editor.Title()),
		ui.Answer{Text: words.T("Cancel"), Do: func() {}},
		ui.Answer{Text: words.T("Don't save"), Do: then},
		ui.Answer{Text: words.T("Save"), Do: func() { b.save(then) }, Main: true})
}

// askClose closes the window, after asking about unsaved changes.
func (b *bench) askClose() {
	if !b.saving {
		b.guard(b.quit)
		return
	}
	ui.Ask(b, words.T("The design is being saved"),
		words.T("{path} is not written yet: its disk has not answered. What is not saved is kept for the next start.", b.Editor.Path()),
		ui.Answer{Text: words.T("Wait for it"), Do: func() { b.guard(b.quit) }, Main: true},
		ui.Answer{Text: words.T("Close all the same"), Do: func() {
			b.Closing = true
			b.Window().Close()
		}})
}

func (b *bench) quit() {
	b.Closing, b.agreed = true, true
	b.Window().Close()
}

// begin puts a design that has no file in the place of the present one and shows the
// first place; an error, also of where the design came from, is told of instead.
func (b *bench) begin(name string, d design.Design, err error) bool {
	var src []byte
	if err == nil {
		src, err = file.Encode(d)
	}
	if err == nil {
		err = b.Editor.Replace(name, src)
	}
	if err != nil {
		b.Warn(b.Say().Why(err))
		return false
	}
	b.Demo = false
	b.opened()
	b.Prefs.Last = ""
	b.SavePrefs()
	b.goTo(0)
	return true
}

// brewAgain puts the next brew of a batch in the place of the present design, without
// a file yet, and shows the ways to what it was to be.
func (b *bench) brewAgain(d design.Design) {
	b.guard(func() {
		if !b.begin("the next brew", d, nil) {
			return
		}
		b.Changed()
		b.Tell(words.T("The next brew of it, with what was learnt; it has no file yet"))
	})
}

// openBatch opens a finished batch from the ledger, and shows it.
func (b *bench) openBatch(path string) {
	b.guard(func() { b.openThen(path, func() { b.goTo(0) }) })
}
