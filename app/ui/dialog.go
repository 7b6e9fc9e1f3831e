package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// PopUp shows a menu under an object.
func PopUp(h Host, under fyne.CanvasObject, items ...*fyne.MenuItem) {
	widget.ShowPopUpMenuAtRelativePosition(fyne.NewMenu("", items...), h.Window().Canvas(), fyne.NewPos(0, under.Size().Height), under)
}

// Answer is one answer of a question.
type Answer struct {
	Text string
	Do   func()
	Main bool // has the keyboard, so it must lose nothing
}

// Ask puts a question with its answers; Escape is the first of them. Fyne's confirmation
// has two answers and no Escape.
func Ask(h Host, title, text string, answers ...Answer) {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons(title, label, h.Window())
	var buttons []fyne.CanvasObject
	var focus fyne.Focusable
	for _, a := range answers {
		w := NewButton(a.Text, func() { d.Hide(); a.Do() })
		if a.Main {
			w.Importance = widget.HighImportance
		}
		if a.Main {
			focus = w
		}
		buttons = append(buttons, w)
	}
	d.SetButtons(buttons)
	d.Resize(fyne.NewSize(520, 180))
	first := answers[0]
	ShowModal(h, d, func() { d.Hide(); first.Do() })
	if focus != nil {
		Focus(h, focus)
	}
}
