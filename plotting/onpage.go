package plotting

import (
	"math"

	"codeberg.org/go-pdf/fpdf"
)

// PDFFont is the family that [OnPDF] adds to a document, upright and bold ("B"),
// with UTF-8 text throughout.
const PDFFont = pdfFont

// PDFPage draws pictures into a document that somebody else lays out.
type PDFPage struct {
	doc *fpdf.Fpdf
	pen *pdfPen
	t   tracer
}

// OnPDF prepares a document for pictures and adds the typeface. The document's
// unit is the point.
func OnPDF(doc *fpdf.Fpdf) *PDFPage { return &PDFPage{doc: doc, pen: newPdfPen(doc, 1)} }

// Place is where on the page a picture goes: points from the upper left, and
// how many points make one pixel at scale 1 (13 of which are the height of a
// label).
type Place struct {
	X, Y, Width, Height, PointsPerPx float64
}

// LayoutOn is the layout a picture gets at a place; its pixels are the place's,
// from its upper left.
func LayoutOn(p *Picture, at Place) Layout { return layoutAt(p, at.size(), 0, 0) }

func (at Place) size() Size {
	return Size{int(math.Floor(at.Width / at.PointsPerPx)), int(math.Floor(at.Height / at.PointsPerPx)), 1}
}

// Point is where a place's pixel lies on the page, in points.
func (at Place) Point(x, y float64) (pageX, pageY float64) {
	return at.X + x*at.PointsPerPx, at.Y + y*at.PointsPerPx
}

// Draw draws a picture, without its title and value. The document's line style
// and opacity are plain afterwards and its colours black; its font is not kept.
func (g *PDFPage) Draw(p *Picture, at Place, c Palette) {
	g.doc.TransformBegin()
	g.doc.TransformTranslate(at.X, at.Y)
	g.pen.perPx = at.PointsPerPx
	l := LayoutOn(p, at)
	drawStatic(g.pen, p, &l, &c)
	g.t.drawData(g.pen, p, &l, &c)
	g.doc.SetDashPattern(nil, 0)
	g.doc.SetAlpha(1, "Normal")
	g.doc.TransformEnd()
	g.pen.alpha = 0xFF
	// The end of the transformation brings the page's colours back, and fpdf,
	// which leaves out what it believes is set, does not know: say them anew.
	g.doc.SetFillColor(0, 0, 0)
	g.doc.SetDrawColor(0, 0, 0)
	g.doc.SetTextColor(0, 0, 0)
}
