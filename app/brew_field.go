package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/lever"
	"skep/app/quantity"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// control is something in a step that shows a value of the design and changes
// it.
type control interface {
	fyne.CanvasObject
	sync(d *design.Design)
}

// brewField is a value of the design that one types, in any unit. Enter or
// leaving it takes what was typed, Escape puts back what stood there.
type brewField struct {
	widget.Entry
	b     *bench
	path  func() string // the key in the design
	what  func() string // what it is, for undo, messages and screen readers
	note  func(text string, bad bool)
	keys  func(fyne.KeyName) bool // Alt and an arrow; nil: nothing
	leave func()                  // Escape where nothing is typed; nil: nothing
	seen  func(fyne.CanvasObject) // it has the keyboard: bring it into view

	shown   string // what the design says
	wrong   bool   // what stands there can't be read
	focused bool
	fresh   bool // the press under way gave it the keyboard
}

func newBrewField(b *bench, path, what func() string) *brewField {
	f := &brewField{b: b, path: path, what: what}
	f.Wrapping = fyne.TextWrapOff
	f.ExtendBaseWidget(f)
	f.OnSubmitted = func(string) {
		if f.take() {
			f.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
		}
	}
	return f
}

var (
	_ fyne.Accessible = (*brewField)(nil)
	_ control         = (*brewField)(nil)
)

// AccessibilityLabel says what the field holds.
func (f *brewField) AccessibilityLabel() string {
	return words.T("{{.Name}}, {{.Value}}", map[string]any{"Name": f.what(), "Value": f.Text})
}

// AccessibilityRole is text.
func (f *brewField) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

// sync shows what the design says. What is being typed stays.
func (f *brewField) sync(d *design.Design) {
	text, err := d.Get(f.path())
	if err != nil {
		return
	}
	text = f.b.valueText(f.path(), text)
	same := text == f.shown
	f.shown = text
	if f.focused && f.Text != text && same || f.wrong && same {
		return
	}
	f.put(text)
}

func (f *brewField) put(text string) {
	if f.wrong {
		f.wrong = false
		f.tell("", false)
	}
	if f.Text != text {
		f.SetText(text)
		f.CursorColumn = 0
		f.Refresh()
	}
}

func (f *brewField) tell(text string, bad bool) {
	if f.note != nil {
		f.note(text, bad)
	}
}

// take reads what was typed into the design; false when it can't.
func (f *brewField) take() bool {
	if f.Text == f.shown {
		f.put(f.shown)
		return true
	}
	value, echo, err := f.b.readValue(f.path(), f.Text)
	if err == nil {
		err = f.b.setValue(f.what(), f.path(), value)
	}
	if err != nil {
		f.wrong = true
		f.tell(words.T("{{.Name}}: {{.Why}}", map[string]any{"Name": f.what(), "Why": err.Error()}), true)
		return false
	}
	f.wrong = true // so that put clears what was said
	f.put(f.shown)
	if echo != "" {
		f.b.status.tell(words.T("{{.Name}}: {{.Why}}", map[string]any{"Name": f.what(), "Why": echo}))
	}
	return true
}

// forget leaves a value that is no more: what is typed has nowhere to go.
func (f *brewField) forget() {
	f.wrong = false
	if f.Text != f.shown {
		f.SetText(f.shown)
	}
	if f.focused {
		f.b.window.Canvas().Unfocus()
	}
}

// FocusGained selects the value, so that typing replaces it.
func (f *brewField) FocusGained() {
	f.focused = true
	f.Entry.FocusGained()
	f.TypedShortcut(&fyne.ShortcutSelectAll{})
	if f.seen != nil {
		f.seen(f)
	}
	f.b.status.hint(f.hint())
}

// MouseDown notes whether the press gives the field the keyboard.
func (f *brewField) MouseDown(m *desktop.MouseEvent) {
	f.fresh = !f.focused
	f.Entry.MouseDown(m)
}

