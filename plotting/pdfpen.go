package plotting

import (
	"image/color"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"
)

// pdfPen draws into a PDF page. fpdf's page has its origin at the upper left,
// as our pixels have.
type pdfPen struct {
	doc   *fpdf.Fpdf
	perPx float64 // the document's units in a device pixel
	alpha uint8
}

const pdfFont = "LiberationSans"

// newPdfPen prepares the document's fonts. The text is UTF-8 throughout.
func newPdfPen(doc *fpdf.Fpdf, perPx float64) *pdfPen {
	doc.AddUTF8FontFromBytes(pdfFont, "", liberationsansregular.TTF)
	doc.AddUTF8FontFromBytes(pdfFont, "B", liberationsansbold.TTF)
	doc.SetLineCapStyle("butt")
	doc.SetLineJoinStyle("round")
	return &pdfPen{doc: doc, perPx: perPx, alpha: 0xFF}
}

func (p *pdfPen) opacity(c color.NRGBA) {
	if c.A != p.alpha {
		p.doc.SetAlpha(float64(c.A)/0xFF, "Normal")
		p.alpha = c.A
	}
}

func (p *pdfPen) to(q point) (x, y float64) { return float64(q.X) * p.perPx, float64(q.Y) * p.perPx }

func (p *pdfPen) fill(a, b []point, c color.NRGBA) {
	if len(a) == 0 {
		return
	}
	p.opacity(c)
	p.doc.SetFillColor(int(c.R), int(c.G), int(c.B))
	p.doc.MoveTo(p.to(a[0]))
	for _, q := range a[1:] {
		p.doc.LineTo(p.to(q))
	}
	for i := len(b) - 1; i >= 0; i-- {
		p.doc.LineTo(p.to(b[i]))
	}
	p.doc.ClosePath()
	p.doc.DrawPath("f")
}

func (p *pdfPen) strip(a, b []point, c color.NRGBA) { p.fill(a, b, c) }

func (p *pdfPen) area(path []point, c color.NRGBA) { p.fill(path, nil, c) }

func (p *pdfPen) line(path []point, width float64, dash []float64, c color.NRGBA) {
	if len(path) < 2 {
		return
	}
	p.opacity(c)
	p.doc.SetDrawColor(int(c.R), int(c.G), int(c.B))
	p.doc.SetLineWidth(width * p.perPx)
	lengths := make([]float64, len(dash))
	for i, d := range dash {
		lengths[i] = d * p.perPx
	}
	p.doc.SetDashPattern(lengths, 0)
	p.doc.MoveTo(p.to(path[0]))
	for _, q := range path[1:] {
		p.doc.LineTo(p.to(q))
	}
	p.doc.DrawPath("D")
}

func (p *pdfPen) text(x, y float64, s string, px float64, bold bool, c color.NRGBA) {
	if s == "" {
		return
	}
	p.opacity(c)
	style := ""
	if bold {
		style = "B"
	}
	p.doc.SetFont(pdfFont, style, 0)
	p.doc.SetFontUnitSize(px * p.perPx)
	p.doc.SetTextColor(int(c.R), int(c.G), int(c.B))
	p.doc.Text(x*p.perPx, y*p.perPx, s)
}
