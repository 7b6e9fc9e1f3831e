package canvas

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"
	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"

	"skep/calc/message"
)

// PDF is a vg.Canvas on a page that somebody else may lay out. gonum's
// own for PDF knows only code page 1252, makes the document itself and stamps
// the time of day into it.
type PDF struct {
	graphics
	doc    *fpdf.Fpdf
	images int
	dash   []float64
}

var _ vg.Canvas = (*PDF)(nil)

const PDFFont = "LiberationSans"

// NewPDF prepares the document's fonts. The text is UTF-8 throughout.
func NewPDF(doc *fpdf.Fpdf) *PDF {
	doc.AddUTF8FontFromBytes(PDFFont, "", liberationsansregular.TTF)
	doc.AddUTF8FontFromBytes(PDFFont, "B", liberationsansbold.TTF)
	doc.SetLineCapStyle("butt")
	doc.SetLineJoinStyle("round")
	return &PDF{doc: doc}
}

// pdfFlatness is how far a corner may lie off its arc, in points of the page.
const pdfFlatness = 0.02

func (p *PDF) path(path vg.Path) {
	p.flatten(path, pdfFlatness)
	for _, l := range p.lines {
		for i, q := range p.points[l.from:l.to] {
			if i == 0 {
				p.doc.MoveTo(float64(q.X), float64(q.Y))
			} else {
				p.doc.LineTo(float64(q.X), float64(q.Y))
			}
		}
		if l.closed {
			p.doc.ClosePath()
		}
	}
	p.doc.SetAlpha(float64(p.ink.A)/0xFF, "Normal")
}

// Fill is for vg.Canvas.
func (p *PDF) Fill(path vg.Path) {
	p.doc.SetFillColor(int(p.ink.R), int(p.ink.G), int(p.ink.B))
	p.path(path)
	p.doc.DrawPath("f")
}

// Stroke is for vg.Canvas.
func (p *PDF) Stroke(path vg.Path) {
	stretch := p.matrix.stretch()
	if !(float64(p.width)*stretch > 0) {
		return
	}
	p.doc.SetDrawColor(int(p.ink.R), int(p.ink.G), int(p.ink.B))
	p.doc.SetLineWidth(float64(p.width) * stretch)
	p.dash = p.dash[:0]
	for _, d := range p.dashes {
		p.dash = append(p.dash, float64(d)*stretch)
	}
	p.doc.SetDashPattern(p.dash, float64(p.offset)*stretch)
	p.path(path)
	p.doc.DrawPath("D")
}

// FillString is for vg.Canvas.
func (p *PDF) FillString(f font.Face, pt vg.Point, s string) {
	size := float64(f.Font.Size) * p.matrix.stretch()
	if s == "" || !(size > 0) {
		return
	}
	style := ""
	if f.Font.Weight >= xfont.WeightSemiBold {
		style = "B"
	}
	p.doc.SetAlpha(float64(p.ink.A)/0xFF, "Normal")
	p.doc.SetFont(PDFFont, style, 0)
	p.doc.SetFontUnitSize(size)
	p.doc.SetTextColor(int(p.ink.R), int(p.ink.G), int(p.ink.B))
	at := p.matrix.of(pt)
	if p.matrix.upright() {
		p.doc.Text(float64(at.X), float64(at.Y), s)
		return
	}
	p.doc.TransformBegin()
	p.doc.TransformRotate(-math.Atan2(p.matrix.b, p.matrix.a)*180/math.Pi, float64(at.X), float64(at.Y))
	p.doc.Text(float64(at.X), float64(at.Y), s)
	p.doc.TransformEnd()
}

// DrawImage is for vg.Canvas; the image stands upright.
func (p *PDF) DrawImage(rect vg.Rectangle, img image.Image) {
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		p.doc.SetError(message.Fault("image for the pdf: %w", err))
		return
	}
	p.images++
	name := fmt.Sprint("plotting-", p.images)
	as := fpdf.ImageOptions{ImageType: "png"}
	p.doc.RegisterImageOptionsReader(name, as, &b)
	from, to := p.matrix.of(vg.Point{X: rect.Min.X, Y: rect.Max.Y}), p.matrix.of(vg.Point{X: rect.Max.X, Y: rect.Min.Y})
	p.doc.ImageOptions(name, float64(from.X), float64(from.Y), float64(to.X-from.X), float64(to.Y-from.Y), false, as, 0, "")
}
