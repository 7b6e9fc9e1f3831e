package taste

import (
	"fyne.io/fyne/v2"

	"skep/app/ui"
	"skep/app/ui/layouts"
)

// divide is the composition of the Taste place: levers, pictures over the sentence,
// numbers over the honey window.
func divide(size fyne.Size) []layouts.Strip {
	left, right := float32(284), float32(288)
	bottom := float32(76) // the sentence takes three lines, with a kept state beside it
	if size.Width < layouts.Narrow {
		left, right, bottom = 252, 226, 92 // four
	}
	if wide := size.Width - 1500; wide > 0 {
		right += min(wide*0.45, 320) // the plane uses the room of a wide window
		left += min(wide*0.1, 56)
	}
	return []layouts.Strip{{Width: left, Heights: []float32{0}}, {Heights: []float32{0, bottom}}, {Width: right, Heights: []float32{0, bottom}}}
}

// leverColumn stacks the levers with even room between them and puts what
// comes last at the bottom. The spacers of Fyne's box grow without end in a high window.
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
		ui.Put(c, 0, y, size.Width, h)
		y += h + between
	}
}
