package app

import (
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"skep/app/compare"
	"skep/app/savefile"
	"skep/app/words"
)

// compared are the strains as shown, in the brew's own order; none until all
// have their numbers.
func (y *yeastsPlace) compared() []compare.Strain {
	strains := make([]compare.Strain, len(y.shown))
	for i := range y.shown {
		s := &y.shown[i]
		if s.curves.TemperatureC == nil {
			return nil
		}
		strains[i] = compare.Strain{Prediction: s.prediction, LowPct: s.yeast.AttenuationLowPct, HighPct: s.yeast.AttenuationHighPct}
	}
	return strains
}

// copyText puts the table on the clipboard as plain text.
func (y *yeastsPlace) copyText() {
	strains := y.compared()
	if strains == nil {
		y.b.status.warn(words.T("The numbers are still being worked out: try again in a moment"))
		return
	}
	y.b.app.Clipboard().SetContent(compare.Text(y.b.say, words.T, y.b.editor.Title(), strains))
	y.b.status.tell(words.T("The table is on the clipboard as plain text"))
}

// saveCSV asks for a file's name and writes the table to it, in the units of
// the design file.
func (y *yeastsPlace) saveCSV() {
	strains := y.compared()
	if strains == nil {
		y.b.status.warn(words.T("The numbers are still being worked out: try again in a moment"))
		return
	}
	dir := "."
	if f := y.b.folder(); f != nil {
		dir = f.Path()
	}
	name := strings.TrimSuffix(fileName(y.b.editor.Title()), ".toml") + "-yeasts.csv"
	y.b.askPath(words.T("Save the table as"), filepath.Join(dir, name), ".csv", func(path string) error {
		if err := savefile.Write(path, compare.CSV(strains)); err != nil {
			return err
		}
		y.b.status.tell(words.T("Saved {{.Path}}", map[string]any{"Path": path}))
		return nil
	})
}

// askPath asks where to write something that is no design, and writes it. An
// existing file is asked about; an error stays in the dialog.
func (b *bench) askPath(title, path, ending string, write func(path string) error) {
	entry := widget.NewEntry()
	entry.SetText(path)
	note := widget.NewLabel("")
	note.Wrapping = fyne.TextWrapWord
	var d *dialog.CustomDialog
	save := func() {
		path := strings.TrimSpace(entry.Text)
		if path == "" {
			note.SetText(words.T("A file needs a name"))
			return
		}
		if filepath.Ext(path) == "" {
			path += ending
		}
		over := words.T("{{.Path}} is there already. Press Save again to write over it.", map[string]any{"Path": path})
		if _, err := os.Lstat(path); err == nil && note.Text != over {
			note.SetText(over)
			return
		}
		if err := write(path); err != nil {
			note.SetText(err.Error())
			return
		}
		d.Hide()
	}
	entry.OnSubmitted = func(string) { save() }
	ok := widget.NewButton(words.T("Save"), save)
	ok.Importance = widget.HighImportance
	d = dialog.NewCustomWithoutButtons(title, container.NewVBox(entry, note), b.window)
	d.SetButtons([]fyne.CanvasObject{widget.NewButton(words.T("Cancel"), func() { d.Hide() }), ok})
	d.Resize(fyne.NewSize(640, 200))
	d.Show()
	b.window.Canvas().Focus(entry)
}
