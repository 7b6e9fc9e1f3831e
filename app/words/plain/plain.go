// Package plain finds English that no language reaches. A text comes in that was shown
// in the pseudo-language, with the words that stay as they are in every language: names,
// keys, what somebody typed; what is left comes out. It is for tests alone and must not
// know where a text was shown.
package plain

import (
	"regexp"
	"slices"
	"strings"
)

var (
	// word is one that the pseudo-language would have spelt with other letters.
	word = regexp.MustCompile(`(^|[^\pL])([A-Z]?[a-z]{2,})($|[^\pL])`)
	// format is what no language changes: names of files, keys with a dot or an
	// underscore, instants, addresses, paths.
	format = regexp.MustCompile(`[\w-]+\.(toml|pdf|txt|csv|gif|png|svg)\b|\[{0,2}[a-z0-9]+([._][a-zN0-9_]+)+\]{0,2}|\d{4}-\d\S*|https?:\S+|[A-Z]:?\\\S*|/\S+`)
)

// English are the words of a text that are neither in the pseudo-language nor known,
// each once. What is a format's own where the text stands is left out; nil is none.
func English(text string, own *regexp.Regexp, known map[string]bool) (found []string) {
	if own != nil {
		text = own.ReplaceAllString(text, "")
	}
	text = format.ReplaceAllString(text, "")
	for range 2 { // two words may share the letter between them
		for _, m := range word.FindAllStringSubmatch(text, -1) {
			if !known[strings.ToLower(m[2])] && !slices.Contains(found, m[2]) {
				found = append(found, m[2])
			}
		}
		text = strings.Join(strings.Fields(text), "  ")
	}
	return found
}

// Words are the words of texts, in small letters.
func Words(texts ...string) map[string]bool {
	all := map[string]bool{}
	for _, text := range texts {
		for word := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool { return r < 'a' || r > 'z' }) {
			all[word] = true
		}
	}
	return all
}

var quoted = regexp.MustCompile(`"[^"]*"`)

// Quoted is what stands in quotation marks in a file.
func Quoted(file string) string { return strings.Join(quoted.FindAllString(file, -1), " ") }
