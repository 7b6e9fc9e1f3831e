// Package words gives every text that a person reads through Fyne's lang, from
// the first day: the English text is the key, translations/en.json its base
// list, and another language is one more file beside it.
//
// Sentences that calc makes come through S, with their figures still to be
// written.
//
// A test walks the source under app and calc and fails when a text is missing from
// en.json; `go test -tags ci ./app/words -update` writes the list anew.
package words

import (
	"embed"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"skep/calc/says"
)

//go:embed translations/*.json
var translations embed.FS

// load waits for the first text: it looks up the person's locales, which a
// command that prints numbers only needn't pay for.
var load = sync.OnceFunc(func() {
	if err := lang.AddTranslationsFS(translations, "translations"); err != nil {
		fyne.LogError("the translations can't be read, texts stay English", err)
	}
})

// T translates a text. data, a map or a struct, fills its {{.Name}} places.
// The text must be a literal at the call, or the list of texts would miss it.
func T(text string, data ...any) string {
	load()
	return lang.L(text, data...)
}

// N translates a text that depends on a count, such as "{{.Count}} yeasts".
func N(text string, count int, data ...any) string {
	load()
	return lang.N(text, count, data...)
}

// S translates a sentence of calc's; the texts given to says.Say are listed too.
func S(s says.Sentence) says.Sentence {
	load()
	return s.Translated(func(text string) string { return lang.L(text) })
}
