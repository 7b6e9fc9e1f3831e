package paper_test

import (
	"bytes"
	"strings"
	"testing"

	"skep/assets/demotest"

	"golang.org/x/text/language"

	"skep/app/paper"
	wordlist "skep/app/words"
	"skep/app/words/plain"
	"skep/assets"
	"skep/calc/design"
	"skep/calc/quantity"
	"skep/plotting/sheet"
)

// units are the signs of units, which every language has.
const units = "kg mg mL min vol"

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
		typed := d.Title
		for _, g := range d.Grain {
			typed += " " + g.Name
		}
		for _, h := range d.Honey {
			typed += " " + h.Name
		}
		for _, h := range d.Hop {
			typed += " " + h.Name
		}
		for _, y := range d.Yeast {
			typed += " " + y.Name
		}
		if d.Ghost != nil {
			typed += " " + d.Ghost.Name
		}
		text := b.String()
		if english := plain.English(text, nil, plain.Words(typed, units)); len(english) > 0 {
			t.Errorf("%s: English that no language reaches: %q", name, english)
		}
		if !strings.Contains(text, "ö") {
			t.Error("the sheet is not in the pseudo-language")
		}
	}
}
