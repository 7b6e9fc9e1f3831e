package ferment

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/quantity"
	"skep/plotting"
)

// coursePicture is the fermentation by the hour, which tells what is under the pointer:
// Fyne's raster hears none.
type coursePicture struct {
	widget.BaseWidget
	p *Place

	title, value *ui.Caption
	raster       *canvas.Raster
	box          *canvas.Rectangle
	cursor       *canvas.Line

	wanted plotting.Size
	under  float64 // the hour that is pointed at; NaN: none
}

func newCoursePicture(p *Place) *coursePicture {
	c := &coursePicture{p: p, wanted: plotting.Size{Width: 560, Height: 620, Scale: 1}, under: math.NaN()}
	c.title = ui.NewCaption(words.T("The fermentation"), look.TitleSize, true, ui.InkFull)
	c.value = ui.NewCaption("", look.CaptionSize+1, false, ui.InkFull)
	c.value.Align, c.value.Yields = fyne.TextAlignTrailing, true
	c.raster = canvas.NewRaster(c.image)
	c.cursor = canvas.NewLine(color.Transparent)
	c.cursor.Hide()
	c.ExtendBaseWidget(c)
	return c
}

// image is what is there at once, and the right size ordered.
func (c *coursePicture) image(w, h int) image.Image {
	scale := float64(w) / math.Max(1, float64(c.raster.Size().Width))
	size := plotting.Size{Width: w, Height: h, Scale: math.Round(scale*100) / 100}
	if size != c.wanted && w > 1 && h > 1 {
		c.wanted = size
		c.p.host.Post()
	}
	if f := c.p.shown; f != nil && f.image != nil {
		return f.image
	}
	return image.NewRGBA(image.Rect(0, 0, 1, 1))
}

// clear takes the picture away: the design is refused.
func (c *coursePicture) clear() {
	c.under = math.NaN()
	c.cursor.Hide()
	c.value.SetTexts(ui.NoNumber, ui.NoNumber)
	c.raster.Refresh()
}

func (c *coursePicture) show(*frame) {
	c.say()
	c.raster.Refresh()
}

// say writes the course's end, or what is under the pointer, beside the title.
func (c *coursePicture) say() {
	f := c.p.shown
	if f == nil || f.batch == nil {
		return
	}
	say, b := c.p.host.Say(), f.batch
	if !math.IsNaN(c.under) {
		i := int(math.Round(c.under))
		if i >= 0 && i < len(b.After.GravitySG) {
			c.value.SetTexts(words.T("at {hour}: {gravity}, {rate} g a litre and hour", say.Format(quantity.Hours, float64(i)), c.p.host.Say().Band(quantity.Gravity, b.After.GravitySG[i]), c.p.host.Say().PlainNumber(math.Round(100*b.After.CO2RateGPerLH[i].Mid)/100)),
				words.T("{hour}: {gravity}", say.Format(quantity.Hours, float64(i)), say.Format(quantity.Gravity, b.After.GravitySG[i].Mid)))
			return
		}
	}
	end := c.p.host.Say().Band(quantity.Gravity, b.After.FinalGravitySG)
	c.value.SetTexts(words.T("ends at {gravity}, {strength}", end, c.p.host.Say().Band(quantity.Strength, b.After.StrengthPct)), end)
}

var (
	_ desktop.Hoverable = (*coursePicture)(nil)
	_ fyne.Accessible   = (*coursePicture)(nil)
)

func (c *coursePicture) MouseIn(e *desktop.MouseEvent)    { c.point(e.Position) }
func (c *coursePicture) MouseMoved(e *desktop.MouseEvent) { c.point(e.Position) }
func (c *coursePicture) MouseOut() {
	c.under = math.NaN()
	c.cursor.Hide()
	c.say()
}

func (c *coursePicture) point(at fyne.Position) {
	f := c.p.shown
	c.under = math.NaN()
	if f == nil || f.image == nil {
		return
	}
	l := &f.layout
	at = at.Subtract(c.raster.Position())
	if x := float64(at.X) * l.Size.Scale; x >= l.Left && x <= l.Right {
		c.under = math.Max(math.Round(l.HourAt(x)), 0)
	}
	c.cursor.Hidden = math.IsNaN(c.under)
	if !c.cursor.Hidden {
		from := c.raster.Position()
		x := from.X + at.X
		c.cursor.Position1 = fyne.NewPos(x, from.Y+float32(l.GravityTop/l.Size.Scale))
		c.cursor.Position2 = fyne.NewPos(x, from.Y+float32(l.RateBottom/l.Size.Scale))
	}
	c.cursor.Refresh()
	c.say()
}

// AccessibilityLabel says the course in words.
func (c *coursePicture) AccessibilityLabel() string {
	f := c.p.shown
	if f == nil || f.batch == nil {
		return c.title.Text
	}
	band := func(v calc.Band) string { return c.p.host.Say().Band(quantity.Hours, v) }
	return words.T("The fermentation by the hour: {value}. Height after {height}, honey window from {opens} to {closes}, finished after {finished}.", c.value.Text, band(f.batch.After.HeightHours), band(f.batch.After.WindowHours[0]), band(f.batch.After.WindowHours[1]), band(f.batch.After.FinishedHours))
}

// AccessibilityRole is text.
func (c *coursePicture) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

func (c *coursePicture) CreateRenderer() fyne.WidgetRenderer {
	c.box = canvas.NewRectangle(color.Transparent)
	c.box.CornerRadius, c.box.StrokeWidth = 8, 1.5
	r := &coursePictureRenderer{c}
	r.Refresh()
	return r
}

type coursePictureRenderer struct{ c *coursePicture }

func (r *coursePictureRenderer) Layout(size fyne.Size) {
	c := r.c
	const inset = float32(13)
	c.box.Resize(size)
	title := c.title.MinSize()
	ui.Put(c.title, inset, inset-2, title.Width, title.Height)
	x := inset + title.Width + 10
	ui.Put(c.value, x, inset, size.Width-x-inset, title.Height)
	top := inset + title.Height + 4
	ui.Put(c.raster, inset-4, top, size.Width-2*inset+8, size.Height-top-inset+6)
}

func (r *coursePictureRenderer) MinSize() fyne.Size { return fyne.NewSize(300, 260) }

func (r *coursePictureRenderer) Refresh() {
	p := ui.PaletteOf(r.c.Theme())
	r.c.box.FillColor, r.c.box.StrokeColor = p.Panel, p.PanelBorder
	r.c.cursor.StrokeColor, r.c.cursor.StrokeWidth = p.Quiet, 1
	r.c.box.Refresh()
	r.c.raster.Refresh()
}

func (r *coursePictureRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.c.box, r.c.raster, r.c.cursor, r.c.title, r.c.value}
}
func (r *coursePictureRenderer) Destroy() {}
