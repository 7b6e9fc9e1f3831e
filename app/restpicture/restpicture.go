// Package restpicture is the one picture against the mash rest that Taste and Yeasts
// show, as a widget. In come what the painter drew and where the pointer is; out goes
// a move of the mash rest. It must not know what the lines mean.
package restpicture

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
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	table "skep/calc/lever"
	"skep/plotting"
)

// Picture is what every picture against the mash rest is made of: its name and
// value as text, the drawing below, a quiet box around. Dragging in the
// drawing moves the mash rest, which Fyne's raster does not take; the rest's lever does the
// same from the keys.
type Picture struct {
	widget.BaseWidget
	Host    ui.Host
	Outcome calc.Outcome
	painter *plotting.Painter

	Title, Value *ui.Caption
	Raster       *canvas.Raster

	Wanted  plotting.Size // what the screen asked for last
	dragged bool
	Blank   bool // the design is refused: nothing is drawn
}

func (p *Picture) Init(b ui.Host, painter *plotting.Painter, o calc.Outcome, valueSize float32) {
	p.Host, p.painter, p.Outcome = b, painter, o
	p.Wanted = plotting.Size{Width: 300, Height: 220, Scale: 1}
	p.Title = ui.NewCaption(outcomeName(o), look.TitleSize, true, ui.InkFull)
	p.Title.Yields = true
	p.Value = ui.NewCaption("", valueSize, false, ui.InkFull)
	p.Value.Align = fyne.TextAlignTrailing
	p.Value.Yields = true
	p.Raster = canvas.NewRaster(p.image)
}

// image is asked by the canvas for so many pixels: what was drawn last is
// given at once, stretched if need be, and a drawing of the right size is
// ordered.
func (p *Picture) image(w, h int) image.Image {
	scale := float64(w) / math.Max(1, float64(p.Raster.Size().Width))
	size := plotting.Size{Width: w, Height: h, Scale: math.Round(scale*100) / 100}
	if size != p.Wanted && w > 1 && h > 1 {
		p.Wanted = size
		p.Host.Post()
	}
	if img := p.painter.Image(int(p.Outcome)); img != nil && !p.Blank {
		return img
	}
	return image.NewRGBA(image.Rect(0, 0, 1, 1))
}

// MoveTo sets the mash rest to the temperature under a place in the picture.
func (p *Picture) MoveTo(at fyne.Position) {
	l, ok := p.painter.Layout(int(p.Outcome))
	held := p.Host.Design().Taste.Hold
	if !ok || p.Blank || slices.Contains(held, table.Rest.String()) {
		return
	}
	x := float64(at.X-p.Raster.Position().X) * l.Size.Scale
	which, t := p.Host.At(), l.TemperatureAt(x)
	ui.Move(p.Host, p.Host.Say().Sentence(table.Rest.Change()), table.Rest.String(), func(d *design.Design) {
		low, high := table.Rest.Limits(d, which)
		step := table.Rest.Steps().Step
		t := math.Min(math.Max(math.Round(t/step)*step, low), high)
		which.Change(d, table.Rest, func(s *table.Setting) { table.Rest.Put(s, math.Round(t*1e6)/1e6) })
	})
}

func (p *Picture) Dragged(e *fyne.DragEvent) {
	p.dragged = true
	p.MoveTo(e.Position)
}

func (p *Picture) DragEnd() {
	if p.dragged {
		p.dragged = false
		p.Host.EndMove()
	}
}

// Clear takes the numbers away: the design is refused.
func (p *Picture) Clear() {
	p.Blank = true
	p.SetValue(ui.NoNumber, ui.NoNumber)
	p.Raster.Refresh()
}

// SetValue shows a value, or a shorter text of it, and makes room where it needs more
// than there was.
func (p *Picture) SetValue(text, short string) {
	p.Value.SetTexts(text, short)
	if p.Value.LeastWidth() > p.Value.Size().Width && p.Size().Width > 0 {
		p.Refresh()
	}
}

// AccessibilityRole is text.
func (p *Picture) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

func (p *Picture) CreateRenderer() fyne.WidgetRenderer {
	box := canvas.NewRectangle(color.Transparent)
	box.CornerRadius = 8
	box.StrokeWidth = 1.5
	r := &renderer{p, box}
	r.Refresh()
	return r
}

type renderer struct {
	p   *Picture
	box *canvas.Rectangle
}

func (r *renderer) Layout(size fyne.Size) {
	p := r.p
	inset := float32(14)
	if size.Width < 280 {
		inset = 9
	}
	r.box.Resize(size)
	title := p.Title.MinSize()
	room := size.Width - 2*inset
	// A long title is set a little smaller, and where even that leaves too little room
	// for the value it stands on a line of its own.
	title.Width = min(fyne.MeasureText(p.Title.Text, p.Title.TextSize, fyne.TextStyle{Bold: p.Title.Bold}).Width, max(room-8-p.Value.LeastWidth(), p.Title.LeastWidth()))
	value, y := room-8-title.Width, inset-2
	top := inset + title.Height + 4
	if value < p.Value.LeastWidth() {
		value, y = room, y+title.Height
		top += title.Height
		title.Width = room
	}
	p.Title.Move(fyne.NewPos(inset, inset-2))
	p.Title.Resize(title)
	p.Value.Move(fyne.NewPos(inset+room-value, y))
	p.Value.Resize(fyne.NewSize(value, title.Height))
	p.Raster.Move(fyne.NewPos(inset-4, top))
	p.Raster.Resize(fyne.NewSize(size.Width-2*inset+8, size.Height-top-inset+6))
}

func (r *renderer) MinSize() fyne.Size { return fyne.NewSize(190, 150) }

func (r *renderer) Refresh() {
	r.Layout(r.p.Size())
	c := ui.PaletteOf(r.p.Theme())
	r.box.FillColor, r.box.StrokeColor = c.Panel, c.PanelBorder
	r.box.Refresh()
	r.p.Raster.Refresh()
}

func (r *renderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.box, r.p.Raster, r.p.Title, r.p.Value}
}
func (r *renderer) Destroy() {}

// outcomeName is what a picture shows.
func outcomeName(o calc.Outcome) string {
	switch o {
	case calc.FinalGravity:
		return words.T("final gravity")
	case calc.Strength:
		return words.T("strength, % vol")
	case calc.Dryness:
		return words.T("dryness")
	}
	return words.T("body")
}
