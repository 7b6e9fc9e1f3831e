package look

import (
	"image/color"
	"math"
)

// Contrast is the ratio of two opaque colours after WCAG 2.2 (relative
// luminance, sRGB), from 1 to 21.
func Contrast(a, b color.NRGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

func luminance(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// Over lays a translucent colour on an opaque one.
func Over(top, under color.NRGBA) color.NRGBA {
	mix := func(t, u uint8) uint8 {
		a := float64(top.A) / 255
		return uint8(math.Round(float64(t)*a + float64(u)*(1-a)))
	}
	return color.NRGBA{R: mix(top.R, under.R), G: mix(top.G, under.G), B: mix(top.B, under.B), A: 255}
}
