package layouts

import "fyne.io/fyne/v2"

// Table is a table in a dialog: the first column takes what the others leave.
// Fyne's grid has columns of one width, its form two of them.
type Table struct{ Columns int }

// PairHeight is that of a row.
const PairHeight = 20

func (l *Table) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(400, float32((len(o)+l.Columns-1)/l.Columns)*PairHeight)
}

func (l *Table) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const inset = 8
	width := size.Width - 2*inset - 12
	rest := width * 0.3
	first := width - rest*float32(l.Columns-1)
	for i, c := range o {
		y := float32(i/l.Columns) * PairHeight
		if col := i % l.Columns; col > 0 {
			put(c, inset+first+float32(col-1)*rest, y, rest-4, PairHeight)
			continue
		}
		put(c, inset, y, first-6, PairHeight)
	}
}
