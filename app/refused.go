package app

import (
	"strings"

	"skep/app/ui"
)

// mend leads to the place that changes the value of a key.
func (b *bench) mend(key string) {
	table, _, _ := strings.Cut(key, ".")
	switch table {
	case "title", "notes":
		b.editTitle()
	case "taste":
		b.goTo(0)
	case "reading":
		b.goTo(3)
	case "yeast":
		if strings.Contains(key, ".attenuation_") {
			b.goTo(0)
			ui.Focus(b, b.taste.Levers.Yeast)
			return
		}
		b.goTo(2)
		b.brew.Mend(key)
	default:
		b.goTo(2)
		b.brew.Mend(key)
	}
}
