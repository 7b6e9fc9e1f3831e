package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"skep/app/lever"
	"skep/app/words"
)

// Button is the toolkit's, which lacks Escape: it is passed on to what closes the
// dialog that the button stands in.
type Button struct{ widget.Button }

// NewButton makes a button.
func NewButton(text string, tap func()) *Button {
	b := &Button{}
	b.Text, b.OnTapped = text, tap
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey adds Enter, which presses it, and Escape.
func (b *Button) TypedKey(k *fyne.KeyEvent) {
	switch {
	case lever.PassKey(b, k):
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		if !b.Disabled() {
			b.OnTapped()
		}
	default:
		b.Button.TypedKey(k)
	}
}

// Check is the toolkit's, which lacks Escape as well.
type Check struct{ widget.Check }

// NewCheck makes a check.
func NewCheck(text string, changed func(bool)) *Check {
	c := &Check{}
	c.Text, c.OnChanged = text, changed
	c.ExtendBaseWidget(c)
	return c
}

// TypedKey adds Escape.
func (c *Check) TypedKey(k *fyne.KeyEvent) {
	if !lever.PassKey(c, k) {
		c.Check.TypedKey(k)
	}
}

// Select is the toolkit's, which lacks Escape as well.
type Select struct{ widget.Select }

// NewSelect makes a choice of one.
func NewSelect(options []string, changed func(string)) *Select {
	s := &Select{}
	s.Options, s.OnChanged = options, changed
	s.ExtendBaseWidget(s)
	return s
}

// TypedKey adds Escape.
func (s *Select) TypedKey(k *fyne.KeyEvent) {
	if !lever.PassKey(s, k) {
		s.Select.TypedKey(k)
	}
}

// ShowRead shows a dialog that only says something: Enter and Escape close it.
func ShowRead(h Host, d *dialog.CustomDialog) {
	done := NewButton(words.T("Done"), d.Hide)
	done.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{done})
	ShowModal(h, d, d.Hide)
	Focus(h, done)
}

// ShowModal shows a dialog: Escape closes it by leave, and while it stands the window
// behind it hears no key.
func ShowModal(h Host, d dialog.Dialog, leave func()) {
	open := true
	gone := h.Over(true, func() bool { return open }, leave)
	d.SetOnClosed(func() { open = false; gone() })
	d.Show()
}
