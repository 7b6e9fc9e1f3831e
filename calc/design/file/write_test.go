package file

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/design"
)

// read parses a text that must be a valid design.
func read(t rapid.TB, src string) *Document {
	t.Helper()
	doc, found := Parse("x.toml", []byte(src))
	if doc == nil || design.HasErrors(found) {
		t.Fatalf("%v\n%s", found, src)
	}
	return doc
}

// What stands in the layouts of a person is read as what was meant.
func TestLayoutsRead(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := genDesign(t)
		src := genSource(t, d)
		if got := read(t, src).Design; !got.Equal(d) {
			t.Fatalf("read\n%+v\nwant\n%+v\nfrom\n%s", got, d, src)
		}
	})
}

// parse(write(x)) = x, for any design laid out in any way and edited in any way.
func TestWriteThenParse(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		src := genSource(t, genDesign(t))
		doc := read(t, src)
		d := genEdit(t, doc.Design)
		if rapid.IntRange(0, 4).Draw(t, "wholly") == 0 {
			d = genDesign(t)
		}
		out, err := doc.Write(d)
		if err != nil {
			t.Fatalf("%v\nfrom\n%s", err, src)
		}
		if got := read(t, string(out)).Design; !got.Equal(d) {
			t.Fatalf("wrote\n%s\nfrom\n%s", out, src)
		}
		if d.Equal(doc.Design) && string(out) != src {
			t.Fatalf("nothing changed, yet\n%s\nbecame\n%s", src, out)
		}
		keeps(t, src, string(out))
	})
}

// keeps checks that comments and unknown keys outside lists and tables that
// may have gone stand in the new text as in the old, in the same order.
func keeps(t *rapid.T, src, out string) {
	if !strings.Contains(src, "# airy") { // a comment hard above a table goes with it
		return
	}
	for _, k := range []string{"top", "batch", "kit", "boil", "package", "taste"} {
		var want, got []string
		for _, l := range strings.Split(src, "\n") {
			if strings.Contains(l, "keep "+k+" ") || strings.Contains(l, "x_"+k+"_") || strings.Contains(l, `x."`+k+"_") {
				want = append(want, strings.TrimSpace(l))
			}
		}
		for _, l := range strings.Split(out, "\n") {
			if strings.Contains(l, "keep "+k+" ") || strings.Contains(l, "x_"+k+"_") || strings.Contains(l, `x."`+k+"_") {
				got = append(got, strings.TrimSpace(l))
			}
		}
		if strings.Join(want, "\n") != strings.Join(got, "\n") {
			t.Fatalf("comments of %s went:\n%v\n%v\n--- from\n%s\n--- to\n%s", k, want, got, src, out)
		}
	}
}
