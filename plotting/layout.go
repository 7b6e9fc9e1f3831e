package plotting

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/plotting/canvas"
	"skep/plotting/plotters"
	"skep/plotting/style"
)

// mostPx bounds a picture: a larger one is drawn at this size.
const mostPx = 8192

// Size is the size of a picture in device pixels, and how many of them make
// one pixel at scale 1.
type Size struct {
	Width, Height int
	Scale         float64
}

func (s Size) sound() Size {
	s.Width, s.Height = min(max(s.Width, 1), mostPx), min(max(s.Height, 1), mostPx)
	if !plotters.Finite(s.Scale) || s.Scale <= 0 {
		s.Scale = 1
	}
	s.Scale = math.Min(s.Scale, 16)
	return s
}

// Layout maps between temperatures, values and pixels of one picture, so that
// a window can lay things over it and let them be dragged. Divide a pixel by
// Size.Scale to get the window's own coordinates.
type Layout struct {
	Size                     Size
	Left, Top, Right, Bottom float64 // the plot itself, without its text
	X, Y                     Range
	Text                     bool // there is room for text
}

// PixelX is where a temperature lies.
func (l Layout) PixelX(tempC float64) float64 {
	return l.Left + (tempC-l.X.Low)/(l.X.High-l.X.Low)*(l.Right-l.Left)
}

// PixelY is where a value lies.
func (l Layout) PixelY(value float64) float64 {
	return l.Bottom - (value-l.Y.Low)/(l.Y.High-l.Y.Low)*(l.Bottom-l.Top)
}

// TemperatureAt is the temperature at a pixel, also beyond the plot.
func (l Layout) TemperatureAt(xPx float64) float64 {
	if l.Right <= l.Left {
		return l.X.Low
	}
	return l.X.Low + (xPx-l.Left)/(l.Right-l.Left)*(l.X.High-l.X.Low)
}

// ValueAt is the value at a pixel, also beyond the plot.
func (l Layout) ValueAt(yPx float64) float64 {
	if l.Bottom <= l.Top {
		return l.Y.Low
	}
	return l.Y.Low + (l.Bottom-yPx)/(l.Bottom-l.Top)*(l.Y.High-l.Y.Low)
}

// Inside says whether a pixel lies in the plot.
func (l Layout) Inside(xPx, yPx float64) bool {
	return l.Left <= xPx && xPx <= l.Right && l.Top <= yPx && yPx <= l.Bottom
}

// layoutOf is the layout a picture gets at a size.
func layoutOf(p *Picture, size Size) Layout {
	size = size.sound()
	return newOutcomePlot(p, &style.Palette{}, draw.NewCanvas(nil, size.wide(), size.high())).layout(size)
}

// wide and high are a picture's in points.
func (s Size) wide() vg.Length { return vg.Length(float64(s.Width)/s.Scale) * canvas.Px }
func (s Size) high() vg.Length { return vg.Length(float64(s.Height)/s.Scale) * canvas.Px }

// pixels are where a canvas lies in a picture: from the upper left corner.
func (s Size) pixels(c draw.Canvas) (left, top, right, bottom float64) {
	k := s.Scale / float64(canvas.Px)
	high := float64(s.Height)
	return float64(c.Min.X) * k, high - float64(c.Max.Y)*k, float64(c.Max.X) * k, high - float64(c.Min.Y)*k
}

func (o *outcomePlot) layout(size Size) Layout {
	l := Layout{Size: size, X: Range{o.X.Min, o.X.Max}, Y: Range{o.Y.Min, o.Y.Max}, Text: o.text}
	l.Left, l.Top, l.Right, l.Bottom = size.pixels(o.DataCanvas(o.canvas))
	return l
}
