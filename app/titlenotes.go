package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// editTitle opens the drawer in which the design's title and notes are written.
func (b *bench) editTitle() {
	d := b.Design()
	title, notes := ui.NewEntry(b), ui.NewEntry(b)
	notes.MultiLine, notes.Wrapping = true, fyne.TextWrapWord
	title.Name, notes.Name = words.T("title"), words.T("notes")
	note := ui.NewParagraph("", look.CaptionSize, ui.InkWarning)
	set := func(e *ui.Entry, text string) { e.Rest = text; e.SetText(text) }
	set(title, d.Title)
	set(notes, d.Notes)
	var drawer *ui.Drawer
	title.Leave = func() { drawer.Close() }
	notes.Leave = title.Leave
	take := func() {
		if title.Text == title.Rest && notes.Text == notes.Rest {
			drawer.Close()
			return
		}
		if err := b.Edit(words.T("title and notes"), func(d *design.Design) { d.Title, d.Notes = title.Text, notes.Text }); err != nil {
			note.SetText(b.Say().Why(err))
			drawer.Fit()
			return
		}
		drawer.Close()
	}
	title.OnSubmitted = func(string) { take() }
	keep := ui.NewButton(words.T("Keep"), take)
	keep.Importance = widget.HighImportance
	const notesHigh = 160
	drawer = ui.NewDrawer(b, words.T("Title and notes"), 420,
		ui.NewCaption(words.T("title"), look.CaptionSize, false, ui.InkQuiet), title,
		ui.NewCaption(words.T("notes"), look.CaptionSize, false, ui.InkQuiet),
		container.NewGridWrap(fyne.NewSize(420-2*16, notesHigh), notes), note, container.NewHBox(keep))
	ui.Focus(b, title)
}
