package ui

import (
	"skep/app/words"
	"skep/calc/design"
)

// BrewWith makes a strain the brew's own: its range comes with it.
func BrewWith(h Host, y design.Yeast) {
	Change(h, words.T("yeast {name}", y.Name), func(d *design.Design) {
		for i := range d.Yeast {
			if i > 0 && d.Yeast[i] == y { // it stands beside the other: change places
				d.Yeast[0], d.Yeast[i] = d.Yeast[i], d.Yeast[0]
				return
			}
		}
		d.Yeast[0] = y
	})
}
