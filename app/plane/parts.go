package plane

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"skep/app/look"
)

// Sizes in Fyne's units.
const (
	pointRadius = 6.5 // the design
	pinRadius   = 10.5
	ghostRadius = 6.5
	badgeRadius = 8.5 // an answer's number
	wordInset   = 7   // words inside the plane's frame
	foot        = 24  // row of words below the plane
	leastSide   = 120

	mostArrows = 8 // more levers than there are
	mostWays   = 6
)

// badge is a numbered ring at the place where an answer lands, or beside it
// with a thread to the place, where something else stands there.
type badge struct {
	thread *canvas.Line
	dot    *canvas.Circle
	ring   *canvas.Circle
	number *canvas.Text
	at     fyne.Position
	spoke  int // side to which it stood last
}

// parts are the things drawn over the picture: canvas primitives, so that a
// pin under the pointer redraws nothing else.
type parts struct {
	p                       *Plane
	raster                  *canvas.Raster
	frame, focus            *canvas.Rectangle
	dry, sweet, full, light *canvas.Text
	ghostName               *canvas.Text
	note                    [3]*canvas.Text
	names                   [mostArrows]*canvas.Text
	badges                  [mostWays]badge
	point                   *canvas.Circle
	free, across, down      *canvas.Line
	ring, chosen            *canvas.Circle
	zoom                    *link
	objects                 []fyne.CanvasObject
}

// CreateRenderer is for Fyne.
func (p *Plane) CreateRenderer() fyne.WidgetRenderer {
	text := func() *canvas.Text { return canvas.NewText("", color.Black) }
	t := &parts{p: p, raster: canvas.NewRaster(p.image),
		frame: canvas.NewRectangle(color.Transparent), focus: canvas.NewRectangle(color.Transparent),
		dry: text(), sweet: text(), full: text(), light: text(), ghostName: text(),
		point: canvas.NewCircle(color.Black), ring: canvas.NewCircle(color.Transparent), chosen: canvas.NewCircle(color.Transparent),
		free: canvas.NewLine(color.Black), across: canvas.NewLine(color.Black), down: canvas.NewLine(color.Black)}
	t.zoom = newLink(func() { p.toggleZoom() }, p.hint)
	t.objects = []fyne.CanvasObject{t.raster, t.frame, t.dry, t.sweet, t.full, t.light, t.ghostName}
	for i := range t.note {
		t.note[i] = text()
		t.objects = append(t.objects, t.note[i])
	}
	for i := range t.names {
		t.names[i] = text()
		t.objects = append(t.objects, t.names[i])
	}
	t.objects = append(t.objects, t.free, t.point)
	for i := range t.badges {
		b := &t.badges[i]
		*b = badge{thread: canvas.NewLine(color.Black), dot: canvas.NewCircle(color.Black), ring: canvas.NewCircle(color.Transparent), number: text()}
		t.objects = append(t.objects, b.thread, b.dot, b.ring, b.number)
	}
	t.objects = append(t.objects, t.across, t.down, t.ring, t.chosen, t.zoom, t.focus)
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
func (t *parts) MinSize() fyne.Size { return fyne.NewSize(leastSide, leastSide+foot) }

// Layout gives the plane all of the widget but the row of words below.
func (t *parts) Layout(s fyne.Size) {
	p := t.p
	p.frame = box{0, 0, max(s.Width, 0), max(s.Height-foot, 0)}
	size := fyne.NewSize(p.frame.x1, p.frame.y1)
	t.raster.Resize(size)
	t.frame.Resize(size)
	t.focus.Move(fyne.NewPos(-3, -3))
	t.focus.Resize(size.AddWidthHeight(6, 6))
	p.replace(true)
}

// Refresh takes up the colours and words of the moment.
func (t *parts) Refresh() {
	p := t.p
	c := look.PaletteOf(p.Theme(), fyne.CurrentApp().Settings().ThemeVariant())
	p.palette = c
	clear(p.sizes)
	p.speak()
	t.frame.StrokeColor, t.frame.StrokeWidth = c.PanelBorder, 1
	t.focus.StrokeWidth, t.focus.CornerRadius = 2, 4
	t.point.FillColor, t.point.StrokeColor, t.point.StrokeWidth = c.Accent, c.Panel, 2
	t.ring.StrokeColor, t.ring.StrokeWidth = c.Pin, 2
	t.chosen.StrokeColor, t.chosen.StrokeWidth = c.Focus, 2
	for _, l := range []*canvas.Line{t.free, t.across, t.down} {
		l.StrokeColor, l.StrokeWidth = c.Pin, 2.6
	}
	t.free.StrokeWidth = 1.6
	for i := range t.badges {
		b := &t.badges[i]
		b.thread.StrokeColor, b.thread.StrokeWidth = c.Ink, 1
		b.dot.FillColor = c.Ink
		b.ring.FillColor, b.ring.StrokeColor, b.ring.StrokeWidth = c.Panel, c.Ink, 1.4
		b.ring.Refresh()
	}
	for _, o := range []fyne.CanvasObject{t.frame, t.point, t.ring, t.chosen, t.free, t.across, t.down} {
		o.Refresh()
	}
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

func lineTo(l *canvas.Line, a, b fyne.Position) {
	if l.Position1 == a && l.Position2 == b {
		return
	}
	l.Position1, l.Position2 = a, b
	l.Refresh()
}
