package app

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/quantity"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
)

// strainPicture is one of the four with all strains laid over each other.
// Pointing at a line brings its strain out; dragging moves the mash rest, as
// in the Taste place.
type strainPicture struct {
	widget.BaseWidget
	y       *yeastsPlace
	outcome calc.Outcome

	title, value *caption
	raster       *canvas.Raster
	box          *canvas.Rectangle

	wanted  plotting.Size
	dragged bool
	under   float64 // the temperature that is pointed at; NaN: none
}

func newStrainPicture(y *yeastsPlace, o calc.Outcome) *strainPicture {
	p := &strainPicture{y: y, outcome: o, wanted: plotting.Size{Width: 290, Height: 280, Scale: 1}, under: math.NaN()}
	p.title = newCaption(outcomeName(o), look.TitleSize, true, inkFull)
	p.value = newCaption("", look.CaptionSize+1, false, inkFull)
	p.value.align = fyne.TextAlignTrailing
	p.value.yields = true
	p.raster = canvas.NewRaster(p.image)
	p.ExtendBaseWidget(p)
	return p
}

// image is as in picture: what is there at once, and the right size ordered.
func (p *strainPicture) image(w, h int) image.Image {
	scale := float64(w) / math.Max(1, float64(p.raster.Size().Width))
	size := plotting.Size{Width: w, Height: h, Scale: math.Round(scale*100) / 100}
	if size != p.wanted && w > 1 && h > 1 {
		p.wanted = size
		p.y.b.post()
	}
	if img := p.y.painter.Image(int(p.outcome)); img != nil {
		return img
	}
	return image.NewRGBA(image.Rect(0, 0, 1, 1))
}

// show puts the value of the strain that is brought out, or of the brew's own,
// beside the title.
func (p *strainPicture) show() {
	p.say()
	p.raster.Refresh()
}

func (p *strainPicture) say() {
	s := p.y.spoken()
	if s == nil {
		p.value.SetText("")
		return
	}
	say, k := p.y.b.say, outcomeKind(p.outcome)
	if !math.IsNaN(p.under) {
		if v, ok := bandAt(s.curves, p.outcome, p.under); ok {
			p.value.SetText(words.T("at {{.Temperature}}  {{.Value}}", map[string]any{
				"Temperature": say.Format(quantity.Temperature, p.under), "Value": say.Number(k, v.Mid)}))
			return
		}
	}
	v := s.prediction.Four()[p.outcome]
	p.value.SetTexts(p.y.b.bandText(k, v), say.Number(k, v.Mid))
}

// bandAt reads a curve at a temperature.
func bandAt(c calc.Curves, o calc.Outcome, tempC float64) (calc.Band, bool) {
	for i := 1; i < len(c.TemperatureC); i++ {
		t0, t1 := c.TemperatureC[i-1], c.TemperatureC[i]
		if tempC < t0 || tempC > t1 || t0 == t1 {
			continue
		}
		u := (tempC - t0) / (t1 - t0)
		a, b := c.Bands[o][i-1], c.Bands[o][i]
		return calc.Band{
			Low: (1-u)*a.Low + u*b.Low, Mid: (1-u)*a.Mid + u*b.Mid, High: (1-u)*a.High + u*b.High,
		}, true
	}
	return calc.Band{}, false
}

// nearEnough is how close to a line one must point, in pixels at scale 1.
const nearEnough = 16

func (p *strainPicture) MouseIn(e *desktop.MouseEvent)    { p.point(e.Position) }
func (p *strainPicture) MouseMoved(e *desktop.MouseEvent) { p.point(e.Position) }
func (p *strainPicture) MouseOut() {
	p.under = math.NaN()
	p.y.point(-1)
	p.say()
}

// point finds the line under the pointer.
func (p *strainPicture) point(at fyne.Position) {
	l, ok := p.y.painter.Layout(int(p.outcome))
	if !ok {
		return
	}
	x := float64(at.X-p.raster.Position().X) * l.Size.Scale
	y := float64(at.Y-p.raster.Position().Y) * l.Size.Scale
	best, nearest := -1, nearEnough*l.Size.Scale
	p.under = math.NaN()
	if l.Inside(x, y) {
		t := l.TemperatureAt(x)
		for i := range p.y.shown {
			if v, ok := bandAt(p.y.shown[i].curves, p.outcome, t); ok {
				if off := math.Abs(l.PixelY(v.Mid) - y); off < nearest {
					best, nearest = i, off
				}
			}
		}
		if best >= 0 {
			p.under = math.Round(t*2) / 2
		}
	}
	p.y.point(best)
	p.say()
}

// moveTo sets the mash rest to the temperature under a place in the picture.
func (p *strainPicture) moveTo(at fyne.Position) {
	b := p.y.b
	l, ok := p.y.painter.Layout(int(p.outcome))
	if !ok || b.taste.levers.rest.Locked() {
		return
	}
	t := math.Round(l.TemperatureAt(float64(at.X-p.raster.Position().X)*l.Size.Scale)*10) / 10
	t = math.Min(math.Max(t, calc.RestLowC), calc.RestHighC)
	b.moving(words.T("rest temperature"), holdRest, func(d *design.Design) {
		d.Mash.Rest[b.taste.restIndex(d)].TemperatureC = t
	})
}

func (p *strainPicture) Dragged(e *fyne.DragEvent) {
	p.dragged = true
	p.moveTo(e.Position)
}

func (p *strainPicture) DragEnd() {
	if p.dragged {
		p.dragged = false
		p.y.b.ended()
	}
}

var (
	_ fyne.Draggable    = (*strainPicture)(nil)
	_ desktop.Hoverable = (*strainPicture)(nil)
	_ fyne.Accessible   = (*strainPicture)(nil)
)

func (p *strainPicture) AccessibilityLabel() string {
	return words.T("{{.Name}} against the mash rest, all strains: {{.Value}}", map[string]any{"Name": p.title.text, "Value": p.value.text})
}
func (p *strainPicture) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

func (p *strainPicture) CreateRenderer() fyne.WidgetRenderer {
	p.box = canvas.NewRectangle(color.Transparent)
	p.box.CornerRadius = 8
	p.box.StrokeWidth = 1.5
	r := &strainPictureRenderer{p}
	r.Refresh()
	return r
}

type strainPictureRenderer struct{ p *strainPicture }

func (r *strainPictureRenderer) Layout(size fyne.Size) {
	p := r.p
	inset := float32(13)
	if size.Width < 270 {
		inset = 9
	}
	p.box.Resize(size)
	title := p.title.MinSize()
	p.title.Move(fyne.NewPos(inset, inset-2))
	p.title.Resize(title)
	x := inset + title.Width + 8
	p.value.Move(fyne.NewPos(x, inset))
	p.value.Resize(fyne.NewSize(size.Width-x-inset, title.Height))
	top := inset + title.Height + 4
	p.raster.Move(fyne.NewPos(inset-4, top))
	p.raster.Resize(fyne.NewSize(size.Width-2*inset+8, size.Height-top-inset+6))
}

func (r *strainPictureRenderer) MinSize() fyne.Size { return fyne.NewSize(190, 150) }

func (r *strainPictureRenderer) Refresh() {
	c := paletteOf(r.p.Theme())
	r.p.box.FillColor, r.p.box.StrokeColor = c.Panel, c.PanelBorder
	r.p.box.Refresh()
	r.p.raster.Refresh()
}

func (r *strainPictureRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.p.box, r.p.raster, r.p.title, r.p.value}
}
func (r *strainPictureRenderer) Destroy() {}
