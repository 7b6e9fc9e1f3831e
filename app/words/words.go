// Package words has every text that a person reads in that person's language.
// In come messages with named places (package message), out go texts; English
// is the key, translations/en.json the list of all that there are, and another
// language is one more file beside it. It must not know what a text is about,
// nor how a person reads a quantity.
//
// A test walks the source under app and calc and fails when a text is missing from
// en.json; `go test -tags ci ./app/words -update` writes the list anew.
package words

import (
	"sync"

	"skep/app/locale"
	"skep/calc/message"
)

// speaking is the language of this process: one for all its life, so that no
// text of one language stands beside a text of another. It waits for the first
// text, as a command that prints numbers only needn't pay for the list.
var speaking = sync.OnceValue(func() *Language { return Find(locale.Current().Languages) })

// T is a text in the person's language, each {name} in it filled with one of
// the values, which come in the order in which the text first names them (see
// package message). The text must be a literal at the call, or the list of
// texts would miss it.
func T(text string, with ...any) string { return Print(message.New(text, with...)) }

// N is a text that depends on a count: one for a count of one, other for the
// rest, with the place {count}. Languages have plural forms of their own.
func N(one, other string, count int, with ...any) string {
	return Print(message.Counted(one, other, count, with...))
}

// Listed is a text that a table holds, such as the catalogue's notes, in the person's
// language. The table hands its texts to the list of all texts (see words_test.go).
func Listed(english string) string { return Print(message.Message{Text: english}) }

// Print is a message in the person's language, with figures as they write
// themselves.
func Print(m message.Message) string { return m.In(Translate, nil) }

// Error is an error in the person's language as far as it has one.
func Error(err error) string { return Print(message.OfError(err)) }

// Translate is a message's text in the person's language, its places not filled:
// the one place where a language is looked up.
func Translate(m message.Message) string { return Keys(speaking().Translate(m)) }

// Speaks is the language of this process.
func Speaks() *Language { return speaking() }
