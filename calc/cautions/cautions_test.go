package cautions_test

import (
	"io/fs"
	"os"
	"strings"
	"testing"

	"skep/calc/cautions"
)

// The cautions of a whole brew follow what is in it.
func TestOf(t *testing.T) {
	t.Parallel()
	all := func(b cautions.Brew) string {
		var out []string
		for _, c := range cautions.Of(b) {
			out = append(out, c.String())
		}
		return strings.Join(out, "\n")
	}
	plain, honey, keg := all(cautions.Brew{}), all(cautions.Brew{Honey: true, LateHoney: true}), all(cautions.Brew{Keg: true})
	for _, c := range []struct {
		words string
		has   [3]bool // plain, honey, keg
	}{
		{"boils over", [3]bool{true, true, true}},
		{"foams over", [3]bool{false, true, false}},
		{"infants", [3]bool{false, true, false}},
		{"Glass", [3]bool{true, true, false}},
		{"relief valve", [3]bool{false, false, true}},
		{"holds alcohol", [3]bool{true, true, true}},
	} {
		for i, text := range []string{plain, honey, keg} {
			if strings.Contains(text, c.words) != c.has[i] {
				t.Errorf("%q: case %d, wanted %v of\n%s", c.words, i, c.has[i], text)
			}
		}
	}
}

// A sentence about what can hurt stands here and nowhere else in the code.
func TestSaidOnce(t *testing.T) {
	t.Parallel()
	for _, words := range []string{"foams over:", "foam over: leave", "infants under twelve months, not even", "burns and harms", "scald at once", "bursts and maims:"} {
		var found []string
		for _, root := range []string{"../../calc", "../../app", "../../plotting"} {
			err := fs.WalkDir(os.DirFS(root), ".", func(path string, d fs.DirEntry, err error) error {
				if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
					return err
				}
				src, err := fs.ReadFile(os.DirFS(root), path)
				if strings.Contains(string(src), words) {
					found = append(found, root+"/"+path)
				}
				return err
			})
			if err != nil {
				t.Fatal(err)
			}
		}
		if len(found) > 1 {
			t.Errorf("%q stands in %v", words, found)
		}
	}
}
