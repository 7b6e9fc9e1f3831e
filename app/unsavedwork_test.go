package app

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"skep/app/recovery"
	"skep/app/ui"
	"skep/assets"
	"skep/calc/design"
)

// answer presses a button of the question that is shown; false when there is
// none of that name.
func (s *scene) answer(text string) bool {
	top := s.Window().Canvas().Overlays().Top()
	if top == nil {
		return false
	}
	for _, o := range test.LaidOutObjects(top) {
		if w, ok := o.(*ui.Button); ok && w.Text == text {
			test.Tap(w)
			s.settle()
			return true
		}
	}
	return false
}

func aFile(t *testing.T) string {
	t.Helper()
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "brew.toml")
	if err := os.WriteFile(path, src, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func left(t *testing.T, state *recovery.Store) (n int) {
	t.Helper()
	all, err := state.Left()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range all {
		l.Release()
	}
	return len(all)
}

// The window ends without a word, as when it is killed; the next one offers the
// work, again after Later, and gives it back unsaved.
func TestUnsavedWorkIsOfferedAndComesBack(t *testing.T) {
	state, path := recovery.Open(t.TempDir()), aFile(t)
	s := stageWith(t, path, state)
	s.key(fyne.KeyRight, true)
	s.settle()
	want := s.restC()
	s.close()

	s = stageWith(t, path, state)
	if s.restC() == want || s.Editor.Touched() {
		t.Fatal("the work was taken back without asking")
	}
	if !s.answer("Later") || left(t, state) != 1 {
		t.Fatalf("no question, or Later loses the work: %d left", left(t, state))
	}
	s.close()

	s = stageWith(t, path, state)
	if !s.answer("Take it back") {
		t.Fatal("no question")
	}
	if s.restC() != want || !s.Editor.Touched() || s.Editor.Path() != path {
		t.Errorf("taken back: %v °C, unsaved %v, %s; want %v °C", s.restC(), s.Editor.Touched(), s.Editor.Path(), want)
	}
	s.key(fyne.KeyRight, false) // the first lever has the focus again
	if s.restC() == want {
		t.Error("the lever has no focus after the answer")
	}
	s.Save(nil)
	s.AskClose()
	s.close()
	if n := left(t, state); n != 0 {
		t.Errorf("a clean exit left %d", n)
	}
}

func TestThrowingUnsavedWorkAwayIsAskedTwice(t *testing.T) {
	state := recovery.Open(t.TempDir())
	s := stageWith(t, "", state)
	s.key(fyne.KeyRight, true)
	s.close()
	s = stageWith(t, "", state)
	if !s.answer("Throw it away") || !s.answer("Keep it") || !s.answer("Later") || left(t, state) != 1 {
		t.Fatal("thrown away at the first word")
	}
	s.OfferLeft(func() {})
	for range 2 { // it is asked twice
		if !s.answer("Throw it away") {
			t.Fatal("not asked")
		}
	}
	if left(t, state) != 0 {
		t.Error("not thrown away")
	}
}

// Closing with "Don't save" is an answer: nothing is offered afterwards.
func TestAnAnsweredCloseLeavesNothing(t *testing.T) {
	state := recovery.Open(t.TempDir())
	s := stageWith(t, "", state)
	s.key(fyne.KeyRight, true)
	s.AskClose()
	closed := false
	s.Window().SetOnClosed(func() { closed = true })
	if !s.answer("Don't save") || !closed || !s.Agreed() {
		t.Fatal("no question, or no end")
	}
	s.close()
	if n := left(t, state); n != 0 {
		t.Errorf("%d left", n)
	}
}

func TestTheSecondWindowIsToldAndDoesNotOverwrite(t *testing.T) {
	state, path := recovery.Open(t.TempDir()), aFile(t)
	stageWith(t, path, state)
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	s := stageWith(t, path, state)
	if !s.answer("Go on") {
		t.Fatal("the second window is not told")
	}
	s.key(fyne.KeyRight, true)
	s.Save(nil)
	if after, err := os.ReadFile(path); err != nil || string(after) != string(before) {
		t.Fatalf("the second window wrote over the file (%v)", err)
	}
	if !s.answer("Cancel") {
		t.Error("the second window does not say why it did not save")
	}
}

// A file that can't be written, whatever one does, leads to another place: seen with a
// write-protected file, where only the foot of the window said why.
func TestAFileThatCantBeSavedIsSavedElsewhere(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "stick")
	path, elsewhere := filepath.Join(folder, "brew.toml"), filepath.Join(t.TempDir(), "kept.toml")
	src, err := os.ReadFile(aFile(t))
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(os.Mkdir(folder, 0o700), os.WriteFile(path, src, 0o600)); err != nil {
		t.Fatal(err)
	}
	s := newStage(t, "")
	s.Open(path)
	s.settle()
	if err := s.Editor.Change("title", "", func(d *design.Design) { d.Title = "Late" }); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(os.RemoveAll(folder), os.WriteFile(folder, nil, 0o600)); err != nil { // the stick is pulled
		t.Fatal(err)
	}
	done := false
	s.Save(func() { done = true })
	s.settle()
	if done || !s.answer("Save under another name…") {
		t.Fatalf("saved: %v; no question, it says %q", done, s.said())
	}
	e, ok := s.Window().Canvas().Focused().(*ui.Entry)
	if !ok {
		t.Fatalf("%T has the keyboard", s.Window().Canvas().Focused())
	}
	e.SetText(elsewhere)
	s.key(fyne.KeyReturn, false)
	s.settle()
	if got, err := os.ReadFile(elsewhere); err != nil || !done || !strings.Contains(string(got), "Late") {
		t.Errorf("saved elsewhere: %v, %v, %.60q", done, err, got)
	}
}

