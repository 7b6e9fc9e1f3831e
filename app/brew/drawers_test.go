package brew

import (
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func TestPrintMakesTheSheetAndSaysWhereItIs(t *testing.T) {
	s := brewStage(t)
	d := s.brew.newPrint()
	d.show()
	path := filepath.Join(t.TempDir(), "the day.pdf")
	d.path.SetText(path)
	var opened *url.URL
	d.open = func(u *url.URL) error { opened = u; return nil }
	test.Tap(d.print)
	src, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(src), "%PDF-") {
		t.Fatalf("no PDF at %s: %v", path, err)
	}
	if opened == nil || opened.Path != path {
		t.Errorf("opened %v", opened)
	}
	d.open = func(*url.URL) error { return os.ErrNotExist }
	test.Tap(d.print)
	if !strings.Contains(d.message.Text, path) || !d.copy.Visible() {
		t.Errorf("with no viewer it says %q", d.message.Text)
	}
	test.Tap(d.copy)
	if got := s.App.Clipboard().Content(); got != path {
		t.Errorf("the clipboard has %q", got)
	}
	// Without a path: a private folder, a speaking name.
	t.Setenv("TMPDIR", t.TempDir())
	d.path.SetText("")
	test.Tap(d.print)
	if filepath.Base(d.made) != "Gate Field Midsummer brew sheet.pdf" {
		t.Errorf("made %s", d.made)
	}
	if info, err := os.Stat(filepath.Dir(d.made)); err != nil || info.Mode().Perm() != 0o700 {
		t.Errorf("its folder: %v %v", info, err)
	}
	d.path.SetText(filepath.Join(t.TempDir(), "no", "such", "folder.pdf"))
	test.Tap(d.print)
	if !strings.Contains(d.message.Text, "No sheet was made") {
		t.Errorf("a folder that is not there is answered with %q", d.message.Text)
	}
}

// The line of the day is one stop of Tab, and the fields follow each other.
func TestTabGoesFromFieldToField(t *testing.T) {
	s := brewStage(t)
	s.Place.FocusFirst()
	seen := 0
	for range 12 {
		if _, ok := s.Window().Canvas().Focused().(*spineItem); ok {
			seen++
		}
		s.Window().Canvas().FocusNext()
	}
	if seen != 1 {
		t.Errorf("Tab stops %d times on the line", seen)
	}
	s.brew.goToStep(0)
	s.Place.FocusFirst()
	s.Key(fyne.KeyDown, false)
	if i, ok := s.Window().Canvas().Focused().(*spineItem); !ok || i.at != 1 {
		t.Errorf("Down leads to %T", s.Window().Canvas().Focused())
	}
}
