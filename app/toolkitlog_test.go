package app

import (
	"bytes"
	"log"
	"os"
	"path/filepath"
	"testing"
)

// What the toolkit complains of goes to a file, and nowhere where there can be none: a
// state folder that can't be made, or a pipe in the file's place.
func TestTheToolkitComplainsToNobody(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	var terminal bytes.Buffer
	defer log.SetOutput(os.Stderr)
	for name, make := range map[string]func(folder string) string{
		"a folder that can be made": func(folder string) string { return filepath.Join(folder, "state") },
		"a file in the folder's place": func(folder string) string {
			path := filepath.Join(folder, "state")
			if err := os.WriteFile(path, nil, 0o600); err != nil {
				t.Fatal(err)
			}
			return path
		},
		"a folder in the file's place": func(folder string) string {
			if err := os.Mkdir(filepath.Join(folder, "toolkit.log"), 0o700); err != nil {
				t.Fatal(err)
			}
			return folder
		},
	} {
		log.SetOutput(&terminal)
		logToolkit(make(t.TempDir()))
		log.Print("no such thing")
		if terminal.Len() > 0 {
			t.Errorf("%s: on the terminal: %s", name, &terminal)
		}
	}
}
