package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// DropLine shows between two rows where a dragged one would go. It is clear till
// then, not hidden: the toolkit does not redraw for something it has not seen yet.
type DropLine struct{ *canvas.Rectangle }

const dropLineHigh = 3

// NewDropLine makes a line that does not show yet.
func NewDropLine() DropLine {
	l := DropLine{canvas.NewRectangle(color.Transparent)}
	l.CornerRadius = dropLineHigh / 2.0
	return l
}

// Show puts the line's middle at a height.
func (l DropLine) Show(x, y, width float32, accent color.Color) {
	l.FillColor = accent
	l.Move(fyne.NewPos(x, y-dropLineHigh/2.0))
	l.Resize(fyne.NewSize(width, dropLineHigh))
	l.Refresh()
}

// Clear takes the line away.
func (l DropLine) Clear() {
	l.FillColor = color.Transparent
	l.Refresh()
}
