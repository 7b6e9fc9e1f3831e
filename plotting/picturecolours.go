package plotting

import "image/color"

// Strains is how many series can be told apart in one picture: each has its
// own colour, dash pattern and marker.
const Strains = 6

// Palette is every colour a picture uses. It is comparable, so that a picture
// knows when it has to be drawn anew.
type Palette struct {
	Ground color.NRGBA // behind everything
	Ink    color.NRGBA // text that matters, 4.5:1 on Ground or better
	Muted  color.NRGBA // axis text, 4.5:1 on Ground or better
	Grid   color.NRGBA // barely there
	Accent color.NRGBA // the present design, 4.5:1: its label is written in it
	Tint   color.NRGBA // band of the present design
	Edge   color.NRGBA // thin lines at the band's ends
	Ghost  color.NRGBA // the earlier design, 3:1 or better
	Series [Strains]color.NRGBA
}

// The hues are Okabe and Ito's eight (hex values as public sources give them
// alike; the subset for each ground chosen so that a thin line keeps 3:1,
// WCAG 2.2 SC 1.4.11). No sixth of the eight keeps 3:1 on white, so the light
// palette ends with their orange darkened until it does.
var (
	okabeBlack      = rgb(0x000000)
	okabeOrange     = rgb(0xE69F00)
	okabeSky        = rgb(0x56B4E9)
	okabeGreen      = rgb(0x009E73)
	okabeYellow     = rgb(0xF0E442)
	okabeBlue       = rgb(0x0072B2)
	okabeVermillion = rgb(0xD55E00)
	okabePurple     = rgb(0xCC79A7)
	darkOrange      = rgb(0xA87400)
)

// Light is the palette of the light window.
func Light() Palette {
	return Palette{
		Ground: rgb(0xFFFFFF),
		Ink:    rgb(0x1F1E1A),
		Muted:  rgb(0x6B6860),
		Grid:   rgb(0xECEAE4),
		Accent: okabeBlue,
		Tint:   alpha(okabeBlue, 0.18),
		Edge:   alpha(okabeBlue, 0.60),
		Ghost:  rgb(0x85806F),
		Series: [Strains]color.NRGBA{okabeBlue, okabeVermillion, okabeGreen, okabePurple, okabeBlack, darkOrange},
	}
}

// Dark is the palette of the dark window.
func Dark() Palette {
	return Palette{
		Ground: rgb(0x201F1B),
		Ink:    rgb(0xF3F1EA),
		Muted:  rgb(0xA39F93),
		Grid:   rgb(0x2E2D28),
		Accent: okabeSky,
		Tint:   alpha(okabeSky, 0.20),
		Edge:   alpha(okabeSky, 0.60),
		Ghost:  rgb(0x918C7E),
		Series: [Strains]color.NRGBA{okabeSky, okabeOrange, okabeGreen, okabePurple, okabeYellow, okabeVermillion},
	}
}

// Print is the palette for paper: black on white, and a grid that survives a
// photocopier.
func Print() Palette {
	p := Light()
	p.Ink = rgb(0x000000)
	p.Muted = rgb(0x4A4842)
	p.Grid = rgb(0xDEDCD5)
	p.Ghost = rgb(0x6B6860)
	return p
}

// HighContrast are the palettes for people who ask for it: text and lines have
// 7:1 (WCAG 2.2, SC 1.4.6, asks that of text), and the grid 3:1. The hues are
// those of Light and Dark, darker or lighter until they do.
func HighContrast(dark bool) Palette {
	if dark {
		return Palette{
			Ground: rgb(0x000000), Ink: rgb(0xFFFFFF), Muted: rgb(0xE0E0E0), Grid: rgb(0x5E5E5E),
			Accent: okabeSky, Tint: alpha(okabeSky, 0.30), Edge: okabeSky, Ghost: rgb(0xC0C0C0),
			Series: [Strains]color.NRGBA{okabeSky, okabeOrange, rgb(0x1CA982), rgb(0xCD7CA9), okabeYellow, rgb(0xDD7D30)},
		}
	}
	blue := rgb(0x005D92)
	return Palette{
		Ground: rgb(0xFFFFFF), Ink: rgb(0x000000), Muted: rgb(0x333333), Grid: rgb(0x949494),
		Accent: blue, Tint: alpha(blue, 0.25), Edge: blue, Ghost: rgb(0x4A4A4A),
		Series: [Strains]color.NRGBA{blue, rgb(0x934100), rgb(0x00664A), rgb(0x7B4965), okabeBlack, rgb(0x765200)},
	}
}

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 0xFF}
}

func alpha(c color.NRGBA, share float64) color.NRGBA {
	c.A = uint8(share*0xFF + 0.5)
	return c
}
