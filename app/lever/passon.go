package lever

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// entryKeys are those that an entry itself knows with a modifier.
var entryKeys = map[fyne.KeyName]bool{
	fyne.KeyLeft: true, fyne.KeyRight: true, fyne.KeyBackspace: true, fyne.KeyDelete: true,
	fyne.KeyA: true, fyne.KeyC: true, fyne.KeyV: true, fyne.KeyX: true,
}

// windows tells whether an entry has no use for a shortcut.
func windows(s fyne.Shortcut) bool {
	custom, ok := s.(*desktop.CustomShortcut)
	return ok && !entryKeys[custom.KeyName]
}

// passOn gives the window a shortcut that an entry has no use for, and says
// whether it did: the driver hands them all to what has the keyboard, so that
// saving or another place would be out of reach while something is typed.
func passOn(c fyne.Canvas, s fyne.Shortcut) bool {
	window, ok := c.(fyne.Shortcutable)
	if ok = ok && windows(s); ok {
		window.TypedShortcut(s)
	}
	return ok
}

// Leave is passOn for an entry that takes what was typed when the keyboard
// leaves it: one who saves means that too.
func Leave(o fyne.CanvasObject, s fyne.Shortcut) bool {
	c := fyne.CurrentApp().Driver().CanvasForObject(o)
	if c == nil || !windows(s) {
		return false
	}
	c.Unfocus()
	return passOn(c, s)
}

// PassKey gives the window the keys that it knows without a modifier, and that nothing
// in it takes for itself: F1, and Escape, which closes what stands over it. The driver
// hands every key to what has the keyboard alone.
func PassKey(o fyne.CanvasObject, k *fyne.KeyEvent) bool {
	if k.Name != fyne.KeyEscape && k.Name != fyne.KeyF1 {
		return false
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(o)
	if c == nil {
		// A part that another widget is made of, which the driver does not know.
		if all := fyne.CurrentApp().Driver().AllWindows(); len(all) > 0 {
			c = all[0].Canvas()
		}
	}
	if c != nil && c.OnTypedKey() != nil {
		c.OnTypedKey()(k)
	}
	return true
}
