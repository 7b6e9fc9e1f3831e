package plotting

import (
	"bytes"
	"image"
	"image/png"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"

	"skep/calc/message"
	"skep/plotting/canvas"
	"skep/plotting/style"
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
	Palette  style.Palette
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
	return message.Fault("picture format %q: expected png, svg or pdf", format)
}

func savePNG(w io.Writer, s Sheet) error {
	img := image.NewRGBA(image.Rect(0, 0, sheetWide*pngScale, sheetHigh*pngScale))
	s.draw(canvas.NewWindow().On(img, pngScale))
	if err := png.Encode(w, img); err != nil {
		return message.NewError("the picture can't be written: {error}", err)
	}
	return nil
}

func saveSVG(w io.Writer, s Sheet) error {
	page := vgsvg.New(sheetWide*canvas.Px, sheetHigh*canvas.Px)
	s.draw(page)
	var text bytes.Buffer
	if _, err := page.WriteTo(&text); err != nil {
		return message.NewError("the picture can't be written: {error}", err)
	}
	// The font isn't embedded, which would make 20 kB a megabyte; these have
	// the same widths, so nothing moves where Liberation Sans is missing.
	named := bytes.ReplaceAll(text.Bytes(),
		[]byte("font-family:Liberation Sans;"),
		[]byte("font-family:'Liberation Sans',Arimo,Arial,Helvetica,sans-serif;"))
	if _, err := w.Write(named); err != nil {
		return message.NewError("the picture can't be written: {error}", err)
	}
	return nil
}

func savePDF(w io.Writer, s Sheet) error {
	doc := fpdf.NewCustom(&fpdf.InitType{
		OrientationStr: "P", UnitStr: "pt",
		Size: fpdf.SizeType{Wd: float64(sheetWide * canvas.Px), Ht: float64(sheetHigh * canvas.Px)},
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
	page := canvas.NewPDF(doc)
	page.Begin(1, 0, float64(sheetHigh*canvas.Px))
	s.draw(page)
	if err := doc.Output(w); err != nil {
		return message.NewError("the picture can't be written: {error}", err)
	}
	return nil
}

// draw lays the sheet out.
func (s *Sheet) draw(on vg.Canvas) {
	c := draw.NewCanvas(on, sheetWide*canvas.Px, sheetHigh*canvas.Px)
	c.SetColor(s.Palette.Ground)
	c.Fill(c.Rectangle.Path())
	page := draw.Crop(c, sheetMargin*canvas.Px, -sheetMargin*canvas.Px, sheetMargin*canvas.Px, -sheetMargin*canvas.Px)
	wide := float64(page.Size().X / canvas.Px)
	if s.Title != "" {
		style.Write(&page, vg.Point{X: page.Min.X, Y: page.Max.Y - 16*canvas.Px}, style.Elide(s.Title, 20, true, wide), 20, true, s.Palette.Ink)
		page.Max.Y -= (headingHigh + 8) * canvas.Px
	}
	if s.Caption != "" {
		style.Write(&page, vg.Point{X: page.Min.X, Y: page.Min.Y + 4*canvas.Px}, style.Elide(s.Caption, 14, false, wide), 14, false, s.Palette.Ink)
		page.Min.Y += captionHigh * canvas.Px
	}
	tiles := draw.Tiles{Cols: 2, Rows: (len(s.Pictures) + 1) / 2, PadX: sheetGutter * canvas.Px, PadY: sheetGutter / 2 * canvas.Px}
	for i := range s.Pictures {
		p, tile := &s.Pictures[i], tiles.At(page, i%2, i/2)
		tile.Canvas = on
		s.heading(&tile, p)
		newOutcomePlot(p, &s.Palette, draw.Crop(tile, 0, 0, 0, -headingHigh*canvas.Px)).draw(p, &s.Palette)
	}
}

// heading writes a picture's title on the left and its value on the right.
func (s *Sheet) heading(c *draw.Canvas, p *Picture) {
	wide, y := float64(c.Size().X/canvas.Px), c.Max.Y-14*canvas.Px
	value := style.Elide(p.Value, style.LabelPx, false, 0.7*wide)
	taken := style.Width(value, style.LabelPx, false)
	style.Write(c, vg.Point{X: c.Max.X - vg.Length(taken)*canvas.Px, Y: y}, value, style.LabelPx, false, s.Palette.Ink)
	title := style.Elide(p.Title, style.LabelPx+1, true, wide-taken-12)
	style.Write(c, vg.Point{X: c.Min.X, Y: y}, title, style.LabelPx+1, true, s.Palette.Ink)
}
