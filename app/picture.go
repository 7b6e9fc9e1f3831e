package app

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/quantity"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
)

// picture is one of the four: its name and value as text, the drawing below.
// Dragging in the drawing moves the mash rest; the rest's lever does the same
// from the keyboard.
type picture struct {
	widget.BaseWidget
	b       *bench
	outcome calc.Outcome

	title, value *caption
	raster       *canvas.Raster
	box          *canvas.Rectangle

	wanted  plotting.Size // what the screen asked for last
	dragged bool
}

func newPicture(b *bench, o calc.Outcome) *picture {
	p := &picture{b: b, outcome: o, wanted: plotting.Size{Width: 300, Height: 220, Scale: 1}}
	p.title = newCaption(outcomeName(o), look.TitleSize, true, inkFull)
	p.value = newCaption("", look.TextSize, false, inkFull)
	p.value.align = fyne.TextAlignTrailing
	p.value.yields = true
	p.raster = canvas.NewRaster(p.image)
	p.ExtendBaseWidget(p)
	return p
}

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

// outcomeKey is the number's name as the commands have it.
func outcomeKey(o calc.Outcome) string {
	switch o {
	case calc.FinalGravity:
		return "final_gravity_sg"
	case calc.Strength:
		return "strength_pct"
	case calc.Dryness:
		return "dryness"
	}
	return "body"
}

func outcomeKind(o calc.Outcome) quantity.Kind {
	switch o {
	case calc.FinalGravity:
		return quantity.Gravity
	case calc.Strength:
		return quantity.Strength
	}
	return quantity.Index
}

// image is asked by the canvas for so many pixels: what was drawn last is
// given at once, stretched if need be, and a drawing of the right size is
// ordered.
func (p *picture) image(w, h int) image.Image {
	scale := float64(w) / math.Max(1, float64(p.raster.Size().Width))
	size := plotting.Size{Width: w, Height: h, Scale: math.Round(scale*100) / 100}
	if size != p.wanted && w > 1 && h > 1 {
		p.wanted = size
		p.b.post()
	}
	if img := p.b.painter.Image(int(p.outcome)); img != nil {
		return img
	}
	return image.NewRGBA(image.Rect(0, 0, 1, 1))
}

func (p *picture) show(f *frame) {
	k, v := outcomeKind(p.outcome), f.prediction.Four()[p.outcome]
	p.value.SetTexts(p.b.bandText(k, v), words.T("{{.Mid}} ({{.Range}})", map[string]any{
		"Mid": p.b.say.Number(k, v.Mid), "Range": p.b.say.Number(k, v.Low) + "–" + p.b.say.Number(k, v.High)}))
	p.raster.Refresh()
}

// bandText is a band as people read it: the middle, then how sure.
func (b *bench) bandText(k quantity.Kind, v calc.Band) string {
	return words.T("{{.Mid}}   ({{.Low}} to {{.High}})", map[string]any{
		"Mid": b.say.Number(k, v.Mid), "Low": b.say.Number(k, v.Low), "High": b.say.Number(k, v.High),
	})
}

// moveTo sets the mash rest to the temperature under a place in the picture.
func (p *picture) moveTo(at fyne.Position) {
	l, ok := p.b.painter.Layout(int(p.outcome))
	if !ok || p.b.taste.levers.rest.Locked() {
		return
	}
	x := float64(at.X-p.raster.Position().X) * l.Size.Scale
	t := math.Round(l.TemperatureAt(x)*10) / 10
	t = math.Min(math.Max(t, calc.RestLowC), calc.RestHighC)
	p.b.moving(words.T("rest temperature"), holdRest, func(d *design.Design) {
		d.Mash.Rest[p.b.taste.restIndex(d)].TemperatureC = t
	})
}

func (p *picture) Dragged(e *fyne.DragEvent) {
	p.dragged = true
	p.moveTo(e.Position)
}

func (p *picture) DragEnd() {
	if p.dragged {
		p.dragged = false
		p.b.ended()
	}
}

func (p *picture) Tapped(e *fyne.PointEvent) {
	if e.Position.Y < p.raster.Position().Y {
		p.b.explain(outcomeKey(p.outcome))
		return
	}
	p.moveTo(e.Position)
	p.b.ended()
}

var (
	_ fyne.Draggable  = (*picture)(nil)
	_ fyne.Tappable   = (*picture)(nil)
	_ fyne.Accessible = (*picture)(nil)
)

func (p *picture) AccessibilityLabel() string {
	return words.T("{{.Name}} against the mash rest: {{.Value}}", map[string]any{"Name": p.title.text, "Value": p.value.text})
}
func (p *picture) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

func (p *picture) CreateRenderer() fyne.WidgetRenderer {
	p.box = canvas.NewRectangle(color.Transparent)
	p.box.CornerRadius = 8
	p.box.StrokeWidth = 1.5
	r := &pictureRenderer{p}
	r.Refresh()
	return r
}

type pictureRenderer struct{ p *picture }

func (r *pictureRenderer) Layout(size fyne.Size) {
	p := r.p
	inset := float32(14)
	if size.Width < 280 {
		inset = 9
	}
	p.box.Resize(size)
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

func (r *pictureRenderer) MinSize() fyne.Size { return fyne.NewSize(190, 150) }

func (r *pictureRenderer) Refresh() {
	c := paletteOf(r.p.Theme())
	r.p.box.FillColor, r.p.box.StrokeColor = c.Panel, c.PanelBorder
	r.p.box.Refresh()
	r.p.raster.Refresh()
}

func (r *pictureRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.p.box, r.p.raster, r.p.title, r.p.value}
}
func (r *pictureRenderer) Destroy() {}
