package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Marker is the shape that stands for a series besides its colour.
type Marker uint8

// The markers, each told from the others by outline alone.
const (
	Circle Marker = iota
	Square
	Triangle
	Diamond
	Cross
	Ring
)

// Series is how one of several compared things is drawn: a hue, a dash and a
// marker, so that no meaning hangs on colour alone. Dash alternates drawn and
// empty lengths in pixels at scale 1; nil is a solid line.
type Series struct {
	Colour color.NRGBA
	Dash   []float32
	Marker Marker
}

// Palette names every colour of one variant. The window's theme and the
// pictures take theirs from here. Colours with an alpha are meant to be laid
// over Panel or Background.
type Palette struct {
	Dark bool

	Background  color.NRGBA // the paper
	Panel       color.NRGBA // what stands on it
	PanelBorder color.NRGBA // quiet outline of a panel: decoration, carries nothing
	Grid        color.NRGBA // grid lines of a picture: decoration

	Ink   color.NRGBA // text
	Quiet color.NRGBA // secondary text, end words, axis labels

	Accent     color.NRGBA // the one accent: this design, links, what is chosen
	AccentSoft color.NRGBA // band of doubt
	AccentEdge color.NRGBA // edge lines of the band, kept in grey printing
	OnAccent   color.NRGBA // text on Accent
	Ghost      color.NRGBA // the design kept for comparison

	Pin   color.NRGBA // the landing point and what is wanted
	Reach color.NRGBA // what the free levers can reach

	Track       color.NRGBA // empty part of a lever
	Field       color.NRGBA // inside of a value box
	FieldBorder color.NRGBA
	Button      color.NRGBA
	Disabled    color.NRGBA // text of what can't be used now; still readable
	Focus       color.NRGBA // the ring, opaque
	FocusFill   color.NRGBA // what Fyne's own widgets lay under their text

	Hover     color.NRGBA
	Pressed   color.NRGBA
	Selection color.NRGBA
	ScrollBar color.NRGBA
	Shadow    color.NRGBA

	Warning color.NRGBA
	Error   color.NRGBA
	Success color.NRGBA

	// Series are for up to six things side by side.
	Series [6]Series
}

// Hues of the series follow Okabe and Ito's set for colour-blind readers
// (jfly.uni-koeln.de/color), in the half of it that each ground lets show;
// the ochre of the light palette is their orange darkened, which alone would
// have 2.3:1 on white.
var light = Palette{
	Background:  hex(0xF5F3EE),
	Panel:       hex(0xFFFFFF),
	PanelBorder: hex(0xDAD6CB),
	Grid:        hex(0xE9E6DE),
	Ink:         hex(0x1C1B17),
	Quiet:       hex(0x666257),
	Accent:      hex(0x0072B2),
	AccentSoft:  alpha(0x0072B2, 0x2B),
	AccentEdge:  alpha(0x0072B2, 0x8C),
	OnAccent:    hex(0xFFFFFF),
	Ghost:       hex(0x7D786B),
	Pin:         hex(0xC65300),
	Reach:       hex(0xEEEBE3),
	Track:       hex(0x857F73),
	Field:       hex(0xF5F3EE),
	FieldBorder: hex(0x857F73),
	Button:      hex(0xEAE6DC),
	Disabled:    hex(0x69655A),
	Focus:       hex(0x0072B2),
	FocusFill:   alpha(0x0072B2, 0xC4),
	Hover:       alpha(0x1C1B17, 0x10),
	Pressed:     alpha(0x1C1B17, 0x22),
	Selection:   alpha(0x0072B2, 0x40),
	ScrollBar:   hex(0x857F73),
	Shadow:      alpha(0x1C1B17, 0x30),
	Warning:     hex(0x8A5A00),
	Error:       hex(0xA8321A),
	Success:     hex(0x006B4C),
	Series:      series(0x0072B2, 0xD55E00, 0x009E73, 0xCC79A7, 0x3B3A36, 0x8A6A00),
}

