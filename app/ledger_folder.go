package app

import (
	"os"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"skep/app/ledger"
	"skep/app/savefile"
	"skep/app/words"
)

func (p *ledgerPlace) makeFolder() {
	if err := ledger.Make(p.folder()); err != nil {
		p.note.SetText(err.Error())
		return
	}
	p.read()
}

func (p *ledgerPlace) chooseFolder() {
	d := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
		if err != nil || u == nil {
			return
		}
		p.b.prefs.ledger = u.Path()
		p.b.prefs.save()
		p.read()
	}, p.b.window)
	d.Show()
	d.Resize(fyne.NewSize(820, 560))
}

// export writes what the search finds as CSV.
func (p *ledgerPlace) export() {
	var text strings.Builder
	if err := ledger.ExportCSV(&text, p.found()); err != nil {
		p.b.status.warn(err.Error())
		return
	}
	entry := widget.NewEntry()
	home, _ := os.UserHomeDir()
	entry.SetText(home + string(os.PathSeparator) + "skep-batches.csv")
	d := dialog.NewCustomConfirm(words.T("Save as CSV"), words.T("Save"), words.T("Cancel"), entry, func(ok bool) {
		if !ok {
			return
		}
		p.writeCSV(strings.TrimSpace(entry.Text), []byte(text.String()))
	}, p.b.window)
	d.Resize(fyne.NewSize(560, 160))
	d.Show()
}

// writeCSV writes the text, and asks before it takes another file's place.
func (p *ledgerPlace) writeCSV(path string, text []byte) {
	write := func() {
		if err := savefile.Write(path, text); err != nil {
			p.b.status.warn(err.Error())
			return
		}
		p.b.status.tell(words.T("Saved {{.Path}}", map[string]any{"Path": path}))
	}
	if _, err := os.Lstat(path); err != nil {
		write()
		return
	}
	p.b.ask(words.T("The file is there already"), words.T("{{.Path}} would be written over.", map[string]any{"Path": path}),
		button{words.T("Cancel"), func() {}, true},
		button{words.T("Write over it"), write, false})
}
