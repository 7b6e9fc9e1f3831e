package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Panel is a quiet box on the paper with something in it. Fyne's card has neither a
// frame nor room of one's choice around what is in it.
type Panel struct {
	widget.BaseWidget
	Content fyne.CanvasObject
	inset   float32
}

// NewPanel makes a box with so much room around what is in it.
func NewPanel(content fyne.CanvasObject, inset float32) *Panel {
	p := &Panel{Content: content, inset: inset}
	p.ExtendBaseWidget(p)
	return p
}

func (p *Panel) CreateRenderer() fyne.WidgetRenderer {
	box := canvas.NewRectangle(color.Transparent)
	box.CornerRadius = 8
	box.StrokeWidth = 1.5
	r := &panelRenderer{p: p, box: box}
	r.Refresh()
	return r
}

type panelRenderer struct {
	p   *Panel
	box *canvas.Rectangle
}

func (r *panelRenderer) Layout(size fyne.Size) {
	r.box.Resize(size)
	r.p.Content.Move(fyne.NewPos(r.p.inset, r.p.inset))
	r.p.Content.Resize(size.SubtractWidthHeight(2*r.p.inset, 2*r.p.inset))
}

func (r *panelRenderer) MinSize() fyne.Size {
	return r.p.Content.MinSize().AddWidthHeight(2*r.p.inset, 2*r.p.inset)
}

func (r *panelRenderer) Refresh() {
	c := PaletteOf(r.p.Theme())
	r.box.FillColor, r.box.StrokeColor = c.Panel, c.PanelBorder
	r.box.Refresh()
}

func (r *panelRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.box, r.p.Content}
}
func (r *panelRenderer) Destroy() {}
