package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/words"
	"skep/assets"
)

// shortcuts are the keys that work wherever the focus is. A field that is
// being typed in keeps its own undo.
func (b *bench) shortcuts() {
	on := func(s fyne.Shortcut, do func()) {
		b.Window().Canvas().AddShortcut(s, func(fyne.Shortcut) { do() })
	}
	key := func(name fyne.KeyName, shift bool) fyne.Shortcut {
		s := &desktop.CustomShortcut{KeyName: name, Modifier: fyne.KeyModifierShortcutDefault}
		if shift {
			s.Modifier |= fyne.KeyModifierShift
		}
		return s
	}
	on(key(fyne.KeyN, false), b.askNew)
	on(key(fyne.KeyO, false), b.askOpen)
	on(key(fyne.KeyS, false), func() { b.save(nil) })
	on(key(fyne.KeyS, true), func() { b.saveAs(nil) })
	on(key(fyne.KeyQ, false), b.askClose)
	on(key(fyne.KeyW, false), b.askClose)
	on(key(fyne.KeyP, false), func() { b.brew.Print() }) // from every place
	on(key(fyne.KeyComma, false), b.showPreferences)
	// Undo and redo come as shortcuts of their own, or as plain keys: all of
	// them are registered (design notes, traps B6).
	on(&fyne.ShortcutUndo{}, b.Undo)
	on(&fyne.ShortcutRedo{}, b.Redo)
	on(key(fyne.KeyZ, false), b.Undo)
	on(key(fyne.KeyZ, true), b.Redo)
	on(key(fyne.KeyY, false), b.Redo)
}

// menu is what the three dots open.
func (b *bench) menu() {
	// The keys stand in the text: Fyne writes a menu item's own shortcut in
	// the colour of shadows, too faint to read.
	item := func(text, keys string, do func()) *fyne.MenuItem {
		return fyne.NewMenuItem(words.T("{{.Text}}   ({{.Keys}})", map[string]any{"Text": text, "Keys": keys}), do)
	}
	demos := fyne.NewMenuItem(words.T("Gate Field designs"), nil)
	demos.ChildMenu = fyne.NewMenu("",
		fyne.NewMenuItem(words.T("Dry"), func() { b.askDemo(assets.DemoDry) }),
		fyne.NewMenuItem(words.T("Midsummer"), func() { b.askDemo(assets.DemoMiddle) }),
		fyne.NewMenuItem(words.T("Soft"), func() { b.askDemo(assets.DemoSoft) }))
	m := fyne.NewMenu("",
		item(words.T("New"), "Ctrl+N", b.askNew),
		item(words.T("Open…"), "Ctrl+O", b.askOpen),
		item(words.T("Save"), "Ctrl+S", func() { b.save(nil) }),
		item(words.T("Save as…"), "Ctrl+Shift+S", func() { b.saveAs(nil) }),
		fyne.NewMenuItem(words.T("Version before the last save"), b.openPrevious),
		fyne.NewMenuItem(words.T("Unsaved work of a crash…"), b.askLeft),
		demos,
		fyne.NewMenuItemSeparator(),
		item(words.T("Print…"), "Ctrl+P", b.brew.Print),
		item(words.T("Units and appearance…"), "Ctrl+,", b.showPreferences),
		fyne.NewMenuItemSeparator(),
		item(words.T("Close"), "Ctrl+Q", b.askClose))
	pop := widget.NewPopUpMenu(m, b.Window().Canvas())
	at := b.App.Driver().AbsolutePositionForObject(b.bar.more)
	size := b.bar.more.Size()
	pop.ShowAtPosition(fyne.NewPos(at.X+size.Width-pop.MinSize().Width, at.Y+size.Height))
}
