package yeasts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"skep/app/look"
	"skep/app/ui"
)

func (r *strainRow) MinSize() fyne.Size { return fyne.NewSize(600, 34) }

func (r *strainRow) CreateRenderer() fyne.WidgetRenderer {
	n := &strainRowRenderer{r: r, back: canvas.NewRectangle(color.Transparent), rule: canvas.NewRectangle(color.Transparent)}
	n.back.CornerRadius = 5
	n.grip = canvas.NewImageFromResource(look.IconGrip())
	n.grip.FillMode = canvas.ImageFillContain
	n.Refresh()
	return n
}

type strainRowRenderer struct {
	r          *strainRow
	back, rule *canvas.Rectangle
	grip       *canvas.Image
}

func (n *strainRowRenderer) Layout(size fyne.Size) {
	r, g := n.r, n.r.t.geometry
	n.back.Resize(size)
	n.rule.Move(fyne.NewPos(0, -rowGap/2-0.5))
	n.rule.Resize(fyne.NewSize(size.Width, 1))
	n.grip.Move(fyne.NewPos(3, (size.Height-14)/2))
	n.grip.Resize(fyne.NewSquareSize(14))
	glyph := r.glyph.MinSize()
	r.glyph.Move(fyne.NewPos(g.glyphX, (size.Height-glyph.Height)/2))
	r.glyph.Resize(glyph)
	upper, lower := size.Height/2-15, size.Height/2+1
	put := func(c *ui.Caption, x, y, w float32) {
		c.Move(fyne.NewPos(x, y))
		c.Resize(fyne.NewSize(w, c.MinSize().Height))
	}
	put(r.name, g.nameX, upper-0.5, g.nameW)
	put(r.sub, g.nameX, lower+1, g.nameW)
	for c, cell := range r.cells {
		x, w := g.columnX[c], g.columnW[c]
		put(cell.mid, x, upper+0.5, g.midW[c])
		put(cell.difference, x+g.midW[c]+6, upper+1.5, w-g.midW[c]-8)
		put(cell.band, x, lower+1, w-4)
	}
	own, more := r.own.MinSize(), r.more.MinSize()
	r.more.Move(fyne.NewPos(size.Width-more.Width, (size.Height-more.Height)/2))
	r.more.Resize(more)
	r.own.Hidden = !g.wide
	r.own.Move(fyne.NewPos(g.actionX, (size.Height-own.Height)/2))
	r.own.Resize(own)
}

func (n *strainRowRenderer) MinSize() fyne.Size { return n.r.MinSize() }

func (n *strainRowRenderer) Refresh() {
	r := n.r
	p := ui.PaletteOf(r.Theme())
	n.back.FillColor, n.back.StrokeColor, n.back.StrokeWidth = color.Transparent, color.Transparent, 0
	lit := r.t.y.lit() == r.at || r.dragging
	if lit {
		n.back.FillColor = p.Hover
	}
	r.glyph.light(lit)
	if r.focusedNow() {
		n.back.StrokeColor, n.back.StrokeWidth = p.Focus, 2
	}
	n.rule.FillColor = p.Grid
	n.grip.Translucency = 0.45
	if r.t.sortBy != unsorted || len(r.t.y.Shown) < 2 {
		n.grip.Translucency = 0.85
	}
	n.Layout(r.Size())
	n.back.Refresh()
	n.rule.Refresh()
	n.grip.Refresh()
}

func (n *strainRowRenderer) Objects() []fyne.CanvasObject {
	r := n.r
	o := []fyne.CanvasObject{n.back, n.rule, n.grip, r.glyph, r.name, r.sub}
	for _, c := range r.cells {
		o = append(o, c.mid, c.difference, c.band)
	}
	return append(o, r.own, r.more)
}
func (n *strainRowRenderer) Destroy() {}
