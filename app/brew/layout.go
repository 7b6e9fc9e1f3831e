package brew

import (
	"fyne.io/fyne/v2"

	"skep/app/ui"
	"skep/app/ui/layouts"
)

// placeLayout is the spine at the left, the steps beside it, and the beer in a line
// over them or in a column at the right: columns whose number depends on the width, which
// no container of Fyne's has.
type placeLayout struct{ p *Place }

func (*placeLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 480) }

func (l *placeLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	edge, between := layouts.Margins(size.Width)
	left := float32(208)
	if size.Width < layouts.Narrow {
		left = 176
	}
	ui.Put(o[0], edge, between, left, size.Height-between)
	x, right, top := edge+left+between, size.Width-edge, between
	l.p.room = edge - 2 // the scroll bar stands in the margin
	wide := size.Width >= wideWindow
	turned := wide != l.p.beer.wide
	l.p.beer.wide = wide
	if wide {
		ui.Put(o[2], right-beerColumn, top, beerColumn, size.Height-top)
		l.p.room = between - 2 // here it stands beside the beer
		right -= beerColumn + between
	} else {
		ui.Put(o[2], x, top, right-x, beerLine)
		top += beerLine + between
	}
	ui.Put(o[1], x, top, right-x+l.p.room, size.Height-top)
	if turned {
		l.p.Post() // the plane is drawn only where it is shown
	}
	l.p.relayout()
}
