package style

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
	okabeBlack      = RGB(0x000000)
	okabeOrange     = RGB(0xE69F00)
	okabeSky        = RGB(0x56B4E9)
	okabeGreen      = RGB(0x009E73)
	okabeYellow     = RGB(0xF0E442)
	okabeBlue       = RGB(0x0072B2)
	OkabeVermillion = RGB(0xD55E00)
	okabePurple     = RGB(0xCC79A7)
	darkOrange      = RGB(0xA87400)
)

// Light is the palette of the light window.
func Light() Palette {
	return Palette{
		Ground: RGB(0xFFFFFF),
		Ink:    RGB(0x1F1E1A),
		Muted:  RGB(0x6B6860),
		Grid:   RGB(0xECEAE4),
		Accent: okabeBlue,
		Tint:   Alpha(okabeBlue, 0.18),
		Edge:   Alpha(okabeBlue, 0.60),
		Ghost:  RGB(0x85806F),
		Series: [Strains]color.NRGBA{okabeBlue, OkabeVermillion, okabeGreen, okabePurple, okabeBlack, darkOrange},
	}
}

// Dark is the palette of the dark window.
func Dark() Palette {
	return Palette{
		Ground: RGB(0x201F1B),
		Ink:    RGB(0xF3F1EA),
		Muted:  RGB(0xA39F93),
		Grid:   RGB(0x2E2D28),
		Accent: okabeSky,
		Tint:   Alpha(okabeSky, 0.20),
		Edge:   Alpha(okabeSky, 0.60),
		Ghost:  RGB(0x918C7E),
		Series: [Strains]color.NRGBA{okabeSky, okabeOrange, okabeGreen, okabePurple, okabeYellow, OkabeVermillion},
	}
}

// Print is the palette for paper: black on white, and a grid that survives a
// photocopier.
func Print() Palette {
	p := Light()
	p.Ink = RGB(0x000000)
	p.Muted = RGB(0x4A4842)
	p.Grid = RGB(0xDEDCD5)
	p.Ghost = RGB(0x6B6860)
	return p
}

// HighContrast are the palettes for people who ask for it: text and lines have
// 7:1 (WCAG 2.2, SC 1.4.6, asks that of text), and the grid 3:1. The hues are
// those of Light and Dark, darker or lighter until they do.
func HighContrast(dark bool) Palette {
	if dark {
		return Palette{
			Ground: RGB(0x000000), Ink: RGB(0xFFFFFF), Muted: RGB(0xE0E0E0), Grid: RGB(0x5E5E5E),
			Accent: okabeSky, Tint: Alpha(okabeSky, 0.30), Edge: okabeSky, Ghost: RGB(0xC0C0C0),
			Series: [Strains]color.NRGBA{okabeSky, okabeOrange, RGB(0x1CA982), RGB(0xCD7CA9), okabeYellow, RGB(0xDD7D30)},
		}
	}
	blue := RGB(0x005D92)
	return Palette{
		Ground: RGB(0xFFFFFF), Ink: RGB(0x000000), Muted: RGB(0x333333), Grid: RGB(0x949494),
		Accent: blue, Tint: Alpha(blue, 0.25), Edge: blue, Ghost: RGB(0x4A4A4A),
		Series: [Strains]color.NRGBA{blue, RGB(0x934100), RGB(0x00664A), RGB(0x7B4965), okabeBlack, RGB(0x765200)},
	}
}

func RGB(hex uint32) color.NRGBA {
	return color.NRGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 0xFF}
}

func Alpha(c color.NRGBA, share float64) color.NRGBA {
	c.A = uint8(share*0xFF + 0.5)
	return c
}
