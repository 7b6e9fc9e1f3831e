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

import "strings"

// Part is what stands in a place of a sentence: a [Quantity], a [Name] or a
// [Sentence].
type Part interface{ part() }

// Name is a word that no language changes, such as that of a strain.
type Name string

func (Name) part()     {}
func (Quantity) part() {}
func (Sentence) part() {}

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

// Translated is the sentence with its text, and those within it, as say gives
// them.
func (s Sentence) Translated(say func(string) string) Sentence {
	out := Sentence{Text: say(s.Text)}
	for _, p := range s.With {
		if within, ok := p.(Sentence); ok {
			p = within.Translated(say)
		}
		out.With = append(out.With, p)
	}
	return out
}

// Each hands over the pieces in their order.
func (s Sentence) Each(text func(string), quantity func(Quantity)) {
	rest := s.Text
	for _, p := range s.With {
		before, after, found := strings.Cut(rest, place)
		if !found {
			break
		}
		text(before)
		switch p := p.(type) {
		case Quantity:
			quantity(p)
		case Name:
			text(string(p))
		case Sentence:
			p.Each(text, quantity)
		}
		rest = after
	}
	text(rest)
}

// In is the sentence with its quantities as format writes them.
func (s Sentence) In(format func(Quantity) string) string {
	var b strings.Builder
	text := func(t string) { b.WriteString(t) }
	s.Each(text, func(q Quantity) { text(format(q)) })
	return b.String()
}

// String is the sentence in English and metric units.
func (s Sentence) String() string { return s.In(Quantity.String) }
