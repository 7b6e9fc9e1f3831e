package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"skep/app/words"
	"skep/assets"
)

// menu is what the three dots open.
func (b *bench) menu() {
	// The keys stand in the text: Fyne writes a menu item's own shortcut in
	// the colour of shadows, too faint to read.
	item := func(text, keys string, do func()) *fyne.MenuItem {
		return fyne.NewMenuItem(words.T("{text}   ({keys})", text, keys), do)
	}
	demos := fyne.NewMenuItem(words.T("Gate Field designs"), nil)
	demos.ChildMenu = fyne.NewMenu("",
		fyne.NewMenuItem(words.T("Dry"), func() { b.askDemo(assets.DemoDry) }),
		fyne.NewMenuItem(words.T("Midsummer"), func() { b.askDemo(assets.DemoMiddle) }),
		fyne.NewMenuItem(words.T("Soft"), func() { b.askDemo(assets.DemoSoft) }))
	brew := fyne.NewMenuItem(words.T("Brew this"), b.brewThis)
	if d := b.Design(); d.Batch.Brewed != "" {
		brew = fyne.NewMenuItem(words.T("Brew again"), b.brewThisAgain)
	}
	m := fyne.NewMenu("",
		item(words.T("New"), "Ctrl+N", b.askNew),
		item(words.T("Open…"), "Ctrl+O", b.askOpen),
		item(words.T("Save"), "Ctrl+S", func() { b.save(nil) }),
		item(words.T("Save as…"), "Ctrl+Shift+S", func() { b.saveAs(nil) }),
		fyne.NewMenuItem(words.T("Version before the last save"), b.openPrevious),
		fyne.NewMenuItem(words.T("Unsaved work of a crash…"), b.askLeft),
		demos,
		fyne.NewMenuItemSeparator(),
		item(words.T("Brew day…"), "Ctrl+D", b.startDay),
		brew,
		item(words.T("Print…"), "Ctrl+P", b.brew.Print),
		item(words.T("Language, units and appearance…"), "Ctrl+,", b.showPreferences),
		item(words.T("Keys and words"), "F1", b.showHelp),
		fyne.NewMenuItemSeparator(),
		item(words.T("Close"), "Ctrl+Q", b.askClose))
	pop := widget.NewPopUpMenu(m, b.Window().Canvas())
	at := b.App.Driver().AbsolutePositionForObject(b.bar.more)
	size := b.bar.more.Size()
	pop.ShowAtPosition(fyne.NewPos(at.X+size.Width-pop.MinSize().Width, at.Y+size.Height))
}
