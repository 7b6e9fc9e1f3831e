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

// texted is a cell that says how wide its text is, whatever room it has.
type texted interface{ TextWidth() float32 }

func (l *Table) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const inset, gap, most = 8, 6, 0.3
	width := size.Width - 2*inset - 12
	// A column of figures takes what its longest needs, the names have the rest.
	columns := make([]float32, l.Columns)
	for i, c := range o {
		if t, ok := c.(texted); ok && i%l.Columns > 0 {
			columns[i%l.Columns] = max(columns[i%l.Columns], min(t.TextWidth()+2*gap, most*width))
		}
	}
	columns[0] = width
	for _, w := range columns[1:] {
		columns[0] -= w
	}
	x := float32(inset)
	for col, w := range columns {
		for i := col; i < len(o); i += l.Columns {
			put(o[i], x, float32(i/l.Columns)*PairHeight, w-gap, PairHeight)
		}
		x += w
	}
}
