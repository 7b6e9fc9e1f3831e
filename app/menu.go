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
		fyne.NewMenuItem(words.T("Dry"), func() { b.AskDemo(assets.DemoDry) }),
		fyne.NewMenuItem(words.T("Midsummer"), func() { b.AskDemo(assets.DemoMiddle) }),
		fyne.NewMenuItem(words.T("Soft"), func() { b.AskDemo(assets.DemoSoft) }))
	brew := fyne.NewMenuItem(words.T("Brew this"), b.brewThis)
	if d := b.Design(); d.Batch.Brewed != "" {
		brew = fyne.NewMenuItem(words.T("Brew again"), b.brewThisAgain)
	}
	m := fyne.NewMenu("",
		item(words.T("New"), words.T("Ctrl+N"), b.AskNew),
		item(words.T("Open…"), words.T("Ctrl+O"), b.AskOpen),
		item(words.T("Save"), words.T("Ctrl+S"), func() { b.Save(nil) }),
		item(words.T("Save as…"), words.T("Ctrl+Shift+S"), func() { b.SaveAs(nil) }),
		fyne.NewMenuItem(words.T("Version before the last save"), b.OpenPrevious),
		fyne.NewMenuItem(words.T("Unsaved work of a crash…"), b.AskLeft),
		demos,
		fyne.NewMenuItemSeparator(),
		item(words.T("Brew day…"), words.T("Ctrl+D"), b.startDay),
		brew,
		item(words.T("Print…"), words.T("Ctrl+P"), b.brew.Print),
		item(words.T("Language, units and appearance…"), words.T("Ctrl+,"), b.showPreferences),
		item(words.T("Keys and words"), words.Keys("F1"), b.showHelp),
		fyne.NewMenuItemSeparator(),
		item(words.T("Close"), words.T("Ctrl+Q"), b.AskClose))
	pop := widget.NewPopUpMenu(m, b.Window().Canvas())
	size := b.bar.more.Size()
	pop.ShowAtRelativePosition(fyne.NewPos(size.Width-pop.MinSize().Width, size.Height), b.bar.more)
}
