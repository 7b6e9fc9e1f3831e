package words

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/language"

	"skep/calc/message"
)

// Another language is one more file: its texts are English's, and a text has the
// places of its English, none lost and none invented, and all plural forms of
// the language. What is missing is English meanwhile: said here, a fault only
// where a release asks for it (.ci/run).
func TestLanguagesFitTheEnglish(t *testing.T) {
	t.Parallel()
	list := map[string]forms{}
	if err := json.Unmarshal(read(t, englishList), &list); err != nil {
		t.Fatal(err)
	}
	for _, tag := range Tags()[1:] {
		l, err := open(tag)
		if err != nil {
			t.Fatal(err)
		}
		for _, key := range []string{nameKey, noteKey} {
			if l.texts[key]["other"] == "" {
				t.Errorf("%s: %s is missing", tag, key)
			}
		}
		for _, wrong := range misfits(list, l.texts, formsOf(tag)) {
			t.Errorf("%s: %s", tag, wrong)
		}
		missing := missingIn(list, l.texts)
		t.Logf("%s: %d of %d texts are missing", tag, len(missing), len(list))
		for _, key := range missing {
			t.Logf("%s: missing %q", tag, key)
		}
	}
	other := func(text string) forms { return forms{"other": text} }
	wrong := misfits(map[string]forms{"{a} of {b}": other(""), "{count} jars": {"one": "", "other": ""}, "plain": other(""), "lost {x}": other("")},
		map[string]forms{"{a} of {b}": other("{b}s {a}"), "{count} jars": {"one": "ein Glas", "other": "{cuont} Gläser"}, "new": other("neu"), "plain": other("{a}"), "lost {x}": other("fort")},
		[]string{"few", "one", "other"})
	if want := `["lost {x}" has lost its place {x} "plain" has a place {a} "{count} jars" has a place {cuont} "{count} jars" has lost its place {count} "{count} jars" has no form few]`; fmt.Sprint(wrong) != want {
		t.Errorf("got %v, want %v", wrong, want)
	}
}

func missingIn(list, texts map[string]forms) (missing []string) {
	for key := range list {
		if texts[key]["other"] == "" {
			missing = append(missing, key)
		}
	}
	slices.Sort(missing)
	return missing
}

// formsOf are the plural forms that a language has for whole numbers.
func formsOf(tag language.Tag) []string {
	seen := map[string]bool{"other": true}
	for n := range 200 {
		seen[formOf(tag, n)] = true
	}
	return slices.Sorted(maps.Keys(seen))
}

// misfits are what a language has that the English has not, the places that a
// text has lost, and its missing plural forms. Some form may leave out the count.
func misfits(list, texts map[string]forms, has []string) (wrong []string) {
	for key, text := range texts {
		want, known := list[key]
		switch {
		case strings.HasPrefix(key, "_"):
			continue
		case !known: // a text that English has not any more harms nobody
			continue
		}
		_, counted := want["one"]
		places := message.Places(key)
		for name, form := range text {
			got := message.Places(form)
			for _, place := range got {
				if !slices.Contains(places, place) {
					wrong = append(wrong, fmt.Sprintf("%q has a place {%s}", key, place))
				}
			}
			for _, place := range places {
				if !slices.Contains(got, place) && (place != "count" || name == "other") {
					wrong = append(wrong, fmt.Sprintf("%q has lost its place {%s}", key, place))
				}
			}
		}
		for _, name := range has {
			if counted && text[name] == "" {
				wrong = append(wrong, fmt.Sprintf("%q has no form %s", key, name))
			}
		}
	}
	slices.Sort(wrong)
	return wrong
}

// The plural rules are Unicode CLDR's: Polish 1; 2 to 4 but 12 to 14; 0, 5 to 21.
func TestPluralForms(t *testing.T) {
	t.Parallel()
	for n, want := range map[int]string{0: "many", 1: "one", 2: "few", 4: "few", 5: "many", 12: "many", 14: "many", 21: "many", 22: "few", 112: "many", 123: "few"} {
		if got := formOf(language.Polish, n); got != want {
			t.Errorf("pl %d: %s, want %s", n, got, want)
		}
	}
	if got := formsOf(language.Polish); fmt.Sprint(got) != "[few many one other]" {
		t.Errorf("pl has %v", got)
	}
	if got := formsOf(language.German); fmt.Sprint(got) != "[one other]" {
		t.Errorf("de has %v", got)
	}
}

func TestFindFallsBackToEnglish(t *testing.T) {
	t.Parallel()
	for reads, want := range map[string]string{"": "en", "sr": "en", "zh-Hans": "en", "en-US": "en", "en-XA": "en-XA"} {
		var tags []language.Tag
		if reads != "" {
			tags = append(tags, language.MustParse(reads))
		}
		if got := Find(tags).Tag.String(); got != want {
			t.Errorf("who reads %q gets %s, want %s", reads, got, want)
		}
	}
}

func TestPseudoKeepsPlacesAndGrows(t *testing.T) {
	t.Parallel()
	text := Find([]language.Tag{Pseudo}).Translate(message.New("Add {mass} of honey.", 1))
	if !strings.Contains(text, "{mass}") || strings.ContainsAny(strings.Replace(text, "{mass}", "", 1), plainLetters) {
		t.Errorf("got %q", text)
	}
	if n := len([]rune(text)); n < 24 || n > 30 || !strings.HasSuffix(text, ".") {
		t.Errorf("%d letters: %q", n, text)
	}
}
