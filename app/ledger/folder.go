package ledger

import (
	"path/filepath"
	"strings"

	"skep/app/batches"
	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/words"
)

func (p *Place) makeFolder() {
	if err := batches.Make(p.Folder()); err != nil {
		p.note.SetText(words.Error(err))
		return
	}
	p.Read()
}

func (p *Place) chooseFolder() {
	ui.OpenFolder(p.host, func(path string) {
		p.host.SetLedgerFolder(path)
		p.Read()
	})
}

// Export writes what the search finds as CSV.
func (p *Place) Export() {
	var text strings.Builder
	if err := batches.ExportCSV(&text, p.Found()); err != nil {
		p.host.Warn(words.Error(err))
		return
	}
	ui.PathDialog{
		Title: words.T("Save as CSV"), Path: filepath.Join(ui.FolderOf(""), "skep-batches.csv"), Ending: ".csv",
		Write: func(path string) error {
			if err := savefile.Write(path, []byte(text.String())); err != nil {
				return err
			}
			p.host.Tell(words.T("Saved {path}", path))
			return nil
		},
	}.Show(p.host)
}
