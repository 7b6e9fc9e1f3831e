package plotting

import (
	"math"
	"unicode/utf8"
)

// Sizes at scale 1. The window writes 13 px text, so the labels do too; the
// axes stand back a little.
const (
	labelPx     = 13.0
	tickPx      = 12.0
	axisLabelPx = 11.0

	gapPx        = 6.0  // between plot and text
	tickGapYPx   = 38.0 // least distance of two ticks on the upright axis
	tickGapXPx   = 18.0 // least gap between two tick labels on the level axis
	narrowPx     = 130.0
	lowPx        = 84.0 // below these a picture has no text, only its lines
	mostLabelled = 0.30 // share of the width that end labels may take
	mostPx       = 8192 // a picture larger than this is drawn at this size
)

// Size is the size of a picture in device pixels, and how many of them make
// one pixel at scale 1.
type Size struct {
	Width, Height int
	Scale         float64
}

func (s Size) sound() Size {
	s.Width, s.Height = min(max(s.Width, 1), mostPx), min(max(s.Height, 1), mostPx)
	if !finite(s.Scale) || s.Scale <= 0 {
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

	originX, originY float64 // of the picture on a sheet
	labels           labelBox
}

// labelBox is the place for the names where the lines end.
type labelBox struct {
	x, width float64 // width 0: no names
	glyph    float64 // room for the marker in front of a name
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
func (l Layout) TemperatureAt(x float64) float64 {
	if l.Right <= l.Left {
		return l.X.Low
	}
	return l.X.Low + (x-l.Left)/(l.Right-l.Left)*(l.X.High-l.X.Low)
}

// ValueAt is the value at a pixel, also beyond the plot.
func (l Layout) ValueAt(y float64) float64 {
	if l.Bottom <= l.Top {
		return l.Y.Low
	}
	return l.Y.Low + (l.Bottom-y)/(l.Bottom-l.Top)*(l.Y.High-l.Y.Low)
}

// Inside says whether a pixel lies in the plot.
func (l Layout) Inside(x, y float64) bool {
	return l.Left <= x && x <= l.Right && l.Top <= y && y <= l.Bottom
}

// LayoutOf is the layout a picture gets at a size.
func LayoutOf(p *Picture, size Size) Layout { return layoutAt(p, size, 0, 0) }

func layoutAt(p *Picture, size Size, originX, originY float64) Layout {
	size = size.sound()
	w, h, k := float64(size.Width), float64(size.Height), size.Scale
	l := Layout{
		Size: size,
		X:    p.X.Range.sound(Range{0, 1}), Y: p.Y.Range.sound(Range{0, 1}),
		originX: originX, originY: originY,
	}
	if w < narrowPx*k || h < lowPx*k {
		edge := math.Floor(math.Min(math.Min(2*k, w/4), h/4))
		l.Left, l.Top, l.Right, l.Bottom = edge, edge, w-edge, h-edge
	} else {
		l.Text = true
		left := width("0.000", tickPx, false)
		for _, t := range ticks(Axis{Range: l.Y, Unit: p.Y.Unit}, uprightTicks(h/k)) {
			left = math.Max(left, width(t.label, tickPx, false))
		}
		left = math.Min(math.Ceil(left), 0.3*w/k)
		below := gapPx + tickPx
		if p.X.Label != "" {
			below += 5 + axisLabelPx
		}
		l.labels = endLabels(p, w/k)
		right := math.Max(2*gapPx, l.labels.width+l.labels.glyph+gapPx+2)
		l.Left = math.Round((left + gapPx + 1) * k)
		l.Right = w - math.Round(right*k)
		l.Top = math.Round((tickPx/2 + 2) * k)
		l.Bottom = h - math.Round((below+4)*k)
		l.labels.x = l.Right + gapPx*k
		l.labels.width *= k
		l.labels.glyph *= k
	}
	l.Left, l.Right = l.Left+originX, l.Right+originX
	l.Top, l.Bottom = l.Top+originY, l.Bottom+originY
	l.labels.x += originX
	return l
}

// endLabels finds the room for names at scale 1. The room for "before" is
// kept even without a ghost, so that pinning one doesn't move the picture.
func endLabels(p *Picture, wide float64) labelBox {
	var box labelBox
	for i := range p.Series {
		if p.Series[i].Name == "" {
			continue
		}
		box.width = math.Max(box.width, width(p.Series[i].Name, labelPx, p.Series[i].Role == Now))
		if p.Series[i].Role == Strain {
			box.glyph = 14
		}
	}
	if box.width > 0 {
		box.width = math.Max(box.width, width("before", labelPx, false))
	}
	box.width = math.Ceil(math.Min(box.width, mostLabelled*wide))
	return box
}

func uprightTicks(high float64) int { return int(high / tickGapYPx) }

// elide shortens a text to a width at scale 1.
func elide(s string, px float64, bold bool, room float64) string {
	if width(s, px, bold) <= room+0.5 {
		return s
	}
	for s != "" {
		_, n := utf8.DecodeLastRuneInString(s)
		s = s[:len(s)-n]
		if width(s+"…", px, bold) <= room {
			return s + "…"
		}
	}
	return ""
}

// weight is what line widths and marks are multiplied by: the scale, but less
// in a thumbnail.
func (l *Layout) weight() float64 {
	if l.Text {
		return l.Size.Scale
	}
	return 0.6 * l.Size.Scale
}
