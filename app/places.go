package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"skep/app/words"
)

// place is one of the window's places, in the order of the work. The one that
// is shown gets every change and every frame; the others catch up when they
// are gone to.
type place interface {
	object() fyne.CanvasObject
	update()     // shows the design, where that needs no computation
	show(*frame) // puts a frame's answers up
	focusFirst() // gives the keyboard to what is changed first
}

// asker is a place that wants more of the worker than the Taste place does.
type asker interface{ ask(*view) }

// greeter is a place that says at the foot of the window how it is used.
type greeter interface{ greeting() string }

// greeting is also what stands there at the start.
func (t *tastePlace) greeting() string {
	return words.T("Drag a lever or a picture. Arrow keys move the lever in focus, with Shift a bigger step.")
}

// placeEntry is a place under its name in the bar.
type placeEntry struct {
	name  string
	place place
}

// fillPlaces makes the places. Another one is one more line here.
func (b *bench) fillPlaces() {
	b.taste = newTastePlace(b)
	b.yeasts = newYeastsPlace(b)
	b.brew = newBrewPlace(b)
	b.places = []placeEntry{
		{words.T("Taste"), b.taste},
		{words.T("Yeasts"), b.yeasts},
		{words.T("Brew"), b.brew},
		{words.T("Ferment"), b.ferment},
		{words.T("Ledger"), b.ledger},
	}
	for i, p := range b.places {
		if i != b.at {
			p.place.object().Hide()
		}
	}
}

// place is the one that is shown.
func (b *bench) place() place { return b.places[b.at].place }

// goTo shows another place.
func (b *bench) goTo(i int) {
	if i < 0 || i >= len(b.places) || i == b.at {
		return
	}
	b.ended() // a gesture does not go on in another place
	b.place().object().Hide()
	b.window.Canvas().Unfocus()
	b.at = i
	b.changed()
	b.place().object().Show()
	// What was not drawn for a minute has lost its renderers, and the toolkit gives
	// no focus to what lies in a widget without one. To say where the last object
	// of the window is it walks all that is shown, and makes them anew.
	b.app.Driver().AbsolutePositionForObject(b.status)
	if g, ok := b.place().(greeter); ok {
		b.status.tell(g.greeting())
	}
	b.place().focusFirst()
}

// placeShortcuts are Ctrl and the place's number.
func (b *bench) placeShortcuts() {
	digits := []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6, fyne.Key7, fyne.Key8, fyne.Key9}
	for i := range min(len(b.places), len(digits)) {
		b.window.Canvas().AddShortcut(&desktop.CustomShortcut{KeyName: digits[i], Modifier: fyne.KeyModifierShortcutDefault},
			func(fyne.Shortcut) { b.goTo(i) })
	}
}

// placeObjects are the places' objects, one over the other, for the window.
func (b *bench) placeObjects() []fyne.CanvasObject {
	objects := make([]fyne.CanvasObject, len(b.places))
	for i, p := range b.places {
		objects[i] = p.place.object()
	}
	return objects
}
