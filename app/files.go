package app

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"skep/app/editor"
	"skep/app/journal"
	"skep/app/words"
	"skep/assets"
	"skep/calc/design"
)

// open reads a design file in place of the present design, whose changes the
// person has agreed to lose or has saved.
func (b *bench) open(path string) bool {
	findings, err := b.editor.Open(path)
	if err != nil {
		b.status.warn(err.Error())
		return false
	}
	b.taste.opened()
	b.ledger.relearn()
	b.remember(path)
	switch {
	case b.editor.ReadOnly() != "":
		b.status.warn(b.editor.ReadOnly())
	case len(findings) > 0:
		b.status.warn(moreFindings(findings))
	default:
		b.status.tell(words.T("Opened {{.Path}}", map[string]any{"Path": path}))
	}
	b.changed()
	if busy := b.keeper.Busy(); busy != nil {
		b.askBusy(busy)
	}
	return true
}

// moreFindings is the first remark on a file, and that there are others.
func moreFindings(findings []design.Finding) string {
	text := findings[0].String()
	if n := len(findings) - 1; n > 0 {
		text += " " + words.N("(and {{.Count}} more; skep check lists them)", n, map[string]any{"Count": n})
	}
	return text
}

// reopen is open for the file of the last time: one that is gone is no error.
func (b *bench) reopen(path string) {
	if _, err := os.Stat(path); err == nil {
		b.open(path)
	}
}

func (b *bench) remember(path string) {
	if full, err := filepath.Abs(path); err == nil {
		path = full
	}
	b.prefs.last = path
	b.prefs.save()
}

// demo opens a demonstration as an unsaved copy.
func (b *bench) demo(name string) {
	src, err := assets.Demo(name)
	if err == nil {
		err = b.editor.Replace(name, src)
	}
	if err != nil {
		b.status.warn(err.Error())
		return
	}
	b.taste.opened()
	b.ledger.relearn()
	b.prefs.last = ""
	b.prefs.save()
	b.status.tell(words.T("A copy of a Gate Field design: change it as you like, it has no file yet"))
	b.changed()
}

// askNew, askOpen and the demos first ask about unsaved changes.
func (b *bench) askNew() { b.guard(func() { b.demo(assets.DemoMiddle) }) }

func (b *bench) askDemo(name string) { b.guard(func() { b.demo(name) }) }

func (b *bench) askOpen() {
	b.guard(func() {
		d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
			if err != nil {
				b.status.warn(err.Error())
				return
			}
			if r == nil {
				return // thought better of it
			}
			path := r.URI().Path()
			_ = r.Close() // only the path is wanted: reading is savefile's
			b.open(path)
		}, b.window)
		d.SetFilter(storage.NewExtensionFileFilter([]string{".toml"}))
		if folder := b.folder(); folder != nil {
			d.SetLocation(folder)
		}
		d.Show() // first: a file dialog can't be resized before
		d.Resize(fyne.NewSize(820, 560))
	})
}

// folder is where the design's file lies, or the person's home.
func (b *bench) folder() fyne.ListableURI {
	dir := filepath.Dir(b.editor.Path())
	if b.editor.Path() == "" {
		home, err := os.UserHomeDir()
		if err != nil {
			return nil
		}
		dir = home
	}
	u, err := storage.ListerForURI(storage.NewFileURI(dir))
	if err != nil {
		return nil
	}
	return u
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
	err := b.keeper.Save()
	var busy *journal.Busy
	switch {
	case errors.As(err, &busy):
		b.askElsewhere(busy, then)
	case errors.Is(err, editor.ErrNoPath):
		b.saveAs(then)
	case errors.Is(err, editor.ErrChangedUnderneath):
		b.askUnderneath(then)
	default:
		b.saved(err, then)
	}
}

func (b *bench) saved(err error, then func()) {
	if err != nil {
		b.status.warn(err.Error())
		return
	}
	b.remember(b.editor.Path())
	b.ledger.relearn()
	b.status.tell(words.T("Saved {{.Path}}", map[string]any{"Path": b.editor.Path()}))
	if then != nil {
		then()
	}
}

