package plane

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"skep/app/lever"
	"skep/app/words"
)

// edit puts the entry over the box and the keyboard into it; first is a
// character typed already.
func (b *wishBox) edit(first string) {
	b.openEntry(first)
	focusOn(b.entry)
	if first == "" {
		b.entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

func (b *wishBox) openEntry(first string) {
	b.open = true
	b.before = ""
	if b.value != nil {
		b.before = b.shown()
	}
	text := b.before
	if first != "" {
		text = first
	}
	b.entry.SetText(text)
	b.entry.CursorColumn = len([]rune(text))
	b.row.show("", false)
	b.frame.Hide()
	b.text.Hide()
	b.entry.Show()
}

func (b *wishBox) close() {
	if !b.open {
		return
	}
	b.open = false
	b.entry.Hide()
	b.frame.Show()
	b.text.Show()
	b.style()
}

// take reads the entry; false when the text is no wish, which changes nothing
// and says why.
func (b *wishBox) take() bool {
	text := strings.TrimSpace(b.entry.Text)
	if text == b.before {
		return true
	}
	if text == "" || strings.EqualFold(text, words.T("any")) {
		b.user(nil)
		return true
	}
	if b.row.Parse == nil {
		return false
	}
	v, echo, err := b.row.Parse(b.key, text)
	if err != nil {
		b.row.show(words.Error(err), true)
		return false
	}
	if !finite(v) || v < 0 || v > b.most {
		b.row.show(words.T("0 to {most}", b.most), true)
		return false
	}
	b.user(&v)
	if plainText(text) == plainText(b.shown()) {
		echo = ""
	}
	b.row.show(echo, false)
	return true
}

func plainText(text string) string {
	return strings.ToLower(strings.Join(strings.Fields(text), ""))
}

func focusOn(o interface {
	fyne.Focusable
	fyne.CanvasObject
}) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil {
		c.Focus(o)
	}
}

// wishEntry is what one types into.
type wishEntry struct {
	widget.Entry
	box *wishBox
}

func newWishEntry(b *wishBox) *wishEntry {
	e := &wishEntry{box: b}
	e.Scroll = fyne.ScrollNone
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) {
		if b.take() {
			b.close()
			focusOn(b)
		}
	}
	e.Hide()
	return e
}

// TypedShortcut leaves the window its own.
func (e *wishEntry) TypedShortcut(s fyne.Shortcut) {
	if !lever.Leave(e, s) {
		e.Entry.TypedShortcut(s)
	}
}

// FocusGained opens the entry again when the window comes back with it still
// in focus.
func (e *wishEntry) FocusGained() {
	if !e.box.open {
		e.box.openEntry("")
	}
	e.Entry.FocusGained()
}

// FocusLost takes what was typed; what can't be read is dropped and said.
func (e *wishEntry) FocusLost() {
	e.Entry.FocusLost()
	if e.box.open {
		if !e.box.take() {
			e.box.row.forget() // the old value stands there again; the window says why
		}
		e.box.close()
	}
}

// TypedKey adds Escape, which leaves without taking.
func (e *wishEntry) TypedKey(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyEscape {
		e.box.row.show("", false)
		e.box.close()
		focusOn(e.box)
		return
	}
	if !lever.PassKey(e, ev) {
		e.Entry.TypedKey(ev)
	}
}

// AccessibilityLabel names the entry.
func (e *wishEntry) AccessibilityLabel() string {
	if e.box.key == AtHandKey {
		return words.T("type the honey at hand")
	}
	return words.T("type the {name} wanted", nameOf(e.box.key))
}

// AccessibilityRole is text.
func (e *wishEntry) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }
