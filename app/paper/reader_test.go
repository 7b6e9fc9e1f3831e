package paper_test

import (
	"bytes"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"rsc.io/pdf"

	"skep/plotting/sheet"
)

// word is one piece of text on a page: where its base line starts, in points
// from the lower left.
type word struct {
	text, font string
	x, y, size float64
}

func read(t testing.TB, b []byte) *pdf.Reader {
	t.Helper()
	r, err := pdf.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The operators that move or write text, as the file has them: a font's size, a
// shift of the page under q and Q, a string in two-byte Unicode. The reader's
// own text is no use here: it takes two-byte strings for bytes.
var operators = regexp.MustCompile(`(?s)BT /(\w+) ([\d.]+) Tf ET|1\.0+ 0\.0+ 0\.0+ 1\.0+ (-?[\d.]+) (-?[\d.]+) cm|BT (-?[\d.]+) (-?[\d.]+) Td \(((?:\\.|[^\\)])*)\) Tj ET|\b(q)\b|\b(Q)\b`)

// words reads a page.
func words(t testing.TB, page pdf.Page) []word {
	t.Helper()
	stream, err := io.ReadAll(page.V.Key("Contents").Reader())
	if err != nil {
		t.Fatal(err)
	}
	num := func(b []byte) float64 { v, _ := strconv.ParseFloat(string(b), 64); return v }
	type shift struct{ x, y float64 }
	var now shift
	var stack []shift
	var out []word
	face, size := "", 0.0
	for _, m := range operators.FindAllSubmatch(stream, -1) {
		switch {
		case m[1] != nil:
			face, size = string(m[1]), num(m[2])
		case m[3] != nil:
			now.x, now.y = now.x+num(m[3]), now.y+num(m[4])
		case m[8] != nil:
			stack = append(stack, now)
		case m[9] != nil && len(stack) > 0:
			now, stack = stack[len(stack)-1], stack[:len(stack)-1]
		case m[5] != nil:
			out = append(out, word{unicode(m[7]), face, num(m[5]) + now.x, num(m[6]) + now.y, size})
		}
	}
	return out
}

// unicode decodes a string of the file: escapes, then big-endian UTF-16.
func unicode(raw []byte) string {
	var b []byte
	for i := 0; i < len(raw); i++ {
		if raw[i] == '\\' && i+1 < len(raw) {
			i++
			switch raw[i] {
			case 'r':
				b = append(b, '\r')
			case 'n':
				b = append(b, '\n')
			default:
				b = append(b, raw[i])
			}
			continue
		}
		b = append(b, raw[i])
	}
	var u []uint16
	for i := 0; i+1 < len(b); i += 2 {
		u = append(u, uint16(b[i])<<8|uint16(b[i+1]))
	}
	return string(utf16.Decode(u))
}

// wide is how wide a text is.
func wide(t testing.TB, s string, size float64, bold bool) float64 {
	t.Helper()
	ttf := liberationsansregular.TTF
	if bold {
		ttf = liberationsansbold.TTF
	}
	f, err := opentype.Parse(ttf)
	if err != nil {
		t.Fatal(err)
	}
	var buf sfnt.Buffer
	const unit = 1000
	sum := fixed.Int26_6(0)
	for _, r := range s {
		g, _ := f.GlyphIndex(&buf, r)
		a, err := f.GlyphAdvance(&buf, g, fixed.I(unit), font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		sum += a
	}
	return float64(sum) / 64 / unit * size
}

// inside checks that no word of the pages lies in their margins of 15 mm, save
// the page number's line, which stands 9 mm from the edge. The first word, the
// title, is bold: that tells the two fonts apart.
func inside(t *testing.T, r *pdf.Reader, p sheet.Paper) {
	t.Helper()
	const edge, foot = 42, 26
	var all []word
	for i := 1; i <= r.NumPage(); i++ {
		all = append(all, words(t, r.Page(i))...)
	}
	letters := 0
	for _, w := range all {
		if strings.TrimSpace(w.text) == "" {
			continue
		}
		letters += len([]rune(w.text))
		end := w.x + wide(t, w.text, w.size, w.font == all[0].font)
		if w.x < edge || end > p.Width-edge || w.y < foot || w.y+0.7*w.size > p.Height-edge+1 {
			t.Errorf("%q at %.0f, %.0f to %.0f lies in the margin", w.text, w.x, w.y, end)
		}
	}
	if letters < 3000 {
		t.Errorf("only %d letters could be read", letters)
	}
}

// letters is all text of a PDF without spaces.
func letters(t testing.TB, b []byte) string {
	t.Helper()
	var out strings.Builder
	r := read(t, b)
	for i := 1; i <= r.NumPage(); i++ {
		for _, w := range words(t, r.Page(i)) {
			out.WriteString(w.text)
		}
	}
	return squeeze(out.String())
}
