// Package layouts has the layouts that Fyne lacks, and with each why.
//
// A container's objects and its size come in, their places go out. It must not know a
// widget, a place, nor what is laid out.
package layouts

import "fyne.io/fyne/v2"

// Gap is the room between panels; below Narrow a place's side columns draw in.
const (
	Gap    = 12
	Narrow = 1180
)

// Margins is the room at the edge of a place and between its panels, in a window of
// this width.
func Margins(width float32) (edge, between float32) {
	if width < Narrow {
		return 10, 8
	}
	return 16, Gap
}

// Strip is a column of a place, or what stands in it from top to bottom; 0 takes what
// the others leave.
type Strip struct {
	Width   float32
	Heights []float32
}

// Columns lays a place out in columns of panels. Fyne's border has the same shape, but
// gives the sides what they ask for; these draw in with the window.
type Columns struct {
	Least  fyne.Size
	Divide func(size fyne.Size) []Strip
}

// MinSize is the least at which the place can be used.
func (l *Columns) MinSize([]fyne.CanvasObject) fyne.Size { return l.Least }

// Layout puts the objects column by column.
func (l *Columns) Layout(o []fyne.CanvasObject, size fyne.Size) {
	edge, between := Margins(size.Width)
	strips := l.Divide(size)
	widths := make([]float32, len(strips))
	for i, s := range strips {
		widths[i] = s.Width
	}
	share(widths, size.Width-2*edge, between)
	x := edge
	for i, s := range strips {
		y := between
		share(s.Heights, size.Height-between, between)
		for _, h := range s.Heights {
			put(o[0], x, y, widths[i], h)
			o = o[1:]
			y += h + between
		}
		x += widths[i] + between
	}
}

// share gives the lengths that are 0 what the others leave of a room.
func share(lengths []float32, room, between float32) {
	open := 0
	room += between
	for _, l := range lengths {
		room -= l + between
		if l == 0 {
			open++
		}
	}
	for i, l := range lengths {
		if l == 0 {
			lengths[i] = room / float32(open)
		}
	}
}

// Even is cells of one size in so many columns. Fyne's grid takes its gap from the
// theme, which is less than panels need between them.
type Even struct{ Columns int }

// MinSize is small: the place says what it needs.
func (l *Even) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 320) }

// Layout fills row by row.
func (l *Even) Layout(o []fyne.CanvasObject, size fyne.Size) {
	between := float32(Gap)
	if size.Width < float32(280*l.Columns) {
		between = 8
	}
	rows := (len(o) + l.Columns - 1) / l.Columns
	cell := fyne.NewSize((size.Width+between)/float32(l.Columns)-between, (size.Height+between)/float32(rows)-between)
	for i, c := range o {
		put(c, float32(i%l.Columns)*(cell.Width+between), float32(i/l.Columns)*(cell.Height+between), cell.Width, cell.Height)
	}
}

// Stack is parts below each other at a width that stands. Fyne's box asks a text that
// wraps for its height before it knows its width.
type Stack struct{ Width, Between float32 }

func (l *Stack) high(o fyne.CanvasObject) float32 {
	if p, ok := o.(interface{ HeightFor(width float32) float32 }); ok {
		return p.HeightFor(l.Width)
	}
	return o.MinSize().Height
}

// MinSize is all that shows.
func (l *Stack) MinSize(o []fyne.CanvasObject) fyne.Size {
	h := float32(0)
	for _, c := range o {
		if high := l.high(c); c.Visible() && high > 0 {
			h += high + l.Between
		}
	}
	return fyne.NewSize(l.Width, h)
}

// Layout leaves no room for what does not show.
func (l *Stack) Layout(o []fyne.CanvasObject, _ fyne.Size) {
	y := float32(0)
	for _, c := range o {
		high := l.high(c)
		if !c.Visible() || high == 0 {
			continue
		}
		put(c, 0, y, l.Width, high)
		y += high + l.Between
	}
}

// ByHand is for parts that know their height only at a width: what puts them says how
// high they came out. Fyne's container without a layout is as high as its highest part.
type ByHand struct{ Tall *float32 }

// MinSize is as high as they came out.
func (l *ByHand) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(10, *l.Tall) }

// Layout leaves them where they were put.
func (*ByHand) Layout([]fyne.CanvasObject, fyne.Size) {}

func put(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}
