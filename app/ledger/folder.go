package ledger

import (
	"path/filepath"
	"strings"

	"skep/app/batches"
	"skep/app/ui"
	"skep/app/ui/filedialog"
	"skep/app/words"
)

func (p *Place) makeFolder() {
	folder := p.Folder()
	p.host.Write(folder, folder, func() error { return batches.Make(folder) }, func(err error) {
		if err != nil {
			p.note.SetText(ui.SentenceOf(p.host.Say().Why(err)))
			return
		}
		p.Read()
	})
}

func (p *Place) chooseFolder() {
	filedialog.OpenFolder(p.host, p.Folder(), func(path string) {
		p.host.SetLedgerFolder(path)
		p.Read()
	})
}

// Export writes what the search finds as CSV.
func (p *Place) Export() {
	var text strings.Builder
	if err := batches.ExportCSV(&text, p.Found()); err != nil {
		p.host.Warn(ui.SentenceOf(p.host.Say().Why(err)))
		return
	}
	filedialog.Save{
		Title: words.T("Save as CSV"), Path: filepath.Join(filedialog.FolderOf(""), "skep-batches.csv"), Ending: ".csv",
		Text: []byte(text.String()),
	}.Show(p.host)
}
