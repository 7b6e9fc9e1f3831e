package sheet

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/sfnt"

	"skep/plotting"
)

// grey is a shade of ink, 0 black.
const (
	black = 0
	muted = 74 // 8.9:1 on white
	faint = 150
)

// ink writes text on the document. Sizes and places are points.
type ink struct {
	doc   *fpdf.Fpdf
	ruler *fpdf.Fpdf // a document without a page, to measure with: nothing of it is written
}

func font(doc *fpdf.Fpdf, size float64, bold bool) {
	style := ""
	if bold {
		style = "B"
	}
	// The size goes through the second call, which always writes it: a picture
	// may have left another font behind.
	doc.SetFont(plotting.PDFFont, style, 0)
	doc.SetFontUnitSize(size)
}

func (k ink) text(x, base float64, s string, size float64, bold bool, shade int) {
	if s == "" {
		return
	}
	font(k.doc, size, bold)
	k.doc.SetTextColor(shade, shade, shade)
	k.doc.Text(x, base, s)
}

// right writes a text that ends at x.
func (k ink) right(x, base float64, s string, size float64, bold bool, shade int) {
	k.text(x-k.width(s, size, bold), base, s, size, bold, shade)
}

func (k ink) width(s string, size float64, bold bool) float64 {
	font(k.ruler, size, bold)
	return k.ruler.GetStringWidth(s)
}

func (k ink) line(x1, y1, x2, y2, wide float64, shade int) {
	k.doc.SetDrawColor(shade, shade, shade)
	k.doc.SetLineWidth(wide)
	k.doc.Line(x1, y1, x2, y2)
}

// box is an empty square to tick, its foot on a base line.
func (k ink) box(x, base, side float64) {
	k.doc.SetDrawColor(black, black, black)
	k.doc.SetLineWidth(0.9)
	k.doc.Rect(x, base-side+0.12*side, side, side, "D")
}

// span is a piece of text of one weight.
type span struct {
	text string
	bold bool
}

// wrap breaks spans into lines no wider than wide; a word too long for a line
// is broken where it must be.
func (k ink) wrap(spans []span, size, wide float64) [][]span {
	var lines [][]span
	var now []span
	used := 0.0
	space := k.width(" ", size, false)
	flush := func() {
		if len(now) > 0 {
			lines = append(lines, now)
		}
		now, used = nil, 0
	}
	for _, w := range words(spans) {
		long := 0.0
		for _, p := range w {
			long += k.width(p.text, size, p.bold)
		}
		if used > 0 && used+space+long > wide {
			flush()
		}
		if long > wide {
			for _, piece := range k.chop(w, size, wide) {
				flush()
				now, used = piece, wide
			}
			continue
		}
		if used > 0 {
			now = append(now, span{" ", false})
			used += space
		}
		now = append(now, w...)
		used += long
	}
	flush()
	return lines
}

// chop breaks one word that is wider than a line.
func (k ink) chop(w []span, size, wide float64) [][]span {
	var out [][]span
	var now []span
	used := 0.0
	for _, p := range w {
		for _, r := range p.text {
			c := string(r)
			long := k.width(c, size, p.bold)
			if used > 0 && used+long > wide {
				out, now, used = append(out, now), nil, 0
			}
			now = append(now, span{c, p.bold})
			used += long
		}
	}
	return append(out, now)
}

// words splits spans at their spaces; a word may have pieces of both weights. A
// no-break space holds.
func words(spans []span) [][]span {
	var out [][]span
	var now []span
	for _, s := range spans {
		for i, part := range strings.Split(s.text, " ") {
			if i > 0 && len(now) > 0 {
				out, now = append(out, now), nil
			}
			if part != "" {
				now = append(now, span{part, s.bold})
			}
		}
	}
	if len(now) > 0 {
		out = append(out, now)
	}
	return out
}

// spans writes a line of spans; pieces of one weight go out together, so that
// the text in the file is whole words.
func (k ink) spans(x, base float64, line []span, size float64, shade int) {
	for i := 0; i < len(line); {
		j, s := i, ""
		for j < len(line) && line[j].bold == line[i].bold {
			s += line[j].text
			j++
		}
		k.text(x, base, s, size, line[i].bold, shade)
		x += k.width(s, size, line[i].bold)
		i = j
	}
}

// cut shortens a text to a width.
func (k ink) cut(s string, size float64, bold bool, wide float64) string {
	if k.width(s, size, bold) <= wide {
		return s
	}
	for s != "" {
		_, n := utf8.DecodeLastRuneInString(s)
		s = s[:len(s)-n]
		if k.width(s+"…", size, bold) <= wide {
			return strings.TrimRight(s, " ") + "…"
		}
	}
	return ""
}

// face is the typeface, to know which letters it has.
var face = sync.OnceValue(func() *sfnt.Font {
	f, err := sfnt.Parse(liberationsansregular.TTF)
	if err != nil {
		panic("sheet: embedded font: " + err.Error()) // built in: can't fail at run time
	}
	return f
})

// clean makes a person's text fit for the page: no control characters, single
// spaces, and a box for what the typeface has no letter for.
func clean(s string) string {
	var buf sfnt.Buffer
	mapped := strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Mn, r) && r >= 0xFE00 && r <= 0xFE0F:
			return -1
		}
		if g, err := face().GlyphIndex(&buf, r); err != nil || g == 0 || r > 0xFFFF {
			return '□'
		}
		return r
	}, s)
	return strings.Join(strings.Fields(mapped), " ")
}
