package brew

import (
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
	r    *tableRow
	name string
	off  bool // there is no other place

	hovered, dragging bool
}

const gripWide = 20

func newRowGrip(r *tableRow) *rowGrip {
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
	if g.off != off {
		g.off = off
		g.Refresh()
	}
}

// Dragged shows where the row would go.
func (g *rowGrip) Dragged(e *fyne.DragEvent) {
	if !g.off {
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
	if g.off {
		return desktop.DefaultCursor
	}
	return desktop.VResizeCursor
}

// MouseIn says what the grip is for.
func (g *rowGrip) MouseIn(*desktop.MouseEvent) {
	g.hovered = true
	if !g.off {
		g.r.t.p.host.Hint(words.T("drag to move {name}", g.name))
	}
	g.Refresh()
}

// MouseMoved does nothing.
func (g *rowGrip) MouseMoved(*desktop.MouseEvent) {}

// MouseOut takes the words away.
func (g *rowGrip) MouseOut() {
	g.hovered = false
	g.r.t.p.host.Hint("")
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
	case r.g.off:
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
func (t *stepTable) aim(r *tableRow, y float32) {
	by := 0
	for _, other := range t.rows[:t.n] {
		middle := other.up.Position().Y + other.up.Size().Height/2
		switch {
		case other.k < r.k && y < middle:
			by--
		case other.k > r.k && y > middle:
			by++
		}
	}
	for by != 0 && !t.mayGo(r.at, by) {
		by -= sign(by)
	}
	t.by = by
	if by == 0 {
		t.line.Clear()
		return
	}
	to := t.rows[r.k+by]
	edge := to.top - rowApart/2
	if by > 0 {
		edge = to.bottom + rowApart/2
	}
	left, last := t.title.Position().X, to.out
	t.line.Show(left, edge, last.Position().X+last.Size().Width-left, ui.PaletteOf(t.title.Theme()).Accent)
}

// dropHere moves row r to where the line is.
func (t *stepTable) dropHere(r *tableRow) {
	t.line.Clear()
	if by := t.by; by != 0 {
		t.by = 0
		t.move(r.at, by)
	}
}

func sign(n int) int {
	if n < 0 {
		return -1
	}
	return 1
}
