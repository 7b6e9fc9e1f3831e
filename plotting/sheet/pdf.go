package sheet

import (
	"io"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"skep/calc/message"
	"skep/plotting"
)

// The page: margins of 15 mm, two columns.
const (
	margin  = 42.5
	gutter  = 20.0
	columns = 2
	foot    = 15.0 // from the columns' end down to the page number's line
)

// setting is how the text is set.
type setting struct {
	em       float64 // size of the body text, points
	why      bool    // with the reason for each step
	pictures bool    // with the four pictures at the head
}

// settings are tried in order until the sheet takes two pages; a day too long
// for that takes the first with the fewest. Reasons go first, then the pictures,
// which the window shows better; what is to be done stays, in smaller letters.
var settings = []setting{
	{11.5, true, true}, {11.25, true, true}, {11, true, true}, {10.8, true, true}, {10.6, true, true},
	{11, false, true}, {10.8, false, true}, {10.6, false, true}, {10.3, false, true},
	{10.6, false, false}, {10.3, false, false}, {10, false, false}, {9.7, false, false}, {9.4, false, false}, {9, false, false},
}

const wanted = 2 // pages

// PDF writes the sheet. The bytes depend on nothing but the content.
func PDF(w io.Writer, c Content, paper Paper) error {
	if c.Format == nil {
		return message.Fault("sheet: no formatter was given")
	}
	s := newSheet(&c, paper)
	s.draw(s.choose())
	if err := s.doc.Output(w); err != nil {
		return message.NewError("the sheet can't be written: {error}", err)
	}
	return nil
}

// choose finds the first setting that takes two pages, or as few as can be.
func (g *page) choose() setting {
	chosen, fewest := settings[0], math.MaxInt
	for _, as := range settings {
		if _, pages := g.lay(as); pages < fewest {
			chosen, fewest = as, pages
		}
		if fewest <= wanted {
			break
		}
	}
	return chosen
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
	doc.SetSubject(c.text("Brew sheet"), true)
	doc.SetKeywords(c.text("brew sheet, honey beer"), true)
	lang := c.Language
	if lang == "" {
		lang = "en"
	}
	doc.SetLang(lang)
	doc.AddPage()
	plotting.OnPDF(doc)
	ruler := fpdf.New("P", "pt", "", "")
	plotting.OnPDF(ruler)
	return &page{ink{doc, ruler}, c, paper}
}

// lay puts all rows of the day into columns.
func (g *page) lay(as setting) ([]placed, int) {
	s := g.setter(as)
	inner := g.paper.Width - 2*margin
	top := s.head(margin, margin, inner, false)
	s.wide = (inner - gutter*(columns-1)) / columns
	var steps [][]row
	for i := range g.c.Day.Steps {
		steps = append(steps, s.step(i+1, &g.c.Day.Steps[i]))
	}
	return flowWhole(steps, func(i int) frame {
		f := frame{page: i / columns, x: margin + float64(i%columns)*(s.wide+gutter), y: margin, bottom: g.paper.Height - margin}
		if f.page == 0 {
			f.y = top
		}
		return f
	})
}

func (g *page) setter(as setting) setter {
	return setter{ink: g.ink, c: g.c, setting: as}
}

func (g *page) draw(as setting) {
	s := g.setter(as)
	all, pages := g.lay(as)
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
	base, size := g.paper.Height-margin+foot, 8.5
	end := g.paper.Width - margin
	number := g.c.say(message.New("page {number} of {pages}", n+1, pages))
	g.right(end, base, number, size, true, black)
	room := g.paper.Width - 2*margin - g.width(number, size, true) - 12
	g.text(margin, base, g.cut(g.c.fine()+"  "+g.c.title(), size, false, room), size, false, muted)
}
