package filedialog_test

import (
	"path/filepath"
	"testing"

	"skep/app/stage"
	"skep/app/ui"
	"skep/app/ui/filedialog"
)

// What one changes of a path that is offered is the file's name: it is selected, so that
// typing replaces it and leaves the folder and the ending.
func TestTheNameOfAFileToSaveIsSelected(t *testing.T) {
	s := stage.New(t)
	folder := filepath.Join(t.TempDir(), "Gärten am Tor.d")
	for name, want := range map[string]string{
		"meadow.skep.toml": "x.skep.toml",
		"Met für Ä.csv":    "x.csv",
		"plain":            "x",
		".hidden":          "x",
	} {
		filedialog.Save{Title: "Save as", Path: filepath.Join(folder, name)}.Show(s)
		e, ok := s.Window().Canvas().Focused().(*ui.Entry)
		if !ok {
			t.Fatalf("%T has the keyboard", s.Window().Canvas().Focused())
		}
		e.TypedRune('x')
		if want := filepath.Join(folder, want); e.Text != want {
			t.Errorf("%s becomes %s, want %s", name, e.Text, want)
		}
		e.Leave()
	}
}
