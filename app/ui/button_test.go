package ui

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
)

// Of a button that has the keyboard at least so much changes by 3:1 as a line of two
// around its outside has (WCAG 2.2, 2.4.13), the primary one too, whose own colour is the
// accent with which the toolkit marks the keyboard.
func TestTheKeyboardIsSeenOnEveryButton(t *testing.T) {
	a := test.NewApp()
	for name, theme := range map[string]fyne.Theme{
		"light": look.New(look.Light), "dark": look.New(look.Dark), "light, strong": look.NewStrong(look.Light), "dark, strong": look.NewStrong(look.Dark),
	} {
		a.Settings().SetTheme(theme)
		for importance, of := range map[widget.Importance]string{widget.HighImportance: "primary", widget.MediumImportance: "plain"} {
			b := NewButton("Save", nil)
			b.Importance = importance
			w := test.NewWindow(b)
			w.Resize(fyne.NewSize(160, 60))
			before := w.Canvas().Capture()
			w.Canvas().Focus(b)
			after := w.Canvas().Capture()
			changed := 0
			for y := range before.Bounds().Dy() {
				for x := range before.Bounds().Dx() {
					one := color.NRGBAModel.Convert(before.At(x, y)).(color.NRGBA)
					two := color.NRGBAModel.Convert(after.At(x, y)).(color.NRGBA)
					if look.Contrast(one, two) >= 3 {
						changed++
					}
				}
			}
			scale := w.Canvas().Scale()
			around := 2 * (b.Size().Width + b.Size().Height) * scale
			if least := int(2 * around * scale * 0.97); changed < least { // its corners are round
				t.Errorf("%s, %s: %d points change by 3:1, %d are a line of two around it", name, of, changed, least)
			}
			w.Canvas().Unfocus()
			if back := w.Canvas().Capture(); back.At(12, 6) != before.At(12, 6) {
				t.Errorf("%s, %s: the ring stays", name, of)
			}
			w.Close()
		}
	}
}
