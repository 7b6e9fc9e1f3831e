package yeasts

import (
	"path/filepath"

	"fyne.io/fyne/v2"

	"skep/app/compare"
	"skep/app/ui/filedialog"
	"skep/app/words"
)

// compared are the strains as shown, in the brew's own order; none until all
// have their numbers.
func (y *Place) compared() []compare.Strain {
	strains := make([]compare.Strain, len(y.Shown))
	for i := range y.Shown {
		s := &y.Shown[i]
		if s.curves.TemperatureC == nil {
			return nil
		}
		strains[i] = compare.Strain{Prediction: s.Prediction, LowPct: s.Yeast.AttenuationLowPct, HighPct: s.Yeast.AttenuationHighPct, Difference: s.Difference}
	}
	return strains
}

// copyText puts the table on the clipboard as plain text.
func (y *Place) copyText() {
	strains := y.compared()
	if strains == nil {
		y.host.Warn(words.T("The numbers are still being worked out: try again in a moment"))
		return
	}
	fyne.CurrentApp().Clipboard().SetContent(compare.Text(y.host.Say().Formatter, y.host.Title(), strains))
	y.host.ShowMessage(words.T("The table is on the clipboard as plain text"))
}

// saveCSV asks for a file's name and writes the table to it, in the units of
// the design file.
func (y *Place) saveCSV() {
	strains := y.compared()
	if strains == nil {
		y.host.Warn(words.T("The numbers are still being worked out: try again in a moment"))
		return
	}
	name := filedialog.FileName(y.host.Title()) + "-yeasts.csv"
	filedialog.Save{
		Title: words.T("Save the table as"), Path: filepath.Join(filedialog.FolderOf(y.host.Path()), name), Ending: ".csv",
		Text: compare.CSV(strains),
	}.Show(y.host)
}
