package words

import (
	"embed"
	"encoding/json"
	"path"
	"strings"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"

	"skep/calc/message"
)

//go:embed translations/*.json
var translations embed.FS

// The keys of a list that are no texts: the language's own name for itself, and
// what its reader should know.
const (
	nameKey = "_name"
	noteKey = "_note"
)

// Language is a list of texts. A text that it has not is English.
type Language struct {
	Tag   language.Tag
	texts map[string]forms
	made  func(string) string // instead of a list: the pseudo-language
}

// forms are a text's plural forms by their names in Unicode CLDR ("one",
// "few", "many", "other"); a text without a count has "other" alone.
type forms map[string]string

func (f *forms) UnmarshalJSON(raw []byte) error {
	var text string
	if json.Unmarshal(raw, &text) == nil {
		*f = forms{"other": text}
		return nil
	}
	return json.Unmarshal(raw, (*map[string]string)(f))
}

// English needs no list: its texts are the keys.
var english = language.English

// Tags are the languages that there are, English first.
func Tags() []language.Tag {
	tags := []language.Tag{english}
	files, _ := translations.ReadDir("translations") // embedded: always there
	for _, f := range files {
		if tag := language.Make(strings.TrimSuffix(f.Name(), ".json")); tag != english {
			tags = append(tags, tag)
		}
	}
	return tags
}

// Find is the language of the program that is best for a person who reads these,
// the best first.
func Find(reads []language.Tag) *Language {
	if len(reads) > 0 && reads[0] == Pseudo {
		return &Language{Tag: Pseudo, made: pseudo}
	}
	tags := Tags()
	_, i, sure := language.NewMatcher(tags).Match(reads...)
	if sure == language.No {
		i = 0
	}
	l, err := open(tags[i])
	if err != nil {
		return &Language{Tag: english} // a test reads every list
	}
	return l
}

func open(tag language.Tag) (*Language, error) {
	l := &Language{Tag: tag}
	if tag == english {
		return l, nil
	}
	raw, err := translations.ReadFile(path.Join("translations", tag.String()+".json"))
	if err != nil {
		return nil, err
	}
	if err := json.Unmarshal(raw, &l.texts); err != nil {
		return nil, message.Fault("translations/%s.json: %w", tag, err)
	}
	return l, nil
}

// NameOf is what a language calls itself: "Deutsch".
func NameOf(tag language.Tag) string {
	l, err := open(tag)
	if err != nil || tag == english {
		return "English"
	}
	return l.texts[nameKey]["other"]
}

// Translate is a message's text in the language, its places not filled.
func (l *Language) Translate(m message.Message) string {
	if l.made != nil {
		return l.made(m.English())
	}
	f, ok := l.texts[m.Text]
	if !ok {
		return m.English()
	}
	if m.One != "" {
		if text := f[formOf(l.Tag, m.Count)]; text != "" {
			return text
		}
	}
	if text := f["other"]; text != "" {
		return text
	}
	return m.English()
}

var formNames = [...]string{plural.Other: "other", plural.Zero: "zero", plural.One: "one", plural.Two: "two", plural.Few: "few", plural.Many: "many"}

// formOf is the plural form that a whole number takes in a language.
func formOf(tag language.Tag, count int) string {
	return formNames[plural.Cardinal.MatchPlural(tag, max(count, -count), 0, 0, 0, 0)]
}

// HasLanguage tells whether Skep has the very language, whatever the region.
func HasLanguage(name string) bool {
	tag, err := language.Parse(name)
	if err != nil {
		return false
	}
	asked, _ := tag.Base()
	for _, t := range Tags() {
		if has, _ := t.Base(); has == asked {
			return true
		}
	}
	return false
}