// Tapped selects the whole value at the first click, so that typing replaces
// it; the next click puts the cursor. A name is rather mended than replaced.
func (f *brewField) Tapped(e *fyne.PointEvent) {
	f.Entry.Tapped(e)
	if k, _ := design.KeyOf(f.path()); f.fresh && k.Kind != design.Text {
		f.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	f.fresh = false
}

// FocusLost takes what was typed.
func (f *brewField) FocusLost() {
	f.Entry.FocusLost()
	f.focused = false
	f.b.status.hint("")
	f.take()
}

func (f *brewField) hint() string {
	k, _ := design.KeyOf(f.path())
	if k.Kind == design.Text {
		return words.T("{{.Name}}: Enter takes it, Escape puts it back", map[string]any{"Name": f.what()})
	}
	return words.T("{{.Name}}: {{.Low}} to {{.High}}, in any unit. Enter takes it, Escape puts it back",
		map[string]any{"Name": f.what(), "Low": f.b.numberText(k, k.Min), "High": f.b.numberText(k, k.Max)})
}

// TypedKey adds Escape.
func (f *brewField) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		if f.Text == f.shown && f.leave != nil {
			f.leave()
			return
		}
		f.wrong = f.wrong || f.Text != f.shown
		f.put(f.shown)
		return
	}
	f.Entry.TypedKey(k)
}

// TypedShortcut hands undo to the design where nothing is typed, and Alt with
// an arrow to the row.
func (f *brewField) TypedShortcut(s fyne.Shortcut) {
	if c, ok := s.(*desktop.CustomShortcut); ok && c.Modifier == fyne.KeyModifierAlt && f.keys != nil && f.keys(c.KeyName) {
		return
	}
	if !f.b.windowShortcut(s, f.Text == f.shown) {
		f.Entry.TypedShortcut(s)
	}
}

// windowShortcut gives the window the shortcuts that a field has no use for:
// the driver hands them all to what has the keyboard. idle says that nothing is
// typed that the field could undo.
func (b *bench) windowShortcut(s fyne.Shortcut, idle bool) bool {
	switch s.(type) {
	case *fyne.ShortcutUndo:
		if idle {
			b.undo()
		}
		return idle
	case *fyne.ShortcutRedo:
		if idle {
			b.redo()
		}
		return idle
	}
	return lever.PassOn(b.window.Canvas(), s)
}

// brewWord is a value of the design that is one of a few words.
type brewWord struct {
	brewChoice
	b    *bench
	path func() string
}

func newBrewWord(p *brewPlace, path, what func() string) *brewWord {
	w := &brewWord{b: p.b, path: path}
	w.p = p
	w.List, w.Ink, w.TextSize, w.Height = true, ui.InkFull, 13, ui.ChoiceHeight
	w.OnTap = func() { w.open(what()) }
	w.ExtendBaseWidget(w)
	return w
}

// sync shows the design's word.
func (w *brewWord) sync(d *design.Design) {
	text, err := d.Get(w.path())
	if err != nil {
		return
	}
	w.SetText(wordText(w.path(), text))
}

func (w *brewWord) open(what string) {
	d := w.b.editor.Design()
	now, _ := d.Get(w.path())
	k, _ := design.KeyOf(w.path())
	options := k.Words
	if k.Kind == design.Switch {
		options = []string{"true", "false"}
	}
	var items []*fyne.MenuItem
	for _, o := range options {
		m := fyne.NewMenuItem(wordText(w.path(), o), func() {
			if err := w.b.setValue(what, w.path(), o); err != nil {
				w.b.status.warn(err.Error())
			}
		})
		m.Checked = o == now
		items = append(items, m)
	}
	w.b.popUp(w, items...)
}

// limitsOf are a key's, for the parser.
func limitsOf(k design.Key) quantity.Limits { return quantity.Limits{Low: k.Min, High: k.Max} }
