package app

import (
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"

	"skep/app/ui"
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

// Whatever stands over the window goes with Escape.
func TestEscapeClosesWhatStandsOver(t *testing.T) {
	s := newStage(t, "")
	for name, open := range map[string]func(){
		"preferences":        s.showPreferences,
		"title":              s.editTitle,
		"keys":               s.showHelp,
		"save as":            func() { s.SaveAs(nil) },
		"open":               func() { s.AskOpen() },
		"vessel":             func() { s.goTo(2); s.Mend("kit.vessel_l") },
		"print":              func() { s.brew.Print() },
		"two glasses":        func() { s.goTo(4); s.ledger.StartTest(false) },
		"a refusal":          func() { s.Open("no/such/file.toml") },
		"the ledger's batch": func() { s.goTo(0); s.Open("no/such/other.toml") },
	} {
		open()
		s.settle()
		if s.Window().Canvas().Overlays().Top() == nil {
			t.Errorf("%s does not open", name)
			continue
		}
		s.escape()
		if s.Window().Canvas().Overlays().Top() != nil {
			s.escape() // a field gives back what was typed first
		}
		if n := len(s.Window().Canvas().Overlays().List()); n > 0 || s.Modal() {
			t.Fatalf("%s stays open after Escape: %d", name, n)
		}
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