var dark = Palette{
	Dark:        true,
	Background:  hex(0x181713),
	Panel:       hex(0x211F1B),
	PanelBorder: hex(0x37342E),
	Grid:        hex(0x2E2C27),
	Ink:         hex(0xF7F5EF),
	Quiet:       hex(0xA8A497),
	Accent:      hex(0x56B4E9),
	AccentSoft:  alpha(0x56B4E9, 0x33),
	AccentEdge:  alpha(0x56B4E9, 0x8C),
	OnAccent:    hex(0x181713),
	Ghost:       hex(0x918C7E),
	Pin:         hex(0xE69F00),
	Reach:       hex(0x2A2823),
	Track:       hex(0x878273),
	Field:       hex(0x181713),
	FieldBorder: hex(0x878273),
	Button:      hex(0x2A2823),
	Disabled:    hex(0x9B9789),
	Focus:       hex(0x56B4E9),
	FocusFill:   alpha(0x56B4E9, 0x8B),
	Hover:       alpha(0xF7F5EF, 0x14),
	Pressed:     alpha(0xF7F5EF, 0x28),
	Selection:   alpha(0x56B4E9, 0x50),
	ScrollBar:   hex(0x878273),
	Shadow:      alpha(0x000000, 0x80),
	Warning:     hex(0xE6AE3C),
	Error:       hex(0xFF8A75),
	Success:     hex(0x3FC79A),
	Series:      series(0x56B4E9, 0xE69F00, 0x009E73, 0xCC79A7, 0xF7F5EF, 0xF0E442),
}

func series(rgb ...uint32) (out [6]Series) {
	dashes := [6][]float32{nil, {8, 4}, {2, 3}, {10, 3, 2, 3}, {5, 3}, {14, 5}}
	for i := range out {
		out[i] = Series{Colour: hex(rgb[i]), Dash: dashes[i], Marker: Marker(i)}
	}
	return out
}

func hex(rgb uint32) color.NRGBA { return alpha(rgb, 0xFF) }

func alpha(rgb uint32, a uint8) color.NRGBA {
	return color.NRGBA{R: uint8(rgb >> 16), G: uint8(rgb >> 8), B: uint8(rgb), A: a}
}

// PaletteFor gives the palette of a variant. Anything but dark is light: an
// unknown desktop, and the odd "no preference" of tests, look like paper.
func PaletteFor(v fyne.ThemeVariant) Palette {
	if v == theme.VariantDark {
		return dark
	}
	return light
}

// contrasted is a palette for who sees little: the ground pure, text and all that
// carries meaning at 7:1 and more (WCAG 2.2, 1.4.6), outlines as strong as text, bands
// deeper. The hues stay.
func contrasted(p Palette) Palette {
	ground, ink, quiet := hex(0xFFFFFF), hex(0x000000), hex(0x333333)
	if p.Dark {
		ground, ink, quiet = hex(0x000000), hex(0xFFFFFF), hex(0xD8D8D8)
	}
	p.Background, p.Panel, p.Field, p.Button = ground, ground, ground, ground
	p.Ink, p.Quiet, p.Disabled, p.Ghost = ink, quiet, quiet, quiet
	p.PanelBorder, p.FieldBorder, p.Track, p.ScrollBar = quiet, quiet, quiet, quiet
	p.OnAccent = ground
	away := func(c color.NRGBA) color.NRGBA { // from the ground until it is told well
		for Contrast(c, ground) < strongContrast {
			c = Over(alphaOf(ink, 0x10), c)
		}
		return c
	}
	for _, c := range []*color.NRGBA{&p.Accent, &p.Pin, &p.Focus, &p.Warning, &p.Error, &p.Success} {
		*c = away(*c)
	}
	p.AccentSoft, p.AccentEdge = alphaOf(p.Accent, 0x40), p.Accent
	for i := range p.Series {
		p.Series[i].Colour = away(p.Series[i].Colour)
	}
	return p
}

// strongContrast is that of text in WCAG 2.2, 1.4.6.
const strongContrast = 7

func alphaOf(c color.NRGBA, a uint8) color.NRGBA { c.A = a; return c }

var lightStrong, darkStrong = contrasted(light), contrasted(dark)

// PaletteOf gives the palette that a theme draws with, seen through whatever
// wraps it and with its pinned variant; a theme that isn't ours gets the
// palette of the variant. Widgets ask for it at each refresh:
//
//	look.PaletteOf(w.Theme(), fyne.CurrentApp().Settings().ThemeVariant())
func PaletteOf(th fyne.Theme, v fyne.ThemeVariant) Palette {
	switch th.Color(theme.ColorNameBackground, v) {
	case light.Background:
		return light
	case dark.Background:
		return dark
	case lightStrong.Background:
		return lightStrong
	case darkStrong.Background:
		return darkStrong
	}
	return PaletteFor(v)
}
