package opensave

import (
	"errors"
	"path/filepath"

	"skep/app/editor"
	"skep/app/recovery"
	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/ui/filedialog"
	"skep/app/words"
)

// Save writes the design to its file, and asks for one if it has none. then
// runs when it is written.
func (f *Files) Save(then func()) {
	gone := false
	f.SaveBy(func() (editor.Job, error) { return f.Keeper.Saving(&gone) }, func(err error) {
		var busy *recovery.Busy
		var failed *savefile.Error
		switch {
		case errors.As(err, &busy):
			f.askElsewhere(busy, then)
		case errors.Is(err, editor.ErrNoPath):
			f.SaveAs(then)
		case errors.Is(err, editor.ErrChangedUnderneath):
			f.askUnderneath(then)
		case errors.As(err, &failed) && !failed.Replaced:
			f.askOther(err, then)
		default:
			f.saved(err, then)
			if gone {
				f.Warn(words.T("{path} was not there any more and is written anew. If it was renamed, the other file holds what was saved before.", f.Editor.Path()))
			}
		}
	})
}

// SaveBy runs a save beside the window, one after the other.
func (f *Files) SaveBy(begin func() (editor.Job, error), then func(error)) {
	if f.saving {
		f.afterSave = append(f.afterSave, func() { f.SaveBy(begin, then) })
		return
	}
	job, err := begin()
	if err != nil {
		then(err)
		return
	}
	f.saving = true
	f.Keeper.Run(job, func(err error) {
		f.saving = false
		then(err)
		for !f.saving && len(f.afterSave) > 0 {
			next := f.afterSave[0]
			f.afterSave = f.afterSave[1:]
			next()
		}
	})
}

func (f *Files) saved(err error, then func()) {
	if err != nil {
		f.Warn(f.Say().Why(err))
		return
	}
	f.remember(f.Editor.Path())
	f.Hooks.Saved()
	f.SaySaved(f.Editor.Path(), f.Editor.Lost())
	if then != nil {
		then()
	}
}

// saveOver writes the design to a path, whatever stands there.
func (f *Files) saveOver(path string, then func(error)) {
	f.SaveBy(func() (editor.Job, error) { return f.Keeper.SavingOver(path) }, then)
}

// SaveAs asks for a name.
func (f *Files) SaveAs(then func()) {
	path := f.Path()
	if path == "" {
		// The ending by which a desktop knows a design of ours.
		path = filepath.Join(filedialog.FolderOf(""), filedialog.FileName(f.Title())+".skep.toml")
	}
	filedialog.Save{
		Title: words.T("Save the design as"), Path: path, Ending: ".toml", Known: f.Path(), Folders: true,
		Save: func(path string, done func(error)) {
			f.saveOver(path, func(err error) {
				done(err)
				if err == nil {
					f.saved(nil, then)
				}
			})
		},
	}.Show(f)
}

// askUnderneath asks what to keep when the file was changed by somebody else.
func (f *Files) askUnderneath(then func()) {
	path := f.Editor.Path()
	ui.Ask(f, words.T("The file has changed"),
		words.T("{path} was changed by another program since it was opened here.", path),
		ui.Answer{Text: words.T("Cancel"), Do: func() {}},
		ui.Answer{Text: words.T("Open the other version"), Do: func() { f.Open(path) }},
		ui.Answer{Text: words.T("Save under another name…"), Do: func() { f.SaveAs(then) }, Main: true},
		ui.Answer{Text: words.T("Write mine over it"), Do: func() {
			f.saveOver(path, func(err error) { f.saved(err, then) })
		}})
}

// Guard runs what would lose unsaved changes only after asking, and after a save that
// is on its way.
func (f *Files) Guard(then func()) {
	if f.saving {
		f.afterSave = append(f.afterSave, func() { f.Guard(then) })
		return
	}
	if !f.Editor.Touched() {
		then()
		return
	}
	ui.Ask(f, words.T("Unsaved changes"),
		words.T("{title} has changes that are not saved.", f.Editor.Title()),
		ui.Answer{Text: words.T("Cancel"), Do: func() {}},
		ui.Answer{Text: words.T("Don't save"), Do: then},
		ui.Answer{Text: words.T("Save"), Do: func() { f.Save(then) }, Main: true})
}

// AskClose closes the window, after asking about unsaved changes.
func (f *Files) AskClose() {
	if !f.saving {
		f.Guard(f.quit)
		return
	}
	ui.Ask(f, words.T("The design is being saved"),
		words.T("{path} is not written yet: its disk has not answered. What is not saved is kept for the next start.", f.Editor.Path()),
		ui.Answer{Text: words.T("Wait for it"), Do: func() { f.Guard(f.quit) }, Main: true},
		ui.Answer{Text: words.T("Close all the same"), Do: func() {
			f.Closing = true
			f.Window().Close()
		}})
}

func (f *Files) quit() {
	f.Closing, f.agreed = true, true
	f.Window().Close()
}
