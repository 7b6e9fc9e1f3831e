// Package says holds sentences with figures in them, such as
// "stuck: 1.020 on readings 2.0 days apart".
//
// A [Sentence] is an English text with a place {} for each figure, name or
// further sentence. Its figures keep what they measure ([Kind]), so that a
// window can show them in a person's units and the text in their language;
// [Sentence.String] is the English with metric units, for commands and tests.
// The text given to [Say] must be a literal, or the list of texts to translate
// (app/words) would miss it.
package says

import (
	"strings"

	"skep/calc/quantity"
)

// Part is what stands in a place of a sentence: a [quantity.Quantity], a [Name] or a
// [Sentence].
type Part = any

// Name is a word that no language changes, such as that of a strain.
type Name string

// place stands in a text where a part goes.
const place = "{}"

// Sentence is a text with a place {} for each part, in their order. A
// translation keeps the places and their order. It has no full stop.
type Sentence struct {
	Text string
	With []Part
}

// Say makes a sentence.
func Say(text string, with ...Part) Sentence { return Sentence{text, with} }

// Empty says that there is nothing to say.
func (s Sentence) Empty() bool { return s.Text == "" }

// Translated is the sentence with its text, and those within it, as translate gives
// them.
func (s Sentence) Translated(translate func(string) string) Sentence {
	out := Sentence{Text: translate(s.Text)}
	for _, p := range s.With {
		if within, ok := p.(Sentence); ok {
			p = within.Translated(translate)
		}
		out.With = append(out.With, p)
	}
	return out
}

// Each hands over the pieces in their order.
func (s Sentence) Each(text func(string), figure func(quantity.Quantity)) {
	rest := s.Text
	for _, p := range s.With {
		before, after, found := strings.Cut(rest, place)
		if !found {
			break
		}
		text(before)
		switch p := p.(type) {
		case quantity.Quantity:
			figure(p)
		case Name:
			text(string(p))
		case Sentence:
			p.Each(text, figure)
		}
		rest = after
	}
	text(rest)
}

// In is the sentence with its quantities as format writes them.
func (s Sentence) In(format func(quantity.Quantity) string) string {
	var b strings.Builder
	text := func(t string) { b.WriteString(t) }
	s.Each(text, func(q quantity.Quantity) { text(format(q)) })
	return b.String()
}

// String is the sentence in English and metric units.
func (s Sentence) String() string { return s.In(quantity.Quantity.String) }
