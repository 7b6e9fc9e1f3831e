// Package message holds the sentences that a person reads, such as
// "stuck: {gravity} on readings {span} apart". In comes an English text with
// named places and the values for them; out goes the text in a person's
// language with the values as that person reads them. It must know neither the
// languages nor the units: both are handed in where a sentence is shown.
//
// The text must be a literal at the call, or the list of texts to translate
// (app/words) would miss it. It is a whole sentence, or a whole label: a text
// put together of halves can't be translated.
package message

import (
	"fmt"
	"strings"
)

// Message is a text with a place {name} for each value.
type Message struct {
	// Text is the English, and what a language looks its own text up by. It has
	// no full stop where it may stand within another.
	Text string
	// One is the English for a count of one; empty where nothing is counted.
	One   string
	Count int
	// With are the values, in the order in which Text first names their places.
	// A value is a Message, an error, a quantity, a number, or a string that no
	// language changes, such as the name of a strain.
	With []any
}

// New makes a message. The values come in the order in which the text first
// names their places; a translation may have them in any order.
func New(text string, with ...any) Message { return Message{Text: text, With: with} }

// Plain is a message that no language changes, such as a name.
func Plain(name string) Message { return Message{Text: "{name}", With: []any{name}} }

// After is a message behind something that no language changes, such as the file
// and the line of which it speaks.
func After(before string, m any) Message {
	return Message{Text: "{before}{message}", With: []any{before, m}}
}

// Joined are messages that are each whole, one after another.
func Joined(list ...Message) Message {
	if len(list) == 1 {
		return list[0]
	}
	var all Message
	for i, m := range list {
		if i == 0 {
			all = m
		} else {
			all = Message{Text: "{some}; {more}", With: []any{all, m}}
		}
	}
	return all
}

// Counted makes a message that depends on a count, for which it has the place
// {count}; the other values follow as in [New]. Other languages have other
// plural forms, and more of them.
func Counted(one, other string, count int, with ...any) Message {
	values := make([]any, 0, len(with)+1)
	for i, name := range Places(other) {
		if name == "count" {
			values = append(append(values, with[:min(i, len(with))]...), count)
			with = with[min(i, len(with)):]
			break
		}
	}
	return Message{Text: other, One: one, Count: count, With: append(values, with...)}
}

// Empty says that there is nothing to say.
func (m Message) Empty() bool { return m.Text == "" }

// English is the text, its places not filled.
func (m Message) English() string {
	if m.One != "" && m.Count == 1 {
		return m.One
	}
	return m.Text
}

// place finds the first place {name} of a text.
func place(text string) (before, name, after string, found bool) {
	for from := 0; ; {
		i := strings.IndexByte(text[from:], '{')
		if i < 0 {
			return text, "", "", false
		}
		from += i
		long := strings.IndexFunc(text[from+1:], func(r rune) bool {
			return (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') && (r < '0' || r > '9')
		})
		if long > 0 && text[from+1+long] == '}' {
			return text[:from], text[from+1 : from+1+long], text[from+long+2:], true
		}
		from++
	}
}

// Places are the names of a text's places, each once, in their order.
func Places(text string) (names []string) {
	seen := map[string]bool{}
	for {
		_, name, after, found := place(text)
		if !found {
			return names
		}
		if !seen[name] {
			seen[name] = true
			names = append(names, name)
		}
		text = after
	}
}

// Pieces hands over a text's pieces in their order, what stands between the
// places and the places' names.
func Pieces(text string, between, named func(string)) {
	for {
		before, name, after, found := place(text)
		between(before)
		if !found {
			return
		}
		named(name)
		text = after
	}
}

// Each hands over the pieces of the message in their order: the text between
// the places, and the values but for messages, which are taken to their pieces.
// translate gives a message's text in a language; nil for English.
func (m Message) Each(translate func(Message) string, text func(string), value func(any)) {
	if translate == nil {
		translate = Message.English
	}
	rest := translate(m)
	if len(m.With) == 0 {
		text(rest)
		return
	}
	names := Places(m.Text)
	for {
		before, name, after, found := place(rest)
		text(before)
		if !found {
			return
		}
		i := 0
		for i < len(names) && names[i] != name {
			i++
		}
		if i >= len(names) || i >= len(m.With) {
			text("{" + name + "}")
		} else {
			each(m.With[i], translate, text, value)
		}
		rest = after
	}
}

func each(v any, translate func(Message) string, text func(string), value func(any)) {
	switch v := v.(type) {
	case Message:
		v.Each(translate, text, value)
	case error:
		OfError(v).Each(translate, text, value)
	case string:
		text(v)
	default:
		value(v)
	}
}

// In is the message in a language, with its values as show writes them; nil for
// English and for values as they write themselves, which is in metric units.
func (m Message) In(translate func(Message) string, show func(any) string) string {
	var b strings.Builder
	m.Each(translate, func(t string) { b.WriteString(t) }, func(v any) {
		if show == nil {
			fmt.Fprint(&b, v)
		} else {
			b.WriteString(show(v))
		}
	})
	return b.String()
}

// InEnglish is some messages in English and metric units.
func InEnglish(list []Message, between string) string {
	lines := make([]string, len(list))
	for i, m := range list {
		lines[i] = m.String()
	}
	return strings.Join(lines, between)
}

// String is the message in English and metric units.
func (m Message) String() string { return m.In(nil, nil) }

// UnmarshalText reads a message back as a text that no language changes.
func (m *Message) UnmarshalText(text []byte) error {
	*m = Plain(string(text))
	return nil
}

// MarshalText is the message in English, for JSON.
func (m Message) MarshalText() ([]byte, error) { return []byte(m.String()), nil }
