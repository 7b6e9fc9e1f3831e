package brew

import (
	"cmp"

	"fyne.io/fyne/v2"

	"skep/app/disk"
	"skep/app/ui"
	"skep/app/ui/picker"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc/design"
)

// shelf reads what the person keeps of their own, and shows what is made of it; what
// is wrong with its files is said where one looks for it.
func (p *Place) shelf(show func(userfile.Shelf)) {
	folder, wanted := p.host.ShelfFolder(), ui.Wanted(p.host)
	p.host.Disk().Ask(disk.Own, words.T("Reading {file}…", folder), func() func() {
		s := userfile.LoadShelf(folder)
		return func() {
			if len(s.Problems) > 0 {
				p.host.Warn(words.T("Of your shelf is left out: {why}", p.host.Say().Why(s.Problems[0])))
			}
			if wanted() {
				show(s)
			}
		}
	})
}

// ownNote is what stands beside a thing of one's own.
func ownNote(about design.About) string { return cmp.Or(about.Note, words.T("from your shelf")) }

// keeper is a picker under whose list what this brew has already can be kept on the
// person's shelf. keep writes it, beside the window.
func (p *Place) keeper(n int, name func(i int) string, keep func(i int) error, title string, all []picker.Item, own func(name string) picker.Item) *picker.Picker {
	k := p.newPicker(title, all, own)
	if n == 0 {
		return k
	}
	var foot *ui.Choice
	foot = ui.NewChoice(words.T("keep one of this brew on my shelf"), true, func() {
		var items []*fyne.MenuItem
		for i := range n {
			items = append(items, fyne.NewMenuItem(ui.OrUnnamed(name(i)), func() {
				p.host.Write(disk.Own, p.host.ShelfFolder(), func() error { return keep(i) }, func(err error) {
					if err != nil {
						p.host.Warn(p.host.Say().Why(err))
						return
					}
					k.Hide()
					p.host.ShowMessage(words.T("{name} is on your shelf, with the figures of this brew", ui.OrUnnamed(name(i))))
				})
			}))
		}
		ui.PopUp(p.host, foot, items...)
	})
	k.Foot = foot
	return k
}
