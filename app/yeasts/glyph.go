package yeasts

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
	"skep/calc"
	"skep/plotting"
	"skep/plotting/style"
)

// glyph is a strain's line and marker as the pictures draw them, for its row
// of the table. It is drawn by the pictures' own painter, so it can't differ.
type glyph struct {
	widget.BaseWidget
	host    ui.Host
	slot    int
	lit     bool
	raster  *canvas.Raster
	painter *plotting.Painter
	key     glyphKey
}

type glyphKey struct {
	w, h, slot int
	palette    style.Palette
}

func newGlyph(b ui.Host) *glyph {
	g := &glyph{host: b, painter: plotting.NewPainter()}
	g.raster = canvas.NewRaster(g.image)
	g.ExtendBaseWidget(g)
	return g
}

func (g *glyph) setSlot(slot int) {
	if g.slot != slot {
		g.slot = slot
		g.raster.Refresh()
	}
}

// light tells whether the row's ground is that of a lit one.
func (g *glyph) light(lit bool) {
	if g.lit != lit {
		g.lit = lit
		g.raster.Refresh()
	}
}

// over is an opaque colour with a see-through one laid on it.
func over(ground, veil color.NRGBA) color.NRGBA {
	a := int(veil.A)
	mix := func(g, v uint8) uint8 { return uint8((int(g)*(255-a) + int(v)*a + 127) / 255) }
	return color.NRGBA{R: mix(ground.R, veil.R), G: mix(ground.G, veil.G), B: mix(ground.B, veil.B), A: ground.A}
}

// glyphScale makes up for the thinner lines that a picture of this size has.
const glyphScale = 1.5

func (g *glyph) image(w, h int) image.Image {
	palette := g.host.Palette()
	if g.lit {
		palette.Ground = over(palette.Ground, ui.PaletteOf(g.Theme()).Hover)
	}
	palette.Muted = palette.Ground // no line at the temperature
	key := glyphKey{w, h, g.slot, palette}
	if img := g.painter.Image(0); img != nil && key == g.key {
		return img
	}
	g.key = key
	scale := float64(w) / math.Max(1, float64(g.raster.Size().Width))
	none := math.NaN()
	line := calc.Band{Low: none, Mid: 0.5, High: none}
	p := plotting.Picture{
		X: plotting.Axis{Range: plotting.Range{Low: 0, High: 1}}, Y: plotting.Axis{Range: plotting.Range{Low: 0, High: 1}},
		AtC: 0.5,
		Series: []plotting.Series{{
			Role: plotting.Strain, Index: g.slot, TemperatureC: []float64{0, 1}, Band: []calc.Band{line, line}, Mark: line,
		}},
	}
	g.painter.Draw(palette, []plotting.Picture{p}, plotting.Size{Width: w, Height: h, Scale: scale * glyphScale})
	g.painter.Show()
	return g.painter.Image(0)
}

func (g *glyph) MinSize() fyne.Size { return fyne.NewSize(44, 18) }

func (g *glyph) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(g.raster) }
