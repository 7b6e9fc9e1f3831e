package filedialog

import (
	"path/filepath"
	"strings"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/words"
)

// Save asks where to write a file, and writes it: the toolkit's own
// dialog opens, and so empties, the file before there is anything to write.
type Save struct {
	Title, Path string
	Ending      string // that a name without one gets
	Known       string // a file that need not be asked about; empty: none
	Folders     bool   // with a button to look for the folder
	Text        []byte // what is written, beside the window; an error stays in the dialog
	// Save is there in the place of Text where more is to be done than writing a
	// file; it hands over what came of it.
	Save func(path string, then func(error))
}

// Show asks.
func (p Save) Show(h ui.Host) {
	entry := ui.NewEntry(h)
	entry.Name = p.Title
	entry.SetText(p.Path)
	entry.Rest = p.Path
	note := widget.NewLabel("")
	note.Wrapping = fyne.TextWrapWord
	var d *dialog.CustomDialog
	busy := false // a file is being written
	wanted := func() bool { return false }
	done := func(path string, lost savefile.Lost, err error) {
		busy = false
		switch {
		case err != nil && wanted():
			note.SetText(h.Say().Why(err))
		case err != nil:
			h.Warn(h.Say().Why(err))
		default:
			if wanted() {
				d.Hide()
			}
			if p.Save == nil {
				h.SaySaved(path, lost)
			}
		}
	}
	write := func(path string) {
		if p.Save != nil {
			p.Save(path, func(err error) { done(path, savefile.Lost{}, err) })
			return
		}
		var lost savefile.Lost
		h.Write(filepath.Dir(path), path, func() (err error) {
			lost, err = savefile.WriteOver(path, p.Text)
			return err
		}, func(err error) { done(path, lost, err) })
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
		busy, wanted = true, ui.Wanted(h)
		h.Disk().Ask(filepath.Dir(path), words.T("Reading {file}…", filepath.Dir(path)), func() func() {
			full, err := filepath.Abs(path)
			if err != nil {
				full = path
			}
			_, missing := savefile.Lstat(full)
			return func() {
				over := words.T("{path} is there already. Press Save again to write over it.", full)
				switch {
				case !wanted():
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
	ok := ui.NewButton(words.T("Save"), save)
	ok.Importance = widget.HighImportance
	var folder fyne.CanvasObject
	if p.Folders {
		folder = ui.NewButton(words.T("Folder…"), func() {
			OpenFolder(h, filepath.Dir(entry.Text), func(dir string) {
				entry.SetText(filepath.Join(dir, filepath.Base(entry.Text)))
				ui.Focus(h, entry)
				selectName(entry)
			})
		})
	}
	d = dialog.NewCustomWithoutButtons(p.Title, container.NewVBox(container.NewBorder(nil, nil, nil, folder, entry), note), h.Window())
	d.SetButtons([]fyne.CanvasObject{ui.NewButton(words.T("Cancel"), d.Hide), ok})
	d.Resize(fyne.NewSize(640, 220))
	entry.Leave = d.Hide
	ui.ShowModal(h, d, d.Hide)
	ui.Focus(h, entry)
	selectName(entry)
}

// selectName selects a path's last name without its ending, which is what one changes,
// as Shift and the arrow do: the toolkit's field has no other way.
func selectName(e *ui.Entry) {
	folder, name := filepath.Split(e.Text)
	if i := strings.IndexByte(name, '.'); i > 0 {
		name = name[:i]
	}
	e.CursorColumn = utf8.RuneCountInString(folder)
	shift := &fyne.KeyEvent{Name: desktop.KeyShiftLeft}
	e.KeyDown(shift)
	for range utf8.RuneCountInString(name) {
		e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	e.KeyUp(shift)
}