// What a save can't keep of a file is told at the save, once for each file: here a hard
// link, which goes on with the old text.
func TestASaveTellsOnceWhatItCouldNotKeep(t *testing.T) {
	path := aFile(t)
	s := stageWith(t, path, recovery.Open(t.TempDir()))
	for i, want := range []string{
		path + " is saved, but this could not be kept: 1 other hard link, which has the old text",
		"Saved " + path,
	} {
		if err := os.Link(path, path+strings.Repeat("+", i+1)); err != nil {
			t.Skipf("no hard links here: %v", err)
		}
		s.key(fyne.KeyRight, true)
		s.Save(nil)
		s.settle()
		if got := s.Status.Text(); got != want {
			t.Errorf("save %d says %q, want %q", i+1, got, want)
		}
	}
}

// The name of the last change is kept as it was shown: in another language it is left
// out, where the work is offered and in the menu's undo.
func TestUnsavedWorkOfAnotherLanguage(t *testing.T) {
	state, path := recovery.Open(t.TempDir()), aFile(t)
	s := stageWith(t, path, state)
	s.key(fyne.KeyRight, true)
	s.settle()
	step, _ := s.Editor.UndoName()
	s.close()
	s = stageWith(t, path, state)
	if text := s.asked(); step == "" || !strings.Contains(text, step) {
		t.Errorf("in its own language it is offered as %q", text)
	}
	s.answer("Later")
	s.close()
	all, err := state.Left()
	if err != nil || len(all) != 1 {
		t.Fatal(all, err)
	}
	file := all[0].File
	all[0].Release()
	src, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	other := strings.Replace(string(src), `"language": "en"`, `"language": "pl"`, 1)
	if err := os.WriteFile(file, []byte(other), 0o600); err != nil || other == string(src) {
		t.Fatal("the recovery file says no language", err)
	}
	s = stageWith(t, path, state)
	if text := s.asked(); strings.Contains(text, step) || !strings.Contains(text, "Its last change was at 20") {
		t.Errorf("in another language it is offered as %q", text)
	}
	s.answer("Take it back")
	if name, _ := s.Editor.UndoName(); name != "what was taken back" {
		t.Errorf("undo names %q", name)
	}
}
