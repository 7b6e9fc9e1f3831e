package taste

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/quantity"
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

// word is a dryness, body or character word in the person's language.
func (b *Place) word(word string) string {
	switch word {
	case "sweet":
		return words.T("sweet")
	case "rounded":
		return words.T("rounded")
	case "balanced":
		return words.T("balanced")
	case "dry":
		return words.T("dry")
	case "very dry":
		return words.T("very dry")
	case "light":
		return words.T("light")
	case "medium":
		return words.T("medium")
	case "full":
		return words.T("full")
	case "low":
		return words.T("low")
	case "high":
		return words.T("high")
	}
	return word
}

// inWords is the sentence: what the beer is, how sure, and what one more
// degree would do.
func (b *Place) inWords(f *Frame) string {
	p := &f.Prediction
	besides := ""
	if f.lessons > 0 {
		besides = " " + words.T("With what this kit has taught.")
	}
	if p.HoneyCharacter.Mid > 0 {
		besides = " " + words.T("Of the honey only its alcohol fills, and not every drinker feels that.") + besides
	}
	return words.T("{dryness} and {body}-bodied: {gravity}, {strength}. {hotter}", ui.FirstUpper(b.word(p.DrynessWord)), b.word(p.BodyWord), b.Say().Band(quantity.Gravity, p.FinalGravitySG), b.Say().Band(quantity.Strength, p.StrengthPct), b.hotterInWords(f)) + besides
}

// hotterInWords says what a degree more would leave: points of gravity, or °P
// for who reads those.
func (b *Place) hotterInWords(f *Frame) string {
	change := 1000 * f.hotter[calc.FinalGravity]
	amount := words.T("{n} points", b.Say().Number(quantity.Strength, math.Abs(change)))
	if b.Say().Units().Gravity == quantity.Plato {
		// A point is a quarter of a degree, near enough for a difference.
		amount = words.T("{n} °P", b.Say().Number(quantity.Strength, math.Abs(change)/pointsPerPlato))
	}
	step := words.T("One degree")
	if b.Say().Units().Temperature == quantity.F {
		step = b.Say().Format(quantity.TemperatureDifference, 1)
	}
	switch {
	case change > 0.05:
		return words.T("{step} hotter would leave about {amount} more.", step, amount)
	case change < -0.05:
		return words.T("{step} hotter would leave about {amount} less.", step, amount)
	}
	return words.T("{step} hotter would change it hardly at all.", step)
}

// pointsPerPlato is how many thousandths of SG a °P is at beer gravities: the
// first row of the ASBC table (1 °P is 1.00389).
const pointsPerPlato = 3.9
