package app

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// panel is a quiet box on the paper with something in it.
type panel struct {
	widget.BaseWidget
	content fyne.CanvasObject
	inset   float32
}

func newPanel(content fyne.CanvasObject, inset float32) *panel {
	p := &panel{content: content, inset: inset}
	p.ExtendBaseWidget(p)
	return p
}

func (p *panel) CreateRenderer() fyne.WidgetRenderer {
	box := canvas.NewRectangle(color.Transparent)
	box.CornerRadius = 8
	box.StrokeWidth = 1.5
	r := &panelRenderer{p: p, box: box}
	r.Refresh()
	return r
}

type panelRenderer struct {
	p   *panel
	box *canvas.Rectangle
}

func (r *panelRenderer) Layout(size fyne.Size) {
	r.box.Resize(size)
	r.p.content.Move(fyne.NewPos(r.p.inset, r.p.inset))
	r.p.content.Resize(size.SubtractWidthHeight(2*r.p.inset, 2*r.p.inset))
}

func (r *panelRenderer) MinSize() fyne.Size {
	return r.p.content.MinSize().AddWidthHeight(2*r.p.inset, 2*r.p.inset)
}

func (r *panelRenderer) Refresh() {
	c := paletteOf(r.p.Theme())
	r.box.FillColor, r.box.StrokeColor = c.Panel, c.PanelBorder
	r.box.Refresh()
}

func (r *panelRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.box, r.p.content}
}
func (r *panelRenderer) Destroy() {}
