package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"

	"skep/app/brew"
	"skep/app/editor"
	"skep/app/ferment"
	"skep/app/ledger"
	"skep/app/taste"
	"skep/app/ui"
	"skep/app/words"
	"skep/app/yeasts"
)

// place is one of the window's places, in the order of the work. The one that
// is shown gets every change; the others catch up when they are gone to. Each
// has workers of its own, and shows their answers while it is looked at.
type place interface {
	Object() fyne.CanvasObject
	Update()          // shows the design, where that needs no computation
	Post()            // asks the workers for what does
	FocusFirst()      // gives the keyboard to what is changed first
	Greeting() string // says at the foot of the window how it is used
	Idle()            // waits for the workers
	Close()           // ends them
}

// placeEntry is a place under its name in the bar.
type placeEntry struct {
	name  string
	place place
	view  *container.Scroll // scrolls where the window is smaller than the place
}

// show and hide take its view along: one that is empty would take the wheel from the
// place below it.
func (p *placeEntry) show() {
	p.place.Object().Show()
	p.view.Show()
}

func (p *placeEntry) hide() {
	p.place.Object().Hide()
	p.view.Hide()
}

// fillPlaces makes the places. Another one is one more line here.
func (b *bench) fillPlaces() {
	b.taste = taste.New(b)
	b.yeasts = yeasts.New(b)
	b.brew = brew.New(b, func() { b.goTo(1) })
	b.ferment = ferment.New(b, func() { b.ledger.Read() })
	b.ferment.Offer(b.DemoBeer, func() { b.Guard(b.ShowDemoBeer) }, b.PutDemoBeerAway)
	b.brew.BrewThis, b.brew.BrewAgain = b.brewThis, b.brewThisAgain
	b.ferment.Save = func(then func(error)) {
		b.SaveBy(func() (editor.Job, error) { return b.Keeper.Saving(new(bool)) }, then)
	}
	b.ferment.Open = b.Open
	b.ledger = ledger.New(b, b.OpenBatch, b.BrewAgain)
	b.places = []placeEntry{
		{words.T("Taste"), b.taste, container.NewScroll(b.taste.Object())},
		{words.T("Yeasts"), b.yeasts, container.NewScroll(b.yeasts.Object())},
		{words.T("Brew"), b.brew, container.NewScroll(b.brew.Object())},
		{words.T("Ferment"), b.ferment, container.NewScroll(b.ferment.Object())},
		{words.T("Ledger"), b.ledger, container.NewScroll(b.ledger.Object())},
	}
	for i, p := range b.places {
		if i != b.at {
			p.hide()
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
	b.MoveOn()
	b.EndMove() // a gesture does not go on in another place
	b.places[b.at].hide()
	b.Window().Canvas().Unfocus()
	b.at = i
	b.Changed()
	b.places[b.at].show()
	// What was not drawn for a minute has lost its renderers, and the toolkit gives
	// no focus to what lies in a widget without one. To say where the last object
	// of the window is it walks all that is shown, and makes them anew.
	ui.Position(b.Status)
	b.ShowMessage(b.place().Greeting())
	b.place().FocusFirst()
}

// placeShortcuts are Ctrl and the place's number.
func (b *bench) placeShortcuts() {
	digits := []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6, fyne.Key7, fyne.Key8, fyne.Key9}
	for i := range min(len(b.places), len(digits)) {
		b.Window().Canvas().AddShortcut(&desktop.CustomShortcut{KeyName: digits[i], Modifier: fyne.KeyModifierShortcutDefault},
			b.heard(func() { b.goTo(i) }))
	}
}

// placeObjects are the places' objects, one over the other, for the window.
func (b *bench) placeObjects() []fyne.CanvasObject {
	objects := make([]fyne.CanvasObject, len(b.places))
	for i, p := range b.places {
		objects[i] = p.view
	}
	return objects
}
