package app

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"

	"skep/app/ui"
	"skep/app/ui/filedialog"
	"skep/calc/design"
)

func (s *scene) escape() {
	k := &fyne.KeyEvent{Name: fyne.KeyEscape}
	if f := s.Window().Canvas().Focused(); f != nil {
		f.TypedKey(k)
	} else if on := s.Window().Canvas().OnTypedKey(); on != nil {
		on(k)
	}
	s.settle()
}

// Behind a dialog the window hears nothing; Escape is its safe answer, Enter the one
// that has the keyboard.
func TestADialogHasTheKeysToItself(t *testing.T) {
	s := newStage(t, "")
	if err := s.Edit("a rest", func(d *design.Design) { d.Mash.Rest[0].TemperatureC = 67 }); err != nil {
		t.Fatal(err)
	}
	s.AskOpen() // unsaved changes are asked about
	if s.Window().Canvas().Overlays().Top() == nil || !s.Modal() {
		t.Fatal("nothing is asked")
	}
	s.heard(func() { t.Error("behind the dialog a key was heard") })(nil)
	s.key(fyne.KeyF1, false)
	if n := len(s.Window().Canvas().Overlays().List()); n != 1 {
		t.Errorf("%d dialogs stand there", n)
	}
	if b, ok := s.Window().Canvas().Focused().(*ui.Button); !ok || b.Text != "Save" {
		t.Errorf("the keyboard is on %v", s.Window().Canvas().Focused())
	}
	s.escape()
	if s.Window().Canvas().Overlays().Top() != nil || s.Modal() || s.restC() != 67 {
		t.Error("Escape does not cancel")
	}
	heard := false
	s.heard(func() { heard = true })(nil)
	if !heard {
		t.Error("the window does not hear its keys again")
	}
}

// Whatever stands over the window goes with Escape, wherever in it the keyboard is: a
// field gives back first what was typed.
func TestEscapeClosesWhatStandsOver(t *testing.T) {
	s := newStage(t, "")
	window := s.Window().Canvas()
	for name, open := range map[string]func(){
		"preferences":      s.showPreferences,
		"title":            s.editTitle,
		"keys":             s.showHelp,
		"save as":          func() { s.SaveAs(nil) },
		"a folder":         func() { filedialog.OpenFolder(s, t.TempDir(), func(string) {}) },
		"open":             func() { s.AskOpen() },
		"vessel":           func() { s.goTo(2); s.Mend("kit.vessel_l") },
		"the crush by eye": func() { s.goTo(2); s.brew.OpenCrush() },
		"print":            func() { s.brew.Print() },
		"a strain":         func() { s.goTo(1); s.yeasts.OpenForm(0) },
		"a log": func() {
			s.goTo(3)
			s.ferment.Log("a log", []byte("date,gravity\n2026-05-01 10:00,1.050\n2026-05-02 10:00,1.040\n"))
		},
		"two glasses": func() { s.goTo(4); s.ledger.StartTest(false) },
		"its questions": func() {
			s.goTo(4)
			s.ledger.StartTest(false)
			s.ledger.Test.Choose(0, "one", "1.050", "1.010")
			s.ledger.Test.Choose(1, "two", "1.050", "1.010")
			s.ledger.Test.Pour()
			s.ledger.Test.Ask()
		},
		"a refusal": func() { s.Open("no/such/file.toml") },
	} {
		open()
		s.settle()
		if window.Overlays().Top() == nil {
			t.Errorf("%s does not open", name)
			continue
		}
		// How many objects of it can have the keyboard.
		window.FocusNext()
		first, stops := window.Focused(), 1
		for window.FocusNext(); window.Focused() != first && stops < 100; window.FocusNext() {
			stops++
		}
		for tabs := range stops + 1 {
			if window.Overlays().Top() == nil {
				open()
				s.settle()
			}
			for range tabs {
				window.FocusNext()
			}
			at := window.Focused()
			s.escape()
			if window.Overlays().Top() != nil {
				s.escape()
			}
			if n := len(window.Overlays().List()); n > 0 || s.Modal() {
				t.Errorf("%s stays open after Escape on %T: %d", name, at, n)
				s.leaveAll()
			}
		}
		t.Logf("%s: %d stops", name, stops)
	}
}

// A press beside a drawer closes it: the next Escape is for what stands below.
func TestADrawerThatWasPressedAwayHearsNoEscape(t *testing.T) {
	s := newStage(t, "")
	s.SaveAs(nil)
	filedialog.OpenFolder(s, t.TempDir(), func(string) {})
	s.settle()
	window := s.Window().Canvas()
	if n := len(window.Overlays().List()); n != 2 {
		t.Fatalf("%d stand over the window", n)
	}
	window.Overlays().Top().(fyne.Tappable).Tapped(&fyne.PointEvent{})
	s.settle()
	if n := len(window.Overlays().List()); n != 1 {
		t.Fatalf("%d stand over the window after a press beside the upper", n)
	}
	s.escape()
	if n := len(window.Overlays().List()); n != 0 || s.Modal() {
		t.Errorf("%d stand over the window after Escape", n)
	}
}

// The folders are looked through with the keyboard: Enter goes into one and takes the
// file; a pipe is not offered.
func TestAFileIsFoundByTheKeyboard(t *testing.T) {
	s := newStage(t, "")
	folder := t.TempDir()
	if err := os.Mkdir(filepath.Join(folder, "brews"), 0o700); err != nil {
		t.Fatal(err)
	}
	var want string
	for _, name := range []string{"a.toml", "b.txt", ".hidden.toml"} {
		want = filepath.Join(folder, "brews", name)
		if err := os.WriteFile(want, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want = filepath.Join(folder, "brews", "a.toml")
	var got string
	filedialog.Open(s, folder, []string{".toml"}, func(path string) { got = path })
	s.settle()
	typed := func(text string) {
		t.Helper()
		e, ok := s.Window().Canvas().Focused().(*ui.Entry)
		if !ok {
			t.Fatalf("%T has the keyboard", s.Window().Canvas().Focused())
		}
		e.SetText(text)
		s.key(fyne.KeyReturn, false)
		s.settle()
	}
	typed("brews")
	if got != "" {
		t.Fatalf("took %s", got)
	}
	typed("a.t")
	if got != want {
		t.Errorf("took %q, want %s", got, want)
	}
	got = ""
	filedialog.Open(s, "/", []string{".toml"}, func(path string) { got = path })
	s.settle()
	typed(filepath.Join(folder, "brews"))
	typed("nowhere.toml")
	if want = filepath.Join(folder, "brews", "nowhere.toml"); got != want {
		t.Errorf("a typed path: %q, want %s", got, want)
	}
}

// Ctrl+O has the files that were open last; Enter takes the first.
func TestTheLastFilesAreOffered(t *testing.T) {
	s := newStage(t, "")
	first, second := written(t, "15.0", "16.0"), written(t, "15.0", "17.0")
	s.Open(first)
	s.Open(second)
	s.AskOpen()
	s.settle()
	e, ok := s.Window().Canvas().Focused().(*ui.Entry)
	if !ok {
		t.Fatalf("%T has the keyboard", s.Window().Canvas().Focused())
	}
	e.SetText(filepath.Dir(first))
	s.key(fyne.KeyReturn, false)
	s.settle()
	if s.Path() != first {
		t.Errorf("open is %s: %s", s.Path(), s.said())
	}
}
