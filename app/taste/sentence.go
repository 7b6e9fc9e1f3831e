package taste

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/quantity"
	"skep/calc/taste"
)

// sentence says the four pictures in words.
type sentence struct {
	b      *Place
	Label  *widget.Label
	object fyne.CanvasObject
}

func newSentence(b *Place) *sentence {
	s := &sentence{b: b, Label: widget.NewLabel("")}
	s.Label.Wrapping = fyne.TextWrapWord
	s.object = s.Label
	return s
}

func (s *sentence) show(f *Frame) {
	s.set(s.b.inWords(f))
}

func (s *sentence) set(text string) {
	if s.Label.Text != text {
		s.Label.SetText(text)
	}
}

// inWords is the sentence: what the beer is, how sure, and what one more
// degree would do.
func (b *Place) inWords(f *Frame) string {
	p := &f.Prediction
	besides := ""
	switch {
	case f.tasted: // the bands have a tasting's own scatter in them, and may be wider than before
		besides = " " + words.T("With what this kit has taught; dryness and body as you would score them.")
	case f.lessons > 0:
		besides = " " + words.T("With what this kit has taught.")
	}
	switch beside := b.besideKept(f); {
	case beside != "":
		besides = " " + beside + besides
	case p.HoneyCharacter.Mid > 0: // there is room for one of them
		besides = " " + words.T("Of the honey only its alcohol fills, and not every drinker feels that.") + besides
	}
	return words.T("{dryness} and {body}-bodied: {gravity}, {strength}. {hotter}", ui.FirstUpper(words.Print(taste.WordOf(p.DrynessWord))), words.Print(taste.WordOf(p.BodyWord)), b.Say().Band(quantity.Gravity, p.FinalGravitySG), b.Say().Band(quantity.Strength, p.StrengthPct), b.hotterInWords(f)) + besides
}

// hotterInWords says what a degree more would leave: points of gravity, or °P
// for who reads those.
func (b *Place) hotterInWords(f *Frame) string {
	more := f.hotter[calc.FinalGravity]
	step := words.T("One degree")
	if b.Say().Units().Temperature == quantity.F {
		step = b.Say().Format(quantity.TemperatureDifference, 1)
	}
	scale, _ := b.Say().GravityStep()
	text := func(v float64) string { return b.Say().Plain(scale*math.Abs(v), 1) }
	amount := words.T("{n} points", text(more.Mid))
	if b.Say().Units().Gravity == quantity.Plato {
		amount = words.T("{n} °P", text(more.Mid))
	}
	switch {
	case math.Abs(more.Mid) < 0.00005 || more.Unsure():
		return words.T("{step} hotter makes no difference to be sure of.", step)
	case more.Mid > 0:
		return words.T("{step} hotter would leave about {amount} more ({low} to {high}).", step, amount, text(more.Low), text(more.High))
	}
	return words.T("{step} hotter would leave about {amount} less ({low} to {high}).", step, amount, text(more.High), text(more.Low))
}

// besideKept sets the beer beside the one that is kept to compare with.
func (b *Place) besideKept(f *Frame) string {
	if f.Ghost == nil {
		return ""
	}
	name := words.T("as kept")
	if b.compared.kept != "" {
		name = b.compared.kept
	}
	return words.T("Beside “{name}”: {differences}.", name, b.Say().Differences(f.Than.Four()))
}
