package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"skep/app/batches"
	"skep/app/recovery"
	"skep/app/userfile"
	"skep/calc/design"
)

// asked is what the question over the window says.
func (s *scene) asked() string {
	top := s.Window().Canvas().Overlays().Top()
	if top == nil {
		return ""
	}
	var all []string
	for _, o := range test.LaidOutObjects(top) {
		if l, ok := o.(*widget.Label); ok {
			all = append(all, l.Text)
		}
	}
	return strings.Join(all, "\n")
}

// aBatch is the file of a batch that is on its way.
func aBatch(t *testing.T, from string, day time.Time) string {
	t.Helper()
	s := newStage(t, "")
	path, err := batches.Begin(t.TempDir(), from, s.Design(), day)
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// Two windows on one batch: the second is told once, by the path of the file; what it
// measures never goes over what the first has, which still can save.
func TestTwoWindowsOnOneBatch(t *testing.T) {
	day := time.Date(2026, 6, 20, 9, 0, 0, 0, time.UTC)
	path := aBatch(t, "", day)
	state := recovery.Open(t.TempDir())
	first := stageWith(t, path, state)
	second := stageWith(t, path, state)
	if text := second.asked(); !strings.Contains(text, path+" is open in another Skep window") {
		t.Fatalf("the second window is told %q", text)
	}
	second.answer("Go on")
	if second.asked() != "" {
		t.Errorf("and then %q", second.asked())
	}
	second.note(t, "pitched", 1, day)
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	second.Save(nil)
	second.settle()
	if text := second.asked(); !strings.Contains(text, "so it is not written over") {
		t.Errorf("saving, it is told %q", text)
	}
	second.answer("Cancel")
	if now, _ := os.ReadFile(path); string(now) != string(before) {
		t.Error("the first window's batch was written over")
	}
	if !second.Editor.Touched() || len(second.Design().Reading) != 1 {
		t.Error("what the second measured is gone")
	}
	first.note(t, "pitched", 1, day.Add(time.Hour))
	first.Save(nil)
	first.settle()
	if first.Editor.Unsaved() || !strings.Contains(first.said(), "Saved "+path) {
		t.Errorf("the first says %q", first.said())
	}
}

// A batch whose design is renamed or gone holds all that it needs: it opens, shows and
// saves without a word about it, and no file is made in the design's place.
func TestABatchWithoutItsDesign(t *testing.T) {
	plan := filepath.Join(t.TempDir(), "gone.toml")
	path := aBatch(t, plan, time.Now())
	s := newStage(t, path)
	if d := s.Design(); d.Batch.Design != "gone.toml" || s.bad() || s.asked() != "" {
		t.Errorf("of %q it says %q, %q", d.Batch.Design, s.said(), s.asked())
	}
	s.note(t, "pitched", 1, s.Now())
	s.Save(nil)
	s.settle()
	if s.Editor.Unsaved() || s.bad() {
		t.Errorf("it says %q", s.said())
	}
	if _, err := os.Lstat(plan); err == nil {
		t.Error("the design was made anew")
	}
}

// A kit's file that is broken by hand is named with its line where one starts from what
// one has, and is left as it is; one that is removed while a design uses it takes
// nothing of the design with it.
func TestKitsThatAreBrokenOrGone(t *testing.T) {
	s := newStage(t, "")
	s.OwnFolder = t.TempDir()
	folder := userfile.KitsIn(s.OwnFolder)
	kit := design.KitOf(s.Design())
	kit.Kit.Name, kit.Kit.SteamLPerH = "Shed kettle", 1.7
	kept, err := userfile.AddKit(folder, kit)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Edit("kit", kept.Into); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "mine.toml")
	if err := s.Keeper.SaveOver(path); err != nil {
		t.Fatal(err)
	}
	if _, err := userfile.RemoveKit(kept); err != nil {
		t.Fatal(err)
	}
	s.Open(path)
	s.settle()
	if k := s.Design().Kit; k.SteamLPerH != 1.7 || k.Name != "Shed kettle" || s.bad() {
		t.Errorf("without its file the kit is %+v; it says %q", k, s.said())
	}
	broken := filepath.Join(folder, "broken.toml")
	const text = "[kit]\nname = \"Broken\"\nvessel_l = plenty\n"
	if err := os.WriteFile(broken, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	s.AskNew()
	s.settle()
	if !s.bad() || !strings.Contains(s.said(), broken+":3: ") {
		t.Errorf("of a broken kit it says %q", s.said())
	}
	if now, _ := os.ReadFile(broken); string(now) != text {
		t.Errorf("the broken file holds %q", now)
	}
}

// A reading of tomorrow is told of when its batch is opened, with its time.
func TestAReadingOfTomorrow(t *testing.T) {
	path := aBatch(t, "", time.Now())
	s := newStage(t, path)
	tomorrow := time.Now().AddDate(0, 0, 1)
	s.note(t, "gravity", 1.02, tomorrow)
	s.Save(nil)
	s.settle()
	src, _ := os.ReadFile(path)
	s.Open(path)
	s.settle()
	if !s.bad() || !strings.Contains(s.said(), tomorrow.UTC().Format("2006-01-02 15:04")) && !strings.Contains(s.said(), tomorrow.Format("2006-01-02 15:04")) {
		t.Errorf("it says %q", s.said())
	}
	if now, _ := os.ReadFile(path); string(now) != string(src) {
		t.Error("the file was changed by opening it")
	}
}
