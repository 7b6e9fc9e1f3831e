package brew

import (
	"fyne.io/fyne/v2"

	"skep/app/ui"
)

// placeLayout is the spine at the left and the steps beside it.
type placeLayout struct{ p *Place }

func (*placeLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 480) }

func (l *placeLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	edge, between, left := float32(16), float32(ui.Gap), float32(208)
	if size.Width < ui.Narrow {
		edge, between, left = 10, 8, 176
	}
	ui.Put(o[0], edge, between, left, size.Height-between)
	x := edge + left + between
	l.p.room = edge - 2 // the scroll bar stands in the margin
	ui.Put(o[1], x, between, size.Width-x-edge+l.p.room, size.Height-between)
	l.p.relayout()
}

// stepsLayout says how high the steps are together; the place puts them where
// they belong.
type stepsLayout struct{ p *Place }

func (l *stepsLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(10, l.p.tall) }
func (*stepsLayout) Layout([]fyne.CanvasObject, fyne.Size)   {}
