package app

import (
	"image"
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	table "skep/calc/lever"
	"skep/plotting"
)

// framed is what every picture against the mash rest is made of: its name and
// value as text, the drawing below, a quiet box around. Dragging in the
// drawing moves the mash rest; the rest's lever does the same from the keys.
type framed struct {
	widget.BaseWidget
	b       ui.Host
	outcome calc.Outcome
	painter *plotting.Painter

	title, value *ui.Caption
	raster       *canvas.Raster

	wanted  plotting.Size // what the screen asked for last
	dragged bool
	blank   bool // the design is refused: nothing is drawn
}

func (p *framed) init(b ui.Host, painter *plotting.Painter, o calc.Outcome, valueSize float32) {
	p.b, p.painter, p.outcome = b, painter, o
	p.wanted = plotting.Size{Width: 300, Height: 220, Scale: 1}
	p.title = ui.NewCaption(outcomeName(o), look.TitleSize, true, ui.InkFull)
	p.value = ui.NewCaption("", valueSize, false, ui.InkFull)
	p.value.Align = fyne.TextAlignTrailing
	p.value.Yields = true
	p.raster = canvas.NewRaster(p.image)
}

// image is asked by the canvas for so many pixels: what was drawn last is
// given at once, stretched if need be, and a drawing of the right size is
// ordered.
func (p *framed) image(w, h int) image.Image {
	scale := float64(w) / math.Max(1, float64(p.raster.Size().Width))
	size := plotting.Size{Width: w, Height: h, Scale: math.Round(scale*100) / 100}
	if size != p.wanted && w > 1 && h > 1 {
		p.wanted = size
		p.b.Post()
	}
	if img := p.painter.Image(int(p.outcome)); img != nil && !p.blank {
		return img
	}
	return image.NewRGBA(image.Rect(0, 0, 1, 1))
}

// moveTo sets the mash rest to the temperature under a place in the picture.
func (p *framed) moveTo(at fyne.Position) {
	l, ok := p.painter.Layout(int(p.outcome))
	held := p.b.Design().Taste.Hold
	if !ok || p.blank || slices.Contains(held, table.Rest.String()) {
		return
	}
	x := float64(at.X-p.raster.Position().X) * l.Size.Scale
	which, t := p.b.At(), l.TemperatureAt(x)
	ui.Move(p.b, p.b.Say().Sentence(table.Rest.Change()), table.Rest.String(), func(d *design.Design) {
		low, high := table.Rest.Limits(d, which)
		step := table.Rest.Steps().Step
		t := math.Min(math.Max(math.Round(t/step)*step, low), high)
		which.Change(d, table.Rest, func(s *calc.Setting) { table.Rest.Put(s, math.Round(t*1e6)/1e6) })
	})
}

func (p *framed) Dragged(e *fyne.DragEvent) {
	p.dragged = true
	p.moveTo(e.Position)
}

func (p *framed) DragEnd() {
	if p.dragged {
		p.dragged = false
		p.b.EndMove()
	}
}

// clear takes the numbers away: the design is refused.
func (p *framed) clear() {
	p.blank = true
	p.value.SetTexts(ui.NoNumber, ui.NoNumber)
	p.raster.Refresh()
}

// AccessibilityRole is text.
func (p *framed) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

func (p *framed) CreateRenderer() fyne.WidgetRenderer {
	box := canvas.NewRectangle(color.Transparent)
	box.CornerRadius = 8
	box.StrokeWidth = 1.5
	r := &framedRenderer{p, box}
	r.Refresh()
	return r
}

type framedRenderer struct {
	p   *framed
	box *canvas.Rectangle
}

func (r *framedRenderer) Layout(size fyne.Size) {
	p := r.p
	inset := float32(14)
	if size.Width < 280 {
		inset = 9
	}
	r.box.Resize(size)
	title := p.title.MinSize()
	p.title.Move(fyne.NewPos(inset, inset-2))
	p.title.Resize(title)
	x := inset + title.Width + 8
	p.value.Move(fyne.NewPos(x, inset-2))
	p.value.Resize(fyne.NewSize(size.Width-x-inset, title.Height))
	top := inset + title.Height + 4
	p.raster.Move(fyne.NewPos(inset-4, top))
	p.raster.Resize(fyne.NewSize(size.Width-2*inset+8, size.Height-top-inset+6))
}

func (r *framedRenderer) MinSize() fyne.Size { return fyne.NewSize(190, 150) }

func (r *framedRenderer) Refresh() {
	c := ui.PaletteOf(r.p.Theme())
	r.box.FillColor, r.box.StrokeColor = c.Panel, c.PanelBorder
	r.box.Refresh()
	r.p.raster.Refresh()
}

func (r *framedRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.box, r.p.raster, r.p.title, r.p.value}
}
func (r *framedRenderer) Destroy() {}
