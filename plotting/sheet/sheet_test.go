package sheet

import (
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"
	"pgregory.net/rapid"

	"skep/plotting"
)

func ruler() ink {
	doc := fpdf.New("P", "pt", "", "")
	plotting.OnPDF(doc)
	return ink{doc, doc}
}

// TestFlow: rows keep their order, none is lost, none leaves its column, and
// what is kept together starts together wherever a column can hold it.
func TestFlow(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		const top, bottom = 50.0, 250.0
		var rows []row
		for range rapid.IntRange(1, 60).Draw(t, "rows") {
			rows = append(rows, row{
				high: rapid.Float64Range(0, 90).Draw(t, "high"), draw: func(x, y float64) {},
				keep: rapid.Bool().Draw(t, "keep"), gap: rapid.IntRange(0, 4).Draw(t, "gap") == 0,
			})
		}
		all, pages := flow(rows, func(i int) frame { return frame{page: i / 2, x: float64(i % 2), y: top, bottom: bottom} })
		n, column, y := 0, 0, top
		for i, p := range all {
			for n < len(rows) && (rows[n].high != p.high || rows[n].keep != p.keep || rows[n].gap != p.gap) {
				if !rows[n].gap {
					t.Fatalf("row %d is lost", n)
				}
				n++
			}
			n++
			at := 2*p.page + int(p.x)
			if at < column || at == column && p.y < y {
				t.Fatalf("row %d goes back", i)
			}
			if at > column {
				y = top
			}
			column, y = at, p.y+p.high
			if p.y < top || p.y+p.high > bottom+1e-9 && p.y > top {
				t.Fatalf("row %d from %v to %v", i, p.y, p.y+p.high)
			}
			if p.gap && p.y == top {
				t.Fatalf("air at the top of a column")
			}
		}
		if all != nil && pages != all[len(all)-1].page+1 {
			t.Fatalf("%d pages", pages)
		}
	})
}

// TestKept: a heading does not end a column.
func TestKept(t *testing.T) {
	t.Parallel()
	rows := []row{{high: 80}, {high: 15, keep: true}, {high: 15}}
	all, _ := flow(rows, func(i int) frame { return frame{x: float64(i), bottom: 100} })
	if all[1].x != 1 || all[1].y != 0 || all[2].x != 1 {
		t.Errorf("heading in column %v at %v, its text in %v", all[1].x, all[1].y, all[2].x)
	}
}

// TestWrap: no line is wider than asked, no letter is lost, and a number stays
// with its unit.
func TestWrap(t *testing.T) {
	t.Parallel()
	k := ruler()
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(rapid.RuneFrom([]rune("abc äW°₂–  ")), 0, 80, -1).Draw(t, "text")
		bold := rapid.StringOfN(rapid.RuneFrom([]rune("12.\u00a0g ")), 0, 30, -1).Draw(t, "bold")
		wide := rapid.Float64Range(30, 300).Draw(t, "wide")
		got := ""
		for _, line := range k.wrap([]span{{text, false}, {bold, true}}, 11, wide) {
			sum := 0.0
			for _, s := range line {
				sum += k.width(s.text, 11, s.bold)
				got += s.text
			}
			if sum > wide+0.01 {
				t.Fatalf("a line of %v in %v", sum, wide)
			}
		}
		bare := func(s string) string { return strings.ReplaceAll(s, " ", "") }
		if bare(got) != bare(text+bold) {
			t.Fatalf("%q became %q", text+bold, got)
		}
	})
	if n := len(k.wrap([]span{{"take 14\u00a0g", false}}, 11, k.width("14\u00a0g", 11, false)+1)); n != 2 {
		t.Errorf("%d lines, want the number and its unit on the second", n)
	}
}

func TestClean(t *testing.T) {
	t.Parallel()
	for in, want := range map[string]string{
		"Gärfeld’s\tCO₂ bei\n20 °C": "Gärfeld’s CO₂ bei 20 °C",
		"蜂蜜 🐝 beer":                 "□□ □ beer",
		"\u202Eabc\x00\x1b[31m":     "abc[31m",
		"  ":                        "",
	} {
		if got := clean(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}

func TestPaper(t *testing.T) {
	t.Parallel()
	// 210 by 297 mm and 8.5 by 11 in, a point being a 72nd of an inch.
	a4, _ := PaperOf("a4")
	letter, _ := PaperOf("letter")
	if w, h := a4.Width/72*25.4, a4.Height/72*25.4; w < 209.9 || w > 210.1 || h < 296.9 || h > 297.1 {
		t.Errorf("a4 is %v by %v mm", w, h)
	}
	if letter.Width != 8.5*72 || letter.Height != 11*72 {
		t.Errorf("letter is %v by %v", letter.Width, letter.Height)
	}
	if _, err := PaperOf("a5"); err == nil {
		t.Error("a5 was taken")
	}
}

// TestNoStepOverPages: a block that a page can hold is on one page, and all rows
// are there.
func TestNoStepOverPages(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		const bottom = 250.0
		top := rapid.Float64Range(0, bottom).Draw(t, "below the head")
		var blocks [][]row
		for range rapid.IntRange(1, 12).Draw(t, "steps") {
			var rows []row
			for range rapid.IntRange(1, 12).Draw(t, "rows") {
				rows = append(rows, row{high: rapid.Float64Range(1, 40).Draw(t, "high"), keep: rapid.Bool().Draw(t, "keep")})
			}
			blocks = append(blocks, rows)
		}
		next := func(i int) frame {
			f := frame{page: i / 2, x: float64(i % 2), bottom: bottom}
			if f.page == 0 {
				f.y = top
			}
			return f
		}
		all, _ := flowWhole(blocks, next)
		for n, rows := range blocks {
			part := all[:len(rows)]
			all = all[len(rows):]
			if part[0].page == part[len(part)-1].page {
				continue
			}
			alone, _ := flow(rows, func(i int) frame { return frame{page: i / 2, x: float64(i % 2), bottom: bottom} })
			if alone[len(alone)-1].page == 0 {
				t.Fatalf("step %d runs from page %d to %d", n, part[0].page, part[len(part)-1].page)
			}
		}
		if len(all) > 0 {
			t.Fatalf("%d rows more than there were", len(all))
		}
	})
}
