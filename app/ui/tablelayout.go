package ui

import (
	"fyne.io/fyne/v2"

	"skep/app/look"
)

// Cell is a text of a table in a dialog.
func Cell(text string, right bool) *Caption {
	c := NewCaption(text, look.CaptionSize+1, false, InkQuiet)
	if right {
		c.Ink, c.Align = InkFull, fyne.TextAlignTrailing
	}
	c.Yields = true
	return c
}

// TableLayout is a table in a dialog: the first column takes what the others leave.
// Fyne's grid has columns of one width, its form two of them.
type TableLayout struct{ Columns int }

const PairHeight = 20

func (l *TableLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(400, float32((len(o)+l.Columns-1)/l.Columns)*PairHeight)
}

func (l *TableLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const inset = 8
	width := size.Width - 2*inset - 12
	rest := width * 0.3
	first := width - rest*float32(l.Columns-1)
	for i, c := range o {
		y := float32(i/l.Columns) * PairHeight
		if col := i % l.Columns; col > 0 {
			c.Move(fyne.NewPos(inset+first+float32(col-1)*rest, y))
			c.Resize(fyne.NewSize(rest-4, PairHeight))
			continue
		}
		c.Move(fyne.NewPos(inset, y))
		c.Resize(fyne.NewSize(first-6, PairHeight))
	}
}
