package plotting

import (
	"math"

	"codeberg.org/go-pdf/fpdf"
	"gonum.org/v1/plot/vg/draw"

	"skep/plotting/canvas"
	"skep/plotting/style"
)

// PDFFont is the family that [OnPDF] adds to a document, upright and bold ("B"),
// with UTF-8 text throughout.
const PDFFont = canvas.PDFFont

// PDFPage draws pictures into a document that somebody else lays out.
type PDFPage struct {
	doc    *fpdf.Fpdf
	canvas *canvas.PDF
}

// OnPDF prepares a document for pictures and adds the typeface. The document's
// unit is the point.
func OnPDF(doc *fpdf.Fpdf) *PDFPage { return &PDFPage{doc, canvas.NewPDF(doc)} }

// Place is where on the page a picture goes: points from the upper left, and
// how many points make one pixel at scale 1 (13 of which are the height of a
// label).
type Place struct {
	X, Y, Width, Height, PointsPerPx float64
}

// LayoutOn is the layout a picture gets at a place; its pixels are the place's,
// from its upper left.
func LayoutOn(p *Picture, at Place) Layout { return layoutOf(p, at.size()) }

func (at Place) size() Size {
	return Size{int(math.Floor(at.Width / at.PointsPerPx)), int(math.Floor(at.Height / at.PointsPerPx)), 1}
}

// Point is where a place's pixel lies on the page, in points.
func (at Place) Point(x, y float64) (pageX, pageY float64) {
	return at.X + x*at.PointsPerPx, at.Y + y*at.PointsPerPx
}

// Draw draws a picture, without its title and value. The document's line style
// and opacity are plain afterwards and its colours black; its font is not kept.
func (g *PDFPage) Draw(p *Picture, at Place, c style.Palette) {
	size := at.size()
	perPoint := at.PointsPerPx / float64(canvas.Px)
	g.canvas.Begin(perPoint, at.X, at.Y+float64(size.Height)*at.PointsPerPx)
	newOutcomePlot(p, &c, draw.NewCanvas(g.canvas, size.wide(), size.high())).draw(p, &c)
	g.doc.SetDashPattern(nil, 0)
	g.doc.SetAlpha(1, "Normal")
	g.doc.SetFillColor(0, 0, 0)
	g.doc.SetDrawColor(0, 0, 0)
	g.doc.SetTextColor(0, 0, 0)
}
