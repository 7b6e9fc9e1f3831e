package sheet

import (
	"fmt"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"skep/plotting"
)

// The page: margins of 15 mm, two columns.
const (
	margin  = 42.5
	gutter  = 20.0
	columns = 2
	foot    = 16.0 // below the columns, for the page number
)

// bodies are the sizes of body text that are tried, points, until the sheet
// takes two pages; the smallest then takes as many as it needs.
var bodies = []float64{11.5, 11.2, 10.9, 10.6, 10.3, 10}

const wanted = 2 // pages

// PDF writes the sheet. The bytes depend on nothing but the content.
func PDF(w io.Writer, c Content, paper Paper) error {
	if c.Format == nil {
		return fmt.Errorf("sheet: no formatter was given")
	}
	// Measuring needs a document too; it is thrown away.
	trial := newSheet(&c, paper)
	em := bodies[len(bodies)-1]
	for _, size := range bodies {
		if _, pages := trial.lay(size); pages <= wanted {
			em = size
			break
		}
	}
	s := newSheet(&c, paper)
	s.draw(em)
	if err := s.doc.Output(w); err != nil {
		return fmt.Errorf("write pdf: %w", err)
	}
	return nil
}

// page is the sheet on its way into a document.
type page struct {
	ink
	c     *Content
	paper Paper
}

func newSheet(c *Content, paper Paper) *page {
	doc := fpdf.NewCustom(&fpdf.InitType{
		OrientationStr: "P", UnitStr: "pt",
		Size: fpdf.SizeType{Wd: paper.Width, Ht: paper.Height},
	})
	doc.SetAutoPageBreak(false, 0)
	doc.SetMargins(0, 0, 0)
	doc.SetCatalogSort(true)
	// Fixed dates keep the bytes the same for the same content.
	doc.SetCreationDate(time.Unix(0, 0).UTC())
	doc.SetModificationDate(time.Unix(0, 0).UTC())
	doc.SetProducer("Skep", true)
	doc.SetCreator("Skep", true)
	doc.SetTitle(c.title(), true)
	doc.SetSubject("Brew sheet", true)
	doc.SetKeywords("brew sheet, honey beer", true)
	lang := c.Language
	if lang == "" {
		lang = "en"
	}
	doc.SetLang(lang)
	doc.AddPage()
	plotting.OnPDF(doc)
	return &page{ink{doc}, c, paper}
}

// lay puts all rows of the day into columns.
func (g *page) lay(em float64) ([]placed, int) {
	s := setter{ink: g.ink, c: g.c, em: em}
	inner := g.paper.Width - 2*margin
	top := s.head(margin, margin, inner, false)
	s.wide = (inner - gutter*(columns-1)) / columns
	var rows []row
	for i := range g.c.Day.Steps {
		rows = append(rows, s.step(i+1, &g.c.Day.Steps[i])...)
	}
	return flow(rows, func(i int) frame {
		f := frame{page: i / columns, x: margin + float64(i%columns)*(s.wide+gutter), y: margin, bottom: g.paper.Height - margin - foot}
		if f.page == 0 {
			f.y = top
		}
		return f
	})
}

func (g *page) draw(em float64) {
	s := setter{ink: g.ink, c: g.c, em: em}
	all, pages := g.lay(em)
	s.head(margin, margin, g.paper.Width-2*margin, true)
	now := 0
	for _, p := range all {
		for now < p.page {
			g.footer(now, pages)
			g.doc.AddPage()
			now++
		}
		p.draw(p.x, p.y)
	}
	g.footer(now, pages)
}

// footer is the small print and the page number.
func (g *page) footer(n, pages int) {
	base, size := g.paper.Height-margin+2, 8.5
	end := g.paper.Width - margin
	number := fmt.Sprintf("page %d of %d", n+1, pages)
	g.right(end, base, number, size, true, black)
	room := g.paper.Width - 2*margin - g.width(number, size, true) - 12
	g.text(margin, base, g.cut(fine+"  "+g.c.title(), size, false, room), size, false, muted)
}
