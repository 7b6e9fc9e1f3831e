package plotting

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Format is a file format of a sheet.
type Format string

// The formats Save knows; a file's ending without its dot.
const (
	PNG Format = "png"
	SVG Format = "svg"
	PDF Format = "pdf"
)

// Sheet is a page of pictures for a file, two beside each other, each with
// its title and value.
type Sheet struct {
	Title    string // above all; may be empty
	Caption  string // below all; may be empty
	Pictures []Picture
	Palette  Palette
}

// The sheet at scale 1 (1/96 inch) is an A4 page lying down, 297 by 210 mm,
// with its margins, so that the PDF prints as it is.
const (
	sheetWide   = 1122
	sheetHigh   = 794
	sheetMargin = 48
	sheetGutter = 36
	headingHigh = 34 // of the title, and of each picture's heading
	captionHigh = 30
	pngScale    = 2
)

// Save writes the sheet. The bytes depend on nothing but the sheet.
func Save(w io.Writer, format Format, s Sheet) error {
	switch format {
	case PNG:
		return savePNG(w, s)
	case SVG:
		return saveSVG(w, s)
	case PDF:
		return savePDF(w, s)
	}
	return fmt.Errorf("picture format %q: expected png, svg or pdf", format)
}

func savePNG(w io.Writer, s Sheet) error {
	size := Size{sheetWide * pngScale, sheetHigh * pngScale, pngScale}
	canvas := vgimg.NewWith(
		vgimg.UseWH(sheetWide*pointsPerPx, sheetHigh*pointsPerPx),
		vgimg.UseDPI(96*pngScale),
		vgimg.UseBackgroundColor(s.Palette.Ground),
	)
	s.draw(newVgPen(canvas, size), size.Scale)
	if _, err := (vgimg.PngCanvas{Canvas: canvas}).WriteTo(w); err != nil {
		return fmt.Errorf("write png: %w", err)
	}
	return nil
}

func saveSVG(w io.Writer, s Sheet) error {
	size := Size{sheetWide, sheetHigh, 1}
	canvas := vgsvg.New(sheetWide*pointsPerPx, sheetHigh*pointsPerPx)
	pen := newVgPen(canvas, size)
	pen.area([]point{at(0, 0), at(sheetWide, 0), at(sheetWide, sheetHigh), at(0, sheetHigh)}, s.Palette.Ground)
	s.draw(pen, 1)
	var text bytes.Buffer
	if _, err := canvas.WriteTo(&text); err != nil {
		return fmt.Errorf("write svg: %w", err)
	}
	// The font isn't embedded, which would make 20 kB a megabyte; these have
	// the same widths, so nothing moves where Liberation Sans is missing.
	named := bytes.ReplaceAll(text.Bytes(),
		[]byte("font-family:Liberation Sans;"),
		[]byte("font-family:'Liberation Sans',Arimo,Arial,Helvetica,sans-serif;"))
	if _, err := w.Write(named); err != nil {
		return fmt.Errorf("write svg: %w", err)
	}
	return nil
}

func savePDF(w io.Writer, s Sheet) error {
	wide, high := sheetWide*pointsPerPx, sheetHigh*pointsPerPx
	doc := fpdf.NewCustom(&fpdf.InitType{
		OrientationStr: "P", UnitStr: "pt",
		Size: fpdf.SizeType{Wd: wide, Ht: high},
	})
	doc.SetAutoPageBreak(false, 0)
	doc.SetMargins(0, 0, 0)
	doc.SetCatalogSort(true)
	// A fixed date keeps the bytes the same for the same design.
	doc.SetCreationDate(time.Unix(0, 0).UTC())
	doc.SetModificationDate(time.Unix(0, 0).UTC())
	doc.SetProducer("Skep", true)
	doc.SetTitle(s.Title, true)
	doc.AddPage()
	pen := newPdfPen(doc, pointsPerPx)
	pen.area([]point{at(0, 0), at(sheetWide, 0), at(sheetWide, sheetHigh), at(0, sheetHigh)}, s.Palette.Ground)
	s.draw(pen, 1)
	if err := doc.Output(w); err != nil {
		return fmt.Errorf("write pdf: %w", err)
	}
	return nil
}

// draw lays the sheet out in pixels at a scale.
func (s *Sheet) draw(d pen, k float64) {
	c := &s.Palette
	top, bottom := float64(sheetMargin), float64(sheetHigh-sheetMargin)
	inner := float64(sheetWide - 2*sheetMargin)
	if s.Title != "" {
		title := elide(s.Title, 20, true, inner)
		d.text(sheetMargin*k, (top+16)*k, title, 20*k, true, c.Ink)
		top += headingHigh + 8
	}
	if s.Caption != "" {
		caption := elide(s.Caption, 14, false, inner)
		d.text(sheetMargin*k, (bottom-4)*k, caption, 14*k, false, c.Ink)
		bottom -= captionHigh
	}
	rows := (len(s.Pictures) + 1) / 2
	if rows == 0 {
		return
	}
	wide := (inner - sheetGutter) / 2
	high := (bottom - top - sheetGutter/2*float64(rows-1)) / float64(rows)
	var t tracer
	for i := range s.Pictures {
		p := &s.Pictures[i]
		x := sheetMargin + float64(i%2)*(wide+sheetGutter)
		y := top + float64(i/2)*(high+sheetGutter/2)
		s.heading(d, p, x, y, wide, k)
		size := Size{int(math.Floor(wide * k)), int(math.Floor((high - headingHigh) * k)), k}
		l := layoutAt(p, size, math.Round(x*k), math.Round((y+headingHigh)*k))
		drawStatic(d, p, &l, c)
		t.drawData(d, p, &l, c)
	}
}

// heading writes a picture's title on the left and its value on the right.
func (s *Sheet) heading(d pen, p *Picture, x, y, wide, k float64) {
	c := &s.Palette
	value := elide(p.Value, labelPx, false, 0.7*wide)
	taken := width(value, labelPx, false)
	d.text((x+wide-taken)*k, (y+14)*k, value, labelPx*k, false, c.Ink)
	title := elide(p.Title, labelPx+1, true, wide-taken-12)
	d.text(x*k, (y+14)*k, title, (labelPx+1)*k, true, c.Ink)
}
