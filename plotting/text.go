package plotting

import (
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"gonum.org/v1/plot/font"
)

// fonts are the two faces of the one typeface, parsed when first needed so
// that a command which draws nothing doesn't pay for them.
var fonts = sync.OnceValue(func() [2]*opentype.Font {
	var both [2]*opentype.Font
	for i, ttf := range [...][]byte{liberationsansregular.TTF, liberationsansbold.TTF} {
		f, err := opentype.Parse(ttf)
		if err != nil {
			panic("plotting: embedded font: " + err.Error()) // built in: can't fail at run time
		}
		both[i] = f
	}
	return both
})

func openFont(bold bool) *opentype.Font {
	if bold {
		return fonts()[1]
	}
	return fonts()[0]
}

// vgFace is the face as gonum/plot's canvases want it. size is in points.
func vgFace(size float64, bold bool) font.Face {
	weight := xfont.WeightNormal
	if bold {
		weight = xfont.WeightBold
	}
	return font.Face{
		Font: font.Font{Typeface: "Liberation", Variant: "Sans", Weight: weight, Size: font.Length(size)},
		Face: openFont(bold),
	}
}

// width is the advance of a text set px high, in the same pixels.
func width(s string, px float64, bold bool) float64 {
	f := vgFace(px, bold)
	return float64(f.Width(s))
}
