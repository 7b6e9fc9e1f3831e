package taste

import (
	"fyne.io/fyne/v2"

	"skep/app/ui"
)

// placeLayout is the composition of the Taste place: levers, pictures over the
// sentence, numbers over the honey window.
type placeLayout struct{}

func (*placeLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(960, 550) }

func (*placeLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	left, right, edge, between := float32(284), float32(288), float32(16), float32(ui.Gap)
	if size.Width < ui.Narrow {
		left, right, edge, between = 252, 226, 10, 8
	}
	if wide := size.Width - 1500; wide > 0 {
		right += min(wide*0.45, 320) // the plane uses the room of a wide window
		left += min(wide*0.1, 56)
	}
	bottom := float32(76) // the sentence takes three lines, with a kept state beside it
	if size.Width < ui.Narrow {
		bottom = 92 // four
	}
	put := func(i int, x, y, w, h float32) {
		o[i].Move(fyne.NewPos(x, y))
		o[i].Resize(fyne.NewSize(w, h))
	}
	top, height := between, size.Height-between
	put(0, edge, top, left, height)
	x := edge + left + between
	w := size.Width - x - between - right - edge
	put(1, x, top, w, height-bottom-between)
	put(2, x, top+height-bottom, w, bottom)
	x += w + between
	put(3, x, top, right, height-bottom-between)
	put(4, x, top+height-bottom, right, bottom)
}

// fourLayout is two by two.
type fourLayout struct{}

func (*fourLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 320) }

func (*fourLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	between := float32(ui.Gap)
	if size.Width < 560 {
		between = 8
	}
	cell := fyne.NewSize((size.Width-between)/2, (size.Height-between)/2)
	for i, c := range o {
		c.Move(fyne.NewPos(float32(i%2)*(cell.Width+between), float32(i/2)*(cell.Height+between)))
		c.Resize(cell)
	}
}

// leverColumn stacks the levers with even room between them and puts what
// comes last at the bottom.
type leverColumn struct{}

func (*leverColumn) MinSize(o []fyne.CanvasObject) fyne.Size {
	s := fyne.NewSize(210, 0)
	for _, c := range o {
		s.Height += c.MinSize().Height
	}
	return s
}

func (*leverColumn) Layout(o []fyne.CanvasObject, size fyne.Size) {
	taken := float32(0)
	for _, c := range o {
		taken += c.MinSize().Height
	}
	between := min(max((size.Height-taken)/float32(len(o)-1), 0), 18)
	y := float32(0)
	for i, c := range o {
		h := c.MinSize().Height
		if i == len(o)-1 {
			y = size.Height - h
		}
		c.Move(fyne.NewPos(0, y))
		c.Resize(fyne.NewSize(size.Width, h))
		y += h + between
	}
}

// keptRoom is the line that leads from a demonstration to one's own design. Its room is
// kept when it goes, which it does with the first move of a lever, until another design
// is opened: no lever moves from under the pointer.
type keptRoom struct{ kept bool }

func (l *keptRoom) MinSize(o []fyne.CanvasObject) fyne.Size {
	if !l.kept {
		return fyne.Size{}
	}
	return o[0].MinSize()
}

func (l *keptRoom) Layout(o []fyne.CanvasObject, size fyne.Size) {
	ui.Put(o[0], 0, 0, size.Width, size.Height)
}