// saveAs asks for a name. It is a dialog of our own: the toolkit's opens, and
// so empties, the file before we have anything to write.
func (b *bench) saveAs(then func()) {
	path := b.editor.Path()
	if path == "" {
		dir := "."
		if f := b.folder(); f != nil {
			dir = f.Path()
		}
		path = filepath.Join(dir, fileName(b.editor.Title()))
	}
	entry := widget.NewEntry()
	entry.SetText(path)
	note := widget.NewLabel("")
	note.Wrapping = fyne.TextWrapWord
	folder := widget.NewButton(words.T("Folder…"), func() {
		d := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
			if err == nil && u != nil {
				entry.SetText(filepath.Join(u.Path(), filepath.Base(entry.Text)))
			}
		}, b.window)
		d.Show() // first: a file dialog can't be resized before
		d.Resize(fyne.NewSize(820, 560))
	})
	var d *dialog.CustomDialog
	write := func() {
		path := strings.TrimSpace(entry.Text)
		if path == "" {
			note.SetText(words.T("A file needs a name"))
			return
		}
		if filepath.Ext(path) == "" {
			path += ".toml"
		}
		_, err := os.Lstat(path)
		over := words.T("{{.Path}} is there already. Press Save again to write over it.", map[string]any{"Path": path})
		if err == nil && path != b.editor.Path() && note.Text != over {
			note.SetText(over)
			return
		}
		if err := b.keeper.SaveOver(path); err != nil {
			note.SetText(err.Error())
			return
		}
		d.Hide()
		b.saved(nil, then)
	}
	entry.OnSubmitted = func(string) { write() }
	saveButton := widget.NewButton(words.T("Save"), write)
	saveButton.Importance = widget.HighImportance
	cancel := widget.NewButton(words.T("Cancel"), func() { d.Hide() })
	d = dialog.NewCustomWithoutButtons(words.T("Save the design as"),
		container.NewVBox(container.NewBorder(nil, nil, nil, folder, entry), note), b.window)
	d.SetButtons([]fyne.CanvasObject{cancel, saveButton})
	d.Resize(fyne.NewSize(640, 220))
	d.Show()
	b.window.Canvas().Focus(entry)
}

// fileName makes a design's title into a file's name.
func fileName(title string) string {
	keep := func(r rune) rune {
		switch {
		case r == ' ' || r == '_' || r == '/' || r == '\\':
			return '-'
		case strings.ContainsRune(`<>:"|?*`, r) || r < ' ':
			return -1
		}
		return r
	}
	name := strings.Trim(strings.Map(keep, strings.ToLower(title)), "-. ")
	if name == "" {
		name = "design"
	}
	return name + ".toml"
}

// askUnderneath asks what to keep when the file was changed by somebody else.
func (b *bench) askUnderneath(then func()) {
	path := b.editor.Path()
	b.ask(words.T("The file has changed"),
		words.T("{{.Path}} was changed by another program since it was opened here.", map[string]any{"Path": path}),
		button{words.T("Cancel"), func() {}, false},
		button{words.T("Take theirs"), func() { b.open(path) }, false},
		button{words.T("Save beside"), func() { b.saveAs(then) }, false},
		button{words.T("Keep mine"), func() { b.saved(b.keeper.SaveOver(path), then) }, true})
}

// guard runs what would lose unsaved changes only after asking.
func (b *bench) guard(then func()) {
	if !b.editor.Touched() {
		then()
		return
	}
	b.ask(words.T("Unsaved changes"),
		words.T("{{.Title}} has changes that are not saved.", map[string]any{"Title": b.editor.Title()}),
		button{words.T("Cancel"), func() {}, false},
		button{words.T("Don't save"), then, false},
		button{words.T("Save"), func() { b.save(then) }, true})
}

// askClose closes the window, after asking about unsaved changes.
func (b *bench) askClose() { b.guard(b.quit) }

func (b *bench) quit() {
	b.closing, b.agreed = true, true
	b.window.Close()
}

// button is one answer of a question.
type button struct {
	text string
	do   func()
	main bool
}

// ask puts a question with its answers; Escape is the first of them.
func (b *bench) ask(title, text string, answers ...button) {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons(title, label, b.window)
	var buttons []fyne.CanvasObject
	var focus fyne.Focusable
	for _, a := range answers {
		w := widget.NewButton(a.text, func() { d.Hide(); a.do() })
		if a.main {
			w.Importance = widget.HighImportance
			focus = w
		}
		buttons = append(buttons, w)
	}
	d.SetButtons(buttons)
	d.Resize(fyne.NewSize(520, 180))
	d.Show()
	if focus != nil {
		b.window.Canvas().Focus(focus)
	}
}
