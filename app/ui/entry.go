package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/lever"
	"skep/app/look"
	"skep/app/words"
)

// Entry is the one field that is typed into. Fyne's lacks what it adds: a name
// for screen readers, Escape, a hint at the foot of the window, and leaving the
// window its own shortcuts, which the driver all hands to what has the
// keyboard.
type Entry struct {
	widget.Entry
	Name string // what a screen reader says before the text
	Hint string // stands at the foot of the window while it has the keyboard
	// Rest is the text that stands there when nothing is typed: Escape puts it
	// back, and undo is then the design's.
	Rest     string
	Leave    func()                             // Escape where nothing is typed; nil: nothing
	Restored func()                             // Escape: a remark on what was typed holds no more; nil: nothing
	Down     func()                             // the arrow down; nil: nothing
	OnCombo  func(*desktop.CustomShortcut) bool // a key with Alt; nil: nothing

	seen   func(fyne.CanvasObject) // it has the keyboard: bring it into view
	host   Host
	opened bool // by the key press that is being heard
}

// SetSeen says who brings it into view when it has the keyboard.
func (e *Entry) SetSeen(seen func(fyne.CanvasObject)) { e.seen = seen }

// NewEntry makes a field for what is not in the design.
func NewEntry(h Host) *Entry {
	e := &Entry{host: h}
	e.ExtendBaseWidget(e)
	return e
}

var _ fyne.Accessible = (*Entry)(nil)

// AccessibilityLabel says what goes into the field.
func (e *Entry) AccessibilityLabel() string {
	name := e.Name
	if name == "" {
		name = e.PlaceHolder
	}
	return words.T("{name}, {value}", name, e.Text)
}

// AccessibilityRole is text.
func (e *Entry) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// SetHolder shows what may be typed, and draws nothing anew when it is the same.
func (e *Entry) SetHolder(text string) {
	if e.PlaceHolder != text {
		e.SetPlaceHolder(text)
	}
}

// FocusGained brings the field into view.
func (e *Entry) FocusGained() {
	e.Entry.FocusGained()
	e.opened = true
	e.host.Do(func() { e.opened = false })
	if e.seen != nil {
		e.seen(e)
	}
	if e.Hint != "" {
		e.host.Hint(e.Hint)
	}
}

// TypedRune types a character, but not the space of the press on a button that brought
// the keyboard here: the toolkit hears the key, and then its character.
func (e *Entry) TypedRune(r rune) {
	if r != ' ' || !e.opened {
		e.Entry.TypedRune(r)
	}
}

// FocusLost takes the hint back.
func (e *Entry) FocusLost() {
	e.Entry.FocusLost()
	if e.Hint != "" {
		e.host.Hint("")
	}
}

// TypedKey adds Escape and the way down into a list.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape && e.Text == e.Rest:
		if e.Restored != nil {
			e.Restored()
		}
		if e.Leave != nil {
			e.Leave()
		} else {
			lever.PassKey(e, k)
		}
	case k.Name == fyne.KeyEscape:
		e.SetText(e.Rest)
		if e.Restored != nil {
			e.Restored()
		}
	case k.Name == fyne.KeyF1:
		lever.PassKey(e, k)
	case k.Name == fyne.KeyDown && e.Down != nil:
		e.Down()
	default:
		e.Entry.TypedKey(k)
	}
}

// ownKeys are those that an entry itself knows with a modifier.
var ownKeys = map[fyne.KeyName]bool{
	fyne.KeyLeft: true, fyne.KeyRight: true, fyne.KeyBackspace: true, fyne.KeyDelete: true,
	fyne.KeyA: true, fyne.KeyC: true, fyne.KeyV: true, fyne.KeyX: true,
}

// TypedShortcut leaves the window its own, and undo where nothing is typed that
// the field could undo.
func (e *Entry) TypedShortcut(s fyne.Shortcut) {
	idle := e.Text == e.Rest
	switch s := s.(type) {
	case *fyne.ShortcutUndo:
		if idle {
			e.host.Undo()
			return
		}
	case *fyne.ShortcutRedo:
		if idle {
			e.host.Redo()
			return
		}
	case *desktop.CustomShortcut:
		if s.Modifier == fyne.KeyModifierAlt && e.OnCombo != nil && e.OnCombo(s) {
			return
		}
		if window, ok := e.host.Window().Canvas().(fyne.Shortcutable); ok && !ownKeys[s.KeyName] {
			window.TypedShortcut(s)
			return
		}
	}
	e.Entry.TypedShortcut(s)
}

// FieldHeight is that of something to type into.
func FieldHeight() float32 { return max(widget.NewEntry().MinSize().Height, look.Control) }
