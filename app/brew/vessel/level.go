package vessel

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/quantity"
	"skep/calc/recipe"
)

// Level is the mash vessel with what stands in it, so that one sees whether
// grain and liquor fit. Fyne's progress bar lies, and has one level.
type Level struct {
	widget.BaseWidget
	host             ui.Host
	vesselL, mashL   float64
	liquorL          float64
	volume, capacity string
}

// NewLevel is one with nothing in it yet.
func NewLevel(host ui.Host) *Level {
	l := &Level{host: host}
	l.ExtendBaseWidget(l)
	return l
}

// Fill shows a design's mash in its vessel.
func (l *Level) Fill(d *design.Design) {
	plan := recipe.Liquor(*d)
	l.vesselL, l.mashL, l.liquorL = d.Kit.VesselL, plan.MashLevelL, plan.MashLiquor
	l.volume = l.host.Say().Format(quantity.Volume, l.mashL)
	l.capacity = l.host.Say().Format(quantity.Volume, l.vesselL)
	l.Refresh()
}

var _ fyne.Accessible = (*Level)(nil)

// AccessibilityLabel says what is drawn.
func (l *Level) AccessibilityLabel() string {
	return words.T("the mash stands at {level} in a vessel of {vessel}", l.volume, l.capacity)
}

// AccessibilityRole is text.
func (l *Level) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

const levelWide, levelHigh = 210, 116

// Objects is itself.
func (l *Level) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{l} }

// Wide is the width it needs.
func (l *Level) Wide() float32 { return levelWide }

// Lay puts it somewhere and says how high it is.
func (l *Level) Lay(x, y, width float32) float32 {
	ui.Put(l, x, y, min(levelWide, width), levelHigh)
	return levelHigh
}

func (l *Level) MinSize() fyne.Size { return fyne.NewSize(levelWide, levelHigh) }

func (l *Level) CreateRenderer() fyne.WidgetRenderer {
	r := &levelRenderer{l: l}
	for range 5 {
		r.bars = append(r.bars, canvas.NewRectangle(color.Transparent))
	}
	r.rim, r.top = canvas.NewText("", color.Black), canvas.NewText("", color.Black)
	r.Refresh()
	return r
}

// levelRenderer draws the fill, its surface, and the vessel's two sides and
// bottom.
type levelRenderer struct {
	l        *Level
	bars     []*canvas.Rectangle // fill, surface, left, right, bottom
	rim, top *canvas.Text
}

func (r *levelRenderer) MinSize() fyne.Size { return r.l.MinSize() }
func (r *levelRenderer) Destroy()           {}

func (r *levelRenderer) Layout(size fyne.Size) {
	const wide, head = 96, 18
	high := size.Height - head - 4
	share := float32(0)
	if r.l.vesselL > 0 {
		share = float32(r.l.mashL / r.l.vesselL)
	}
	over := share > 1
	y := head + high*(1-min(share, 1))
	ui.Put(r.bars[0], 2, y, wide-4, head+high-y)
	ui.Put(r.bars[1], 2, y, wide-4, 2)
	ui.Put(r.bars[2], 0, head, 2, high)
	ui.Put(r.bars[3], wide-2, head, 2, high)
	ui.Put(r.bars[4], 0, head+high, wide, 2)
	rim, top := r.rim.MinSize(), r.top.MinSize()
	rimY, topY := float32(head)-rim.Height/2, y-top.Height/2
	if topY < rimY+rim.Height && !over {
		topY = rimY + rim.Height
	}
	if over {
		topY = rimY + rim.Height
	}
	ui.Put(r.rim, wide+8, rimY, rim.Width, rim.Height)
	ui.Put(r.top, wide+8, min(topY, size.Height-top.Height), top.Width, top.Height)
}

func (r *levelRenderer) Refresh() {
	p := ui.PaletteOf(r.l.Theme())
	over := r.l.mashL > r.l.vesselL
	r.bars[0].FillColor, r.bars[1].FillColor = p.AccentSoft, p.Accent
	r.top.Color = p.Ink
	if over {
		r.bars[1].FillColor, r.top.Color = p.Warning, p.Warning
	}
	for _, b := range r.bars[2:] {
		b.FillColor = p.Track
	}
	r.rim.Text = words.T("vessel {volume}", r.l.capacity)
	r.top.Text = words.T("mash {volume}", r.l.volume)
	if over {
		r.top.Text = words.T("mash {volume}, runs over", r.l.volume)
	}
	r.rim.Color, r.rim.TextSize, r.top.TextSize = p.Quiet, look.CaptionSize, look.CaptionSize
	r.top.TextStyle.Bold = true
	r.Layout(r.l.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *levelRenderer) Objects() []fyne.CanvasObject {
	o := make([]fyne.CanvasObject, 0, len(r.bars)+2)
	for _, b := range r.bars {
		o = append(o, b)
	}
	return append(o, r.rim, r.top)
}
