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
		b.window.Canvas().AddShortcut(s, func(fyne.Shortcut) { do() })
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
	on(key(fyne.KeyComma, false), b.showPreferences)
	// Undo and redo come as shortcuts of their own, or as plain keys: all of
	// them are registered (design notes, traps B6).
	on(&fyne.ShortcutUndo{}, b.undo)
	on(&fyne.ShortcutRedo{}, b.redo)
	on(key(fyne.KeyZ, false), b.undo)
	on(key(fyne.KeyZ, true), b.redo)
	on(key(fyne.KeyY, false), b.redo)
}

func (b *bench) undo() {
	if b.editor.ReadOnly() == "" {
		b.editor.Undo()
	}
}

func (b *bench) redo() {
	if b.editor.ReadOnly() == "" {
		b.editor.Redo()
	}
}

// menu is what the three dots open.
func (b *bench) menu() {
	item := func(text string, do func(), shortcut fyne.Shortcut) *fyne.MenuItem {
		m := fyne.NewMenuItem(text, do)
		m.Shortcut = shortcut
		return m
	}
	key := func(name fyne.KeyName, more fyne.KeyModifier) fyne.Shortcut {
		return &desktop.CustomShortcut{KeyName: name, Modifier: fyne.KeyModifierShortcutDefault | more}
	}
	demos := fyne.NewMenuItem(words.T("Gate Field designs"), nil)
	demos.ChildMenu = fyne.NewMenu("",
		fyne.NewMenuItem(words.T("Dry"), func() { b.askDemo(assets.DemoDry) }),
		fyne.NewMenuItem(words.T("Midsummer"), func() { b.askDemo(assets.DemoMiddle) }),
		fyne.NewMenuItem(words.T("Soft"), func() { b.askDemo(assets.DemoSoft) }))
	m := fyne.NewMenu("",
		item(words.T("New"), b.askNew, key(fyne.KeyN, 0)),
		item(words.T("Open…"), b.askOpen, key(fyne.KeyO, 0)),
		item(words.T("Save"), func() { b.save(nil) }, key(fyne.KeyS, 0)),
		item(words.T("Save as…"), func() { b.saveAs(nil) }, key(fyne.KeyS, fyne.KeyModifierShift)),
		demos,
		fyne.NewMenuItemSeparator(),
		item(words.T("Units and appearance…"), b.showPreferences, key(fyne.KeyComma, 0)),
		fyne.NewMenuItemSeparator(),
		item(words.T("Close"), b.askClose, key(fyne.KeyQ, 0)))
	pop := widget.NewPopUpMenu(m, b.window.Canvas())
	at := b.app.Driver().AbsolutePositionForObject(b.bar.more)
	size := b.bar.more.Size()
	pop.ShowAtPosition(fyne.NewPos(at.X+size.Width-pop.MinSize().Width, at.Y+size.Height))
}
