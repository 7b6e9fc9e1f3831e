package app

import (
	"fyne.io/fyne/v2"

	"skep/app/ui"
)

// benchLayout is bar, place and status line from top to bottom, and the brew day over
// all but the last.
type benchLayout struct{}

// MinSize is a window on a small screen, or on a large one drawn twice as large: below
// what a place needs it scrolls.
func (*benchLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(640, 480) }

func (*benchLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	last := len(o) - 1
	day := o[last-1] // over bar and places
	day.Move(fyne.NewPos(0, 0))
	day.Resize(fyne.NewSize(size.Width, size.Height-ui.FootHeight))
	o[0].Resize(fyne.NewSize(size.Width, ui.BarHeight))
	o[0].Move(fyne.NewPos(0, 0))
	for _, place := range o[1 : last-1] {
		place.Move(fyne.NewPos(0, ui.BarHeight))
		place.Resize(fyne.NewSize(size.Width, size.Height-ui.BarHeight-ui.FootHeight))
	}
	o[last].Move(fyne.NewPos(0, size.Height-ui.FootHeight))
	o[last].Resize(fyne.NewSize(size.Width, ui.FootHeight))
}
