package paper_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"skep/assets/demotest"

	"golang.org/x/text/language"

	"skep/app/paper"
	wordlist "skep/app/words"
	"skep/assets"
	"skep/calc/design"
	"skep/calc/quantity"
	"skep/plotting/sheet"
)

// On a sheet in the pseudo-language no plain English word stands but what a
// person typed, names and units: what does would be English in every language.
func TestNoEnglishOnTheSheet(t *testing.T) {
	t.Parallel()
	pseudo := wordlist.Find([]language.Tag{wordlist.Pseudo})
	for _, name := range assets.Demos() {
		d := demotest.Design(t, name)
		d.Water, d.Batch.Brewed = &design.Water{Calcium: 80, Bicarbonate: 180, GypsumG: 2, MashPHWanted: new(5.3)}, "2026-06-20"
		c, err := paper.Content(d, paper.Options{Yeasts: true, Batches: 3})
		if err != nil {
			t.Fatal(err)
		}
		c.Format = paper.Formatter{Formatter: quantity.NewFormatter(quantity.Units{}, pseudo.Translate)}
		var b bytes.Buffer
		if err := sheet.Text(&b, c); err != nil {
			t.Fatal(err)
		}
		var typed []string
		for _, g := range d.Grain {
			typed = append(typed, g.Name)
		}
		for _, h := range d.Honey {
			typed = append(typed, h.Name)
		}
		for _, h := range d.Hop {
			typed = append(typed, h.Name)
		}
		for _, y := range d.Yeast {
			typed = append(typed, y.Name)
		}
		text := strings.ToLower(b.String())
		typed = append(typed, d.Title)
		if d.Ghost != nil {
			typed = append(typed, d.Ghost.Name)
		}
		for _, name := range typed {
			text = strings.ReplaceAll(text, strings.ToLower(name), "")
			for word := range strings.FieldsSeq(name) { // a name may be broken over lines
				text = strings.ReplaceAll(text, strings.ToLower(word), "")
			}
		}
		seen := map[string]bool{}
		for _, word := range regexp.MustCompile(`(^|[^\pL])([a-z]{3,})($|[^\pL])`).FindAllStringSubmatch(text, -1) {
			if w := word[2]; !seen[w] {
				seen[w] = true
				t.Errorf("%s: %q is English that no language reaches", name, w)
			}
		}
		if !strings.Contains(text, "ö") {
			t.Error("the sheet is not in the pseudo-language")
		}
	}
}
