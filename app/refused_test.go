package app

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"skep/app/stage"
	"skep/app/ui"
	"skep/assets"
	"skep/calc/design"
	"skep/calc/design/file"
)

// written is a file with the demonstration in which one text stands for another.
func written(t *testing.T, old, now string) string {
	t.Helper()
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	text := string(src)
	if !strings.Contains(text, old) {
		t.Fatalf("the demonstration has no %q", old)
	}
	path := filepath.Join(t.TempDir(), "brew.toml")
	if err := os.WriteFile(path, []byte(strings.Replace(text, old, now, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// dialogTexts are what the topmost dialog says.
func dialogText(s *scene) string {
	top := s.Window().Canvas().Overlays().Top()
	if top == nil {
		return ""
	}
	return stage.Texts(top)
}

// A design with a refused value is opened, without a number in any place, says in
// every place for what it is refused, and leads to the control that mends it; mended,
// it can be saved and keeps all else that the file has.
func TestARefusedDesignCanBeMendedFromEveryPlace(t *testing.T) {
	path := written(t, "into_fermenter_l = 15.0", "into_fermenter_l = 1500 # too much")
	for i := range 5 {
		s := newStage(t, path)
		s.goTo(i)
		s.settle()
		if got := s.Status.Text(); !s.bad() || !strings.Contains(got, "batch.into_fermenter_l = 1500") {
			t.Errorf("%s: the foot says %q", s.places[i].name, got)
		}
		if i < 2 || i == 3 {
			if got := stage.Texts(s.places[i].place.Object()); !strings.Contains(got, "batch.into_fermenter_l = 1500") {
				t.Errorf("%s does not say what is wrong", s.places[i].name)
			}
		}
		s.Mend(s.Editor.Refused().Key)
		f, ok := s.Window().Canvas().Focused().(*ui.Field)
		if !ok || s.at != 2 {
			t.Fatalf("%s: leads to %T in place %d", s.places[i].name, s.Window().Canvas().Focused(), s.at)
		}
		f.SetText("16")
		if !f.Take() {
			t.Fatal("16 L are refused")
		}
		s.settle()
		if s.Editor.Refused() != nil || s.bad() {
			t.Errorf("mended, and the foot says %q", s.said())
		}
		if err := s.Editor.Save(); err != nil {
			t.Error(err)
		}
		src, err := os.ReadFile(path)
		if err != nil || !strings.Contains(string(src), "into_fermenter_l = 16 # too much") {
			t.Errorf("%v: %s", err, src)
		}
		path = written(t, "into_fermenter_l = 15.0", "into_fermenter_l = 1500 # too much")
	}
}

// Any number may be out of its range: each such file is shown in every place, and
// leads somewhere.
func TestEveryRefusedNumberLeadsSomewhere(t *testing.T) {
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	doc, _ := file.Parse("demo", src)
	s := newStage(t, "")
	folder := t.TempDir()
	for n, k := range design.Keys() {
		if k.Kind != design.Number || strings.HasPrefix(k.Path, "reading") || strings.HasPrefix(k.Path, "temperature") {
			continue
		}
		path := strings.ReplaceAll(k.Path, ".N", ".0")
		d := doc.Design.Clone()
		if d.Set(path, fmt.Sprint(k.Max)) != nil {
			continue // the demonstration has no such entry
		}
		v := []float64{k.Max + 1, 3*k.Max + 100, k.Min - 1}[n%3]
		text := writeAnew(doc, d, path, v)
		if text == "" {
			continue
		}
		where := filepath.Join(folder, k.Path+".toml")
		if err := os.WriteFile(where, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		s.goTo(n % len(s.places))
		s.Open(where)
		s.settle()
		f := s.Editor.Refused()
		if s.Path() != where || f == nil {
			t.Errorf("%s = %g: open is %s, refused %v: %s", path, v, s.Path(), f, s.said())
			continue
		}
		for range s.places {
			s.goTo((s.at + 1) % len(s.places))
			s.settle()
		}
		s.Mend(f.Key)
		s.settle()
		if s.Window().Canvas().Focused() == nil && !strings.Contains(s.said(), "Set ") {
			t.Errorf("%s leads nowhere: %d overlays, %s", f.Key, len(s.Window().Canvas().Overlays().List()), dialogText(s))
		}
		if len(s.Window().Canvas().Overlays().List()) > 0 {
			s.key(fyne.KeyEscape, false)
		}
		if n := len(s.Window().Canvas().Overlays().List()); n > 0 {
			t.Fatalf("%s: %d overlays are left", f.Key, n)
		}
	}
}

// writeAnew is a design's text with one number on the line of a key; empty where the
// key has no line of its own.
func writeAnew(doc *file.Document, d design.Design, path string, now float64) string {
	text, err := doc.Write(d)
	if err != nil {
		return "" // what holds between values
	}
	again, _ := file.Parse("x", text)
	line := again.Line(path)
	if line == 0 {
		return ""
	}
	lines := strings.Split(string(text), "\n")
	key := path[strings.LastIndexByte(path, '.')+1:]
	if !strings.Contains(lines[line-1], key) {
		return ""
	}
	lines[line-1] = key + " = " + fmt.Sprint(now)
	return strings.Join(lines, "\n")
}

// A file that can't be read at all is told of in a dialog that waits, also at the
// start, where the demonstration stands in its place; mended, it is opened from there.
func TestAFileThatCannotBeReadIsToldOf(t *testing.T) {
	path := written(t, "[batch]", "[batch")
	for _, reopened := range []bool{false, true} {
		s := newStage(t, "")
		if reopened {
			s.Reopen(path)
		} else {
			s.Open(path)
		}
		s.settle()
		s.goTo(1) // with its greeting
		s.settle()
		if got := dialogText(s); !strings.Contains(got, "brew.toml:") || !strings.Contains(got, "Gate Field Midsummer stands here") {
			t.Fatalf("the dialog says %q", got)
		}
		src, _ := os.ReadFile(path)
		if err := os.WriteFile(path, []byte(strings.Replace(string(src), "[batch\n", "[batch]\n", 1)), 0o600); err != nil {
			t.Fatal(err)
		}
		press(t, s, "Try again")
		if s.Path() != path {
			t.Errorf("open is %q: %s", s.Path(), s.said())
		}
		path = written(t, "[batch]", "[batch")
	}
}

// press presses a button of the topmost dialog.
func press(t *testing.T, s *scene, text string) {
	t.Helper()
	for _, o := range test.LaidOutObjects(s.Window().Canvas().Overlays().Top()) {
		if b, ok := o.(*ui.Button); ok && b.Text == text {
			test.Tap(b)
			s.settle()
			return
		}
	}
	t.Fatalf("no button %q", text)
}
