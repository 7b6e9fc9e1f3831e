package plane

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"skep/app/look"
	"skep/plotting"
)

const leastSide = 120

// parts are the picture, and what lies over it: what takes the pointer or the
// focus itself, and a text that is wrapped.
type parts struct {
	p       *Plane
	raster  *canvas.Raster
	focus   *canvas.Rectangle
	note    [3]*canvas.Text
	zoom    *link
	objects []fyne.CanvasObject
}

// CreateRenderer is for Fyne.
func (p *Plane) CreateRenderer() fyne.WidgetRenderer {
	t := &parts{p: p, raster: canvas.NewRaster(p.image), focus: canvas.NewRectangle(color.Transparent)}
	t.zoom = newLink(func() { p.toggleZoom() }, p.hint)
	t.objects = []fyne.CanvasObject{t.raster}
	for i := range t.note {
		t.note[i] = canvas.NewText("", color.Black)
		t.objects = append(t.objects, t.note[i])
	}
	t.objects = append(t.objects, t.zoom, t.focus)
	p.parts = t
	t.Refresh()
	return t
}

// Objects are in drawing order.
func (t *parts) Objects() []fyne.CanvasObject { return t.objects }

// Destroy forgets the drawing.
func (t *parts) Destroy() {
	if t.p.sliding != nil {
		t.p.sliding.Stop()
		t.p.sliding = nil
	}
	if t.p.parts == t {
		t.p.parts = nil
	}
}

// MinSize leaves room for the drawing to be read.
func (t *parts) MinSize() fyne.Size { return fyne.NewSize(leastSide, leastSide+plotting.LandingFoot) }

// Layout gives the plane all of the widget but the row of words below.
func (t *parts) Layout(s fyne.Size) {
	p := t.p
	p.size = fyne.NewSize(max(s.Width, 0), max(s.Height-plotting.LandingFoot, 0))
	t.raster.Resize(s)
	t.focus.Move(fyne.NewPos(-3, -3))
	t.focus.Resize(p.size.AddWidthHeight(6, 6))
	p.replace(true)
}

// Refresh takes up the colours and words of the moment.
func (t *parts) Refresh() {
	p := t.p
	p.palette = look.PaletteOf(p.Theme(), fyne.CurrentApp().Settings().ThemeVariant())
	clear(p.sizes)
	p.speak()
	t.focus.StrokeWidth, t.focus.CornerRadius = 2, 4
	t.zoom.Refresh()
	p.replace(true)
}

// write changes a text only where it differs: each is a texture of its own.
func write(t *canvas.Text, text string, c color.NRGBA, bold bool, size float32) {
	if t.Text == text && t.Color == color.Color(c) && t.TextStyle.Bold == bold && t.TextSize == size {
		return
	}
	t.Text, t.Color, t.TextStyle.Bold, t.TextSize = text, c, bold, size
	t.Refresh()
}

func (t *parts) place(o *canvas.Text, text string, at fyne.Position, c color.NRGBA) {
	write(o, text, c, false, look.CaptionSize)
	o.Move(at)
	o.Resize(t.p.measure(text))
	show(o, text != "")
}

func show(o fyne.CanvasObject, visible bool) {
	if visible == o.Visible() {
		return
	}
	if visible {
		o.Show()
	} else {
		o.Hide()
	}
}

func put(c *canvas.Circle, at fyne.Position, radius float32) {
	c.Move(at.SubtractXY(radius, radius))
	c.Resize(fyne.NewSquareSize(2 * radius))
}
