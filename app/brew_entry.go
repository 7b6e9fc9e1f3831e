package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"skep/app/words"
)

// noteEntry is a field for what is not in the design yet.
type noteEntry struct {
	widget.Entry
	b     *bench
	name  string
	hint  string
	seen  func(fyne.CanvasObject)
	leave func() // Escape in an empty field; nil: nothing
}

func newNoteEntry(b *bench, seen func(fyne.CanvasObject)) *noteEntry {
	e := &noteEntry{b: b, seen: seen}
	e.ExtendBaseWidget(e)
	return e
}

var _ fyne.Accessible = (*noteEntry)(nil)

// AccessibilityLabel says what goes into the field.
func (e *noteEntry) AccessibilityLabel() string {
	return words.T("{{.Name}}, {{.Value}}", map[string]any{"Name": e.name, "Value": e.Text})
}

// AccessibilityRole is text.
func (e *noteEntry) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// FocusGained brings the field into view.
func (e *noteEntry) FocusGained() {
	e.Entry.FocusGained()
	if e.seen != nil {
		e.seen(e)
	}
	if e.hint != "" {
		e.b.status.hint(e.hint)
	}
}

// FocusLost takes the hint back.
func (e *noteEntry) FocusLost() {
	e.Entry.FocusLost()
	if e.hint != "" {
		e.b.status.hint("")
	}
}

// TypedKey adds Escape, which empties the field.
func (e *noteEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		if e.Text == "" && e.leave != nil {
			e.leave()
			return
		}
		e.SetText("")
		return
	}
	e.Entry.TypedKey(k)
}

// TypedShortcut leaves the window its own.
func (e *noteEntry) TypedShortcut(s fyne.Shortcut) {
	if !e.b.windowShortcut(s, e.Text == "") {
		e.Entry.TypedShortcut(s)
	}
}
