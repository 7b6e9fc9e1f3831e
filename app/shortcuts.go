package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"skep/app/help"
)

// heard is what a key of the window does, which is nothing behind a dialog.
func (b *bench) heard(do func()) func(fyne.Shortcut) {
	return func(fyne.Shortcut) {
		if !b.Modal() {
			do()
		}
	}
}

// showHelp opens the keys and the words of the trade.
func (b *bench) showHelp() { help.Open(b) }

// shortcuts are the keys that work wherever the focus is. A field that is
// being typed in keeps its own undo.
func (b *bench) shortcuts() {
	on := func(s fyne.Shortcut, do func()) {
		b.Window().Canvas().AddShortcut(s, b.heard(do))
	}
	key := func(name fyne.KeyName, shift bool) fyne.Shortcut {
		s := &desktop.CustomShortcut{KeyName: name, Modifier: fyne.KeyModifierShortcutDefault}
		if shift {
			s.Modifier |= fyne.KeyModifierShift
		}
		return s
	}
	on(key(fyne.KeyN, false), b.AskNew)
	on(key(fyne.KeyO, false), b.AskOpen)
	on(key(fyne.KeyS, false), func() { b.Save(nil) })
	on(key(fyne.KeyS, true), func() { b.SaveAs(nil) })
	on(key(fyne.KeyQ, false), b.AskClose)
	on(key(fyne.KeyW, false), b.AskClose)
	on(key(fyne.KeyP, false), func() { b.brew.Print() }) // from every place
	on(key(fyne.KeyD, false), b.startDay)
	on(key(fyne.KeyComma, false), b.showPreferences)
	// F1 has no modifier, and so is no shortcut to the driver: it is heard as a key
	// that nothing has taken.
	b.OnHelp = b.showHelp
	// Undo and redo come as shortcuts of their own, or as plain keys: all of
	// them are registered (design notes, traps B6).
	on(&fyne.ShortcutUndo{}, b.Undo)
	on(&fyne.ShortcutRedo{}, b.Redo)
	on(key(fyne.KeyZ, false), b.Undo)
	on(key(fyne.KeyZ, true), b.Redo)
	on(key(fyne.KeyY, false), b.Redo)
}
