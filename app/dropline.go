package app

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// dropLine shows between two rows where a dragged one would go. It is clear till
// then, not hidden: the toolkit does not redraw for something it has not seen yet.
type dropLine struct{ *canvas.Rectangle }

const dropLineHigh = 3

func newDropLine() dropLine {
	l := dropLine{canvas.NewRectangle(color.Transparent)}
	l.CornerRadius = dropLineHigh / 2.0
	return l
}

// show puts the line's middle at a height.
func (l dropLine) show(x, y, width float32, accent color.Color) {
	l.FillColor = accent
	l.Move(fyne.NewPos(x, y-dropLineHigh/2.0))
	l.Resize(fyne.NewSize(width, dropLineHigh))
	l.Refresh()
}

func (l dropLine) clear() {
	l.FillColor = color.Transparent
	l.Refresh()
}
