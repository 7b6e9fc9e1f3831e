package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"skep/app/words"
	"skep/calc/design"
)

// Control is something that shows a value of the design and changes it.
type Control interface {
	fyne.CanvasObject
	Sync(d *design.Design)
}

// Field is a value of the design that one types, in any unit. Enter or leaving
// it takes what was typed, Escape puts back what stood there.
type Field struct {
	Entry
	Path func() string // the key in the design
	What func() string // what it is, for undo, messages and screen readers
	Note func(text string, bad bool)
	Keys func(fyne.KeyName) bool // Alt and an arrow; nil: nothing

	wrong   bool   // what stands there can't be read
	message string // at the foot of the window, of what is wrong
	focused bool
	fresh   bool // the press under way gave it the keyboard
}

// NewField makes a field for a key of the design.
func NewField(h Host, path, what func() string) *Field {
	f := &Field{Path: path, What: what}
	f.host = h
	f.Wrapping = fyne.TextWrapOff
	f.OnCombo = func(s *desktop.CustomShortcut) bool { return f.Keys != nil && f.Keys(s.KeyName) }
	f.ExtendBaseWidget(f)
	f.OnSubmitted = func(string) {
		if f.Take() {
			f.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
		}
	}
	return f
}

var _ Control = (*Field)(nil)

// AccessibilityLabel says what the field holds.
func (f *Field) AccessibilityLabel() string {
	return words.T("{name}, {value}", f.What(), f.Text)
}

// Sync shows what the design says. What is being typed stays.
func (f *Field) Sync(d *design.Design) {
	text, err := d.Get(f.Path())
	if err != nil {
		return
	}
	text = f.host.Say().KeyText(f.Path(), text)
	same := text == f.Rest
	f.Rest = text
	if f.focused && f.Text != text && same || f.wrong && same {
		return
	}
	f.put(text)
}

func (f *Field) put(text string) {
	if f.wrong {
		f.wrong = false
		f.show("", false)
	}
	if f.Text != text {
		f.SetText(text)
		f.CursorColumn = 0
		f.Refresh()
	}
}

// show says what is wrong, or takes back what was said, beside the field and at the
// foot of the window.
func (f *Field) show(text string, bad bool) {
	if f.Note != nil {
		f.Note(text, bad)
	}
	if bad {
		f.message = text
		f.host.Warn(text)
	} else if f.message != "" {
		f.host.Withdraw(f.message)
		f.message = ""
	}
}

// Take reads what was typed into the design; false when it can't.
func (f *Field) Take() bool {
	if f.Text == f.Rest {
		f.put(f.Rest)
		return true
	}
	value, echo, err := f.host.Read().Key(f.Path(), f.Text)
	if err == nil {
		err = SetKey(f.host, f.What(), f.Path(), value)
	}
	if err != nil {
		f.wrong = true
		f.show(words.T("{name}: {why}", f.What(), f.host.Say().Why(err)), true)
		return false
	}
	d := f.host.Design()
	f.wrong = true // so that put clears what was said
	f.Sync(&d)     // the field may stand in a drawer, which nobody else brings up
	f.put(f.Rest)
	if echo != "" {
		f.host.ShowMessage(words.T("{name}: {why}", f.What(), echo))
	}
	return true
}

// Forget leaves a value that is no more: what is typed has nowhere to go.
func (f *Field) Forget() {
	if f.wrong {
		f.wrong = false
		f.show("", false)
	}
	if f.Text != f.Rest {
		f.SetText(f.Rest)
	}
	if f.focused {
		f.host.Window().Canvas().Unfocus()
	}
}

// FocusGained selects the value, so that typing replaces it.
func (f *Field) FocusGained() {
	f.focused = true
	f.Entry.Entry.FocusGained()
	f.TypedShortcut(&fyne.ShortcutSelectAll{})
	if f.seen != nil {
		f.seen(f)
	}
	f.host.Hint(f.hint())
}

// MouseDown notes whether the press gives the field the keyboard.
func (f *Field) MouseDown(m *desktop.MouseEvent) {
	f.fresh = !f.focused
	f.Entry.MouseDown(m)
}

// Tapped selects the whole value at the first click, so that typing replaces
// it; the next click puts the cursor. A name is rather mended than replaced.
func (f *Field) Tapped(e *fyne.PointEvent) {
	f.Entry.Tapped(e)
	if k, _ := design.KeyOf(f.Path()); f.fresh && k.Kind != design.Text {
		f.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	f.fresh = false
}

// FocusLost takes what was typed.
func (f *Field) FocusLost() {
	f.Entry.FocusLost()
	f.focused = false
	f.host.Hint("")
	f.Take()
}

func (f *Field) hint() string {
	k, _ := design.KeyOf(f.Path())
	if k.Kind == design.Text {
		return words.T("{name}: Enter takes it, Escape puts it back", f.What())
	}
	say := f.host.Say()
	return words.T("{name}: {low} to {high}, in any unit. Enter takes it, Escape puts it back",
		f.What(), say.KeyNumber(k, k.Min), say.KeyNumber(k, k.Max))
}

// TypedKey takes back what was said of a text that Escape takes away.
func (f *Field) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape && f.Text != f.Rest {
		f.wrong = true // so that put clears what was said
		f.put(f.Rest)
		return
	}
	f.Entry.TypedKey(k)
}
