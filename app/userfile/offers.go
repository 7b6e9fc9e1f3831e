package userfile

import (
	"slices"
	"strings"

	"skep/assets"
	"skep/calc/design"
)

// Offer is a strain that may be brewed with.
type Offer struct {
	Strain design.Yeast
	Note   string
	Own    bool // from the person's own file
}

// Offers are a person's own strains and then the catalogue's. An error is
// about the own file, whose strains are then left out.
func Offers(path string, catalogue assets.Catalogue) ([]Offer, error) {
	own, err := LoadStrains(path)
	var list []Offer
	for _, s := range own {
		list = append(list, Offer{s.Yeast, s.Note, true})
	}
	for _, s := range catalogue.Yeast {
		list = append(list, Offer{s.Yeast, s.Note, false})
	}
	return list, err
}

// Fits says whether every word of a search stands in the strain's name or note.
func (o *Offer) Fits(search string) bool {
	in := strings.ToLower(o.Strain.Name + " " + o.Note)
	return !slices.ContainsFunc(strings.Fields(strings.ToLower(search)), func(word string) bool { return !strings.Contains(in, word) })
}
