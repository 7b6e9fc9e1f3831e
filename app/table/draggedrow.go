package table

import (
	"cmp"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
)

// rowGrip is what a row of a table is dragged by. A line shows where it would
// go; the arrows beside it and Alt with an arrow key do the same without a
// pointer, so it takes no keyboard.
type rowGrip struct {
	widget.BaseWidget
	r    *Row
	Name string
	Off  bool // there is no other place

	hovered, dragging bool
}

const gripWide = 20

func newRowGrip(r *Row) *rowGrip {
	g := &rowGrip{r: r}
	g.ExtendBaseWidget(g)
	return g
}

var (
	_ fyne.Draggable     = (*rowGrip)(nil)
	_ desktop.Hoverable  = (*rowGrip)(nil)
	_ desktop.Cursorable = (*rowGrip)(nil)
)

func (g *rowGrip) setOff(off bool) {
	if g.Off != off {
		g.Off = off
		g.Refresh()
	}
}

// Dragged shows where the row would go.
func (g *rowGrip) Dragged(e *fyne.DragEvent) {
	if !g.Off {
		g.dragging = true
		g.r.t.aim(g.r, g.Position().Y+e.Position.Y)
	}
}

// DragEnd puts the row there.
func (g *rowGrip) DragEnd() {
	if g.dragging {
		g.dragging = false
		g.r.t.dropHere(g.r)
		g.Refresh()
	}
}

// Cursor is that of something that goes up and down.
func (g *rowGrip) Cursor() desktop.Cursor {
	if g.Off {
		return desktop.DefaultCursor
	}
	return desktop.VResizeCursor
}

// MouseIn says what the grip is for.
func (g *rowGrip) MouseIn(*desktop.MouseEvent) {
	g.hovered = true
	if !g.Off {
		g.r.t.p.Host.Hint(words.T("drag to move {name}", g.Name))
	}
	g.Refresh()
}

// MouseMoved does nothing.
func (g *rowGrip) MouseMoved(*desktop.MouseEvent) {}

// MouseOut takes the words away.
func (g *rowGrip) MouseOut() {
	g.hovered = false
	g.r.t.p.Host.Hint("")
	g.Refresh()
}

// CreateRenderer is the toolkit's.
func (g *rowGrip) CreateRenderer() fyne.WidgetRenderer {
	r := &gripRenderer{g: g, dots: canvas.NewImageFromResource(look.IconGrip())}
	r.dots.FillMode = canvas.ImageFillContain
	return r
}

type gripRenderer struct {
	g    *rowGrip
	dots *canvas.Image
}

func (r *gripRenderer) Layout(s fyne.Size) {
	const side = 16
	r.dots.Move(fyne.NewPos((s.Width-side)/2, (s.Height-side)/2))
	r.dots.Resize(fyne.NewSquareSize(side))
}

func (r *gripRenderer) MinSize() fyne.Size { return fyne.NewSize(gripWide, ui.ChoiceHeight) }

func (r *gripRenderer) Refresh() {
	r.dots.Translucency = 0.45
	switch {
	case r.g.Off:
		r.dots.Translucency = 1
	case r.g.hovered || r.g.dragging:
		r.dots.Translucency = 0
	}
	r.dots.Refresh()
}

func (r *gripRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.dots} }
func (r *gripRenderer) Destroy()                     {}

// aim turns the height of the pointer into so many places, up or down, that row
// r may move.
func (t *Table) aim(r *Row, y float32) {
	by := 0
	for _, other := range t.Rows[:t.N] {
		middle := other.Up.Position().Y + other.Up.Size().Height/2
		switch {
		case other.K < r.K && y < middle:
			by--
		case other.K > r.K && y > middle:
			by++
		}
	}
	for by != 0 && !t.MayGo(r.At, by) {
		by -= cmp.Compare(by, 0)
	}
	t.by = by
	if by == 0 {
		t.Line.Clear()
		return
	}
	to := t.Rows[r.K+by]
	edge := to.Top - rowApart/2
	if by > 0 {
		edge = to.Bottom + rowApart/2
	}
	left, last := t.title.Position().X, to.Out
	t.Line.Show(left, edge, last.Position().X+last.Size().Width-left, ui.PaletteOf(t.title.Theme()).Accent)
}

// dropHere moves row r to where the line is.
func (t *Table) dropHere(r *Row) {
	t.Line.Clear()
	if by := t.by; by != 0 {
		t.by = 0
		t.Move(r.At, by)
	}
}
