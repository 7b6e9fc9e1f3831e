package ui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"skep/app/savefile"
	"skep/app/words"
)

// PopUp shows a menu under an object.
func PopUp(h Host, under fyne.CanvasObject, items ...*fyne.MenuItem) {
	widget.ShowPopUpMenuAtRelativePosition(fyne.NewMenu("", items...), h.Window().Canvas(), fyne.NewPos(0, under.Size().Height), under)
}

// Answer is one answer of a question.
type Answer struct {
	Text string
	Do   func()
	Main bool // has the keyboard, so it must lose nothing
}

// Ask puts a question with its answers; Escape is the first of them. Fyne's confirmation
// has two answers and no Escape.
func Ask(h Host, title, text string, answers ...Answer) {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons(title, label, h.Window())
	var buttons []fyne.CanvasObject
	var focus fyne.Focusable
	for _, a := range answers {
		w := NewButton(a.Text, func() { d.Hide(); a.Do() })
		if a.Main {
			w.Importance = widget.HighImportance
		}
		if a.Main {
			focus = w
		}
		buttons = append(buttons, w)
	}
	d.SetButtons(buttons)
	d.Resize(fyne.NewSize(520, 180))
	first := answers[0]
	ShowModal(h, d, func() { d.Hide(); first.Do() })
	if focus != nil {
		Focus(h, focus)
	}
}

// PathDialog asks where to write a file, and writes it: the toolkit's own
// dialog opens, and so empties, the file before there is anything to write.
type PathDialog struct {
	Title, Path string
	Ending      string // that a name without one gets
	Known       string // a file that need not be asked about; empty: none
	Folders     bool   // with a button to look for the folder
	// Write writes the file, beside the window. An error stays in the dialog.
	Write func(path string) error
	// Save is there in the place of Write where more is to be done than writing a
	// file; it hands over what came of it.
	Save func(path string, then func(error))
}

// Show asks.
func (p PathDialog) Show(h Host) {
	entry := NewEntry(h)
	entry.Name = p.Title
	entry.SetText(p.Path)
	entry.Rest = p.Path
	note := widget.NewLabel("")
	note.Wrapping = fyne.TextWrapWord
	var d *dialog.CustomDialog
	busy := false // a file is being written
	still := func() bool { return false }
	done := func(path string, err error) {
		busy = false
		switch {
		case err != nil && still():
			note.SetText(h.Say().Why(err))
		case err != nil:
			h.Warn(h.Say().Why(err))
		default:
			if still() {
				d.Hide()
			}
			if p.Write != nil {
				h.Tell(words.T("Saved {path}", path))
			}
		}
	}
	write := func(path string) {
		if p.Save != nil {
			p.Save(path, func(err error) { done(path, err) })
			return
		}
		h.Write(filepath.Dir(path), path, func() error { return p.Write(path) }, func(err error) { done(path, err) })
	}
	save := func() {
		path := strings.TrimSpace(entry.Text)
		if busy || path == "" {
			if path == "" {
				note.SetText(words.T("A file needs a name"))
			}
			return
		}
		if filepath.Ext(path) == "" {
			path += p.Ending
		}
		busy, still = true, Wanted(h)
		h.Disk().Ask(filepath.Dir(path), words.T("Reading {file}…", filepath.Dir(path)), func() func() {
			full, err := filepath.Abs(path)
			if err != nil {
				full = path
			}
			_, missing := savefile.Lstat(full)
			return func() {
				over := words.T("{path} is there already. Press Save again to write over it.", full)
				switch {
				case !still():
					busy = false
				case missing == nil && full != p.Known && note.Text != over:
					busy = false
					note.SetText(over)
				default:
					write(full)
				}
			}
		})
	}
	entry.OnSubmitted = func(string) { save() }
	ok := NewButton(words.T("Save"), save)
	ok.Importance = widget.HighImportance
	var folder fyne.CanvasObject
	if p.Folders {
		folder = NewButton(words.T("Folder…"), func() {
			OpenFolder(h, filepath.Dir(entry.Text), func(dir string) { entry.SetText(filepath.Join(dir, filepath.Base(entry.Text))) })
		})
	}
	d = dialog.NewCustomWithoutButtons(p.Title, container.NewVBox(container.NewBorder(nil, nil, nil, folder, entry), note), h.Window())
	d.SetButtons([]fyne.CanvasObject{NewButton(words.T("Cancel"), d.Hide), ok})
	d.Resize(fyne.NewSize(640, 220))
	entry.Leave = d.Hide
	ShowModal(h, d, d.Hide)
	Focus(h, entry)
}
