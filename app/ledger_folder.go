package app

import (
	"path/filepath"
	"strings"

	"skep/app/ledger"
	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/words"
)

func (p *ledgerPlace) makeFolder() {
	if err := ledger.Make(p.Folder()); err != nil {
		p.note.SetText(err.Error())
		return
	}
	p.Read()
}

func (p *ledgerPlace) chooseFolder() {
	ui.OpenFolder(p.b, func(path string) {
		p.b.SetLedgerFolder(path)
		p.Read()
	})
}

// export writes what the search finds as CSV.
func (p *ledgerPlace) export() {
	var text strings.Builder
	if err := ledger.ExportCSV(&text, p.found()); err != nil {
		p.b.Warn(err.Error())
		return
	}
	ui.PathDialog{
		Title: words.T("Save as CSV"), Path: filepath.Join(ui.FolderOf(""), "skep-batches.csv"), Ending: ".csv",
		Write: func(path string) error {
			if err := savefile.Write(path, []byte(text.String())); err != nil {
				return err
			}
			p.b.Tell(words.T("Saved {{.Path}}", map[string]any{"Path": path}))
			return nil
		},
	}.Show(p.b)
}
