package plain_test

import (
	"regexp"
	"slices"
	"testing"

	"golang.org/x/text/language"

	"skep/app/words"
	"skep/app/words/plain"
	"skep/calc/message"
)

// The detector sees what it should see, and nothing of the pseudo-language.
func TestPlainEnglishIsSeen(t *testing.T) {
	t.Parallel()
	own := regexp.MustCompile(`skep [a-z]+( FILE)?`)
	for text, want := range map[string][]string{
		"ƒíñáĺ gravity 1.010: skep predict FILE the kg a.b_c x.toml": {"gravity", "the"},
		"the end the end":                   {"the", "end"},
		"Final gravity":                     {"Final", "gravity"},
		"/home/someone/brew.toml 2026-06-1": nil,
		words.Find([]language.Tag{words.Pseudo}).Translate(message.New("the final gravity of a beer")): nil,
	} {
		if got := plain.English(text, own, plain.Words("kg")); !slices.Equal(got, want) {
			t.Errorf("in %q it sees %q, want %q", text, got, want)
		}
	}
	if got := plain.Quoted(`name = "Gate Field" # "no"`); got != `"Gate Field" "no"` {
		t.Errorf("quoted: %s", got)
	}
}
