package brew

import (
	"cmp"

	"fyne.io/fyne/v2"

	"skep/app/ui"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc/design"
)

// shelf is what the person keeps of their own; what is wrong with its files is
// said once, where one looks for it.
func (p *Place) shelf() userfile.Shelf {
	s := p.host.Shelf()
	if len(s.Problems) > 0 {
		p.host.Warn(words.T("Of your shelf is left out: {why}", s.Problems[0].Error()))
	}
	return s
}

// ownNote is what stands beside a thing of one's own.
func ownNote(about design.About) string { return cmp.Or(about.Note, words.T("from your shelf")) }

// keeper is a picker under whose list what this brew has already can be kept on the
// person's shelf.
func (p *Place) keeper(n int, name func(i int) string, keep func(i int) error, title string, all []ui.Item, own func(name string) ui.Item) *ui.Picker {
	k := p.newPicker(title, all, own)
	if n == 0 {
		return k
	}
	var foot *ui.Choice
	foot = ui.NewChoice(words.T("keep one of this brew on my shelf"), true, func() {
		var items []*fyne.MenuItem
		for i := range n {
			items = append(items, fyne.NewMenuItem(ui.OrUnnamed(name(i)), func() {
				if err := keep(i); err != nil {
					p.host.Warn(words.Error(err))
					return
				}
				k.Hide()
				p.host.Tell(words.T("{name} is on your shelf, with the figures of this brew", ui.OrUnnamed(name(i))))
			}))
		}
		ui.PopUp(p.host, foot, items...)
	})
	k.Foot = foot
	return k
}
