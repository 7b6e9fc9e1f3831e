// Package help is the drawer under F1: the keys that work anywhere, and what each word
// of the trade means, one sentence each.
//
// What was typed into its search comes in, what fits it is shown. It must not know a
// place, nor a design.
package help

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/ui/layouts"
	"skep/app/words"
)

// Key is a key, or some that go together, and what it does.
type Key struct{ Keys, Does string }

// Term is a word of the trade with its sentence.
type Term struct{ Word, Means string }

// drawer shows what the search finds.
type drawer struct {
	*ui.Drawer
	search *ui.Entry
	found  *fyne.Container
}

const (
	wide     = 520
	listWide = wide - 2*24
	gap      = 7
)

// Open shows the drawer with the keyboard in its search.
func Open(h ui.Host) {
	d := &drawer{search: ui.NewEntry(h), found: container.New(&layouts.Stack{Width: listWide, Between: gap})}
	d.search.SetPlaceHolder(words.T("search a key or a word"))
	d.search.OnChanged = func(text string) { d.fill(text); d.Fit() }
	d.fill("")
	d.Drawer = ui.NewDrawer(h, words.T("Keys and words"), wide, d.search, d.found)
	d.search.Leave = d.Close
	ui.Focus(h, d.search)
}

// fill lists what has every word that was typed.
func (d *drawer) fill(text string) {
	d.found.RemoveAll()
	typed := strings.Fields(strings.ToLower(text))
	fits := func(in string) bool {
		in = strings.ToLower(in)
		for _, w := range typed {
			if !strings.Contains(in, w) {
				return false
			}
		}
		return true
	}
	add := func(head, text string) {
		if fits(head + " " + text) {
			d.found.Add(container.New(&layouts.Stack{Width: listWide},
				ui.NewCaption(head, look.CaptionSize+1, true, ui.InkFull),
				ui.NewParagraph(text, look.CaptionSize+1, ui.InkQuiet)))
		}
	}
	for _, k := range keys() {
		add(k.Keys, k.Does)
	}
	for _, t := range terms() {
		add(t.Word, t.Means)
	}
	if len(d.found.Objects) == 0 {
		d.found.Add(ui.NewCaption(words.T("nothing fits: try fewer letters"), look.CaptionSize+1, false, ui.InkQuiet))
	}
}
