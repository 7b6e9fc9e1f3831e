package app

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"skep/app/locale"
)

// walking is set in the process that walks the window: a process has one language.
const walking = "SKEP_TEST_WALK"

// walkIn walks every place of the window in a language, in a process of its own, and
// gives what it found.
func walkIn(t *testing.T, language string) []string {
	t.Helper()
	if testing.Short() {
		t.Skip("walks that a process of its own does tell the race detector nothing, and take minutes under it")
	}
	c := exec.Command(os.Args[0], "-test.run=^TestWalk$")
	home := t.TempDir() // what is removed goes to its waste bin
	c.Env = append(os.Environ(), walking+"=1", locale.Variable+"="+language, "HOME="+home, "XDG_DATA_HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_CACHE_HOME="+home, "XDG_STATE_HOME="+home)
	out, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	var found []string
	for line := range strings.Lines(string(out)) {
		if text, ok := strings.CutPrefix(line, "found: "); ok {
			found = append(found, strings.TrimSpace(text))
		}
	}
	return found
}

// In a window of 1024 by 700 no text is cut, in any language; and in the pseudo-language
// no plain English word stands in any place, menu, dialog, drawer, page of help, number
// that is opened, step of the running day, question or refusal but names and formats.
func TestNoTextIsCutAndNoneIsEnglish(t *testing.T) {
	t.Parallel()
	for _, language := range []string{"en", "de", "pl", "en-XA"} {
		for _, text := range walkIn(t, language) {
			if english, ok := strings.CutPrefix(text, "English "); !ok {
				t.Errorf("%s: %s", language, text)
			} else if language == "en-XA" {
				t.Errorf("English that no language reaches: %s", english)
			}
		}
	}
}
