package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/adrg/xdg"

	"skep/app/batches"
	"skep/calc/design"
	"skep/calc/measured"
)

// brewer is a bench with a saved design of one's own and a folder for batches.
func brewer(t *testing.T) (s *scene, plan, folder string) {
	t.Helper()
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	xdg.Reload()
	t.Cleanup(xdg.Reload)
	s = newStage(t, "")
	folder, plan = t.TempDir(), filepath.Join(t.TempDir(), "hedge.toml")
	s.Prefs.Ledger = folder
	s.Clock = func() time.Time { return time.Date(2026, 6, 20, 9, 0, 0, 0, time.Local) }
	if err := s.Edit("title", func(d *design.Design) { d.Title = "Hedge" }); err != nil {
		t.Fatal(err)
	}
	if err := s.Keeper.SaveOver(plan); err != nil {
		t.Fatal(err)
	}
	s.settle()
	return s, plan, folder
}

func (s *scene) note(t *testing.T, what string, value float64, at time.Time) {
	t.Helper()
	r := design.NewReading()
	r.What, r.Value, r.At = what, value, at
	if err := s.Edit("reading", func(d *design.Design) { d.Reading = append(d.Reading, r) }); err != nil {
		t.Fatal(err)
	}
	s.settle()
}

// Whoever presses "Brew this" twice has a batch, and not a new design of it: the way back
// stands elsewhere.
func TestASecondPressDoesNotBrewAgain(t *testing.T) {
	s, _, folder := brewer(t)
	s.goTo(2)
	s.settle()
	pressed := 0
	for o, at := range s.spots() {
		if at.name != "choice /Brew this" {
			continue
		}
		middle := at.at.AddXY(at.size.Width/2, at.size.Height/2)
		for range 2 {
			if c, ok := under(s.spots(), middle).(fyne.Tappable); ok {
				c.Tapped(&fyne.PointEvent{AbsolutePosition: middle})
				pressed++
			}
			s.settle()
		}
		if c, ok := o.(fyne.Disableable); !ok || !c.Disabled() {
			t.Error("a batch can be made of a batch")
		}
	}
	if batch := filepath.Join(folder, "2026-06-20-hedge.toml"); pressed == 0 || s.Path() != batch {
		t.Errorf("after %d presses of it the window shows %q", pressed, s.Path())
	}
}

// A design is brewed, measured, closed, read, and brewed again; the design stays as
// it was, and history does not move.
func TestALifeOfABatch(t *testing.T) {
	s, plan, folder := brewer(t)
	before, err := os.ReadFile(plan)
	if err != nil {
		t.Fatal(err)
	}
	s.brewThis()
	s.settle()
	batch := filepath.Join(folder, "2026-06-20-hedge.toml")
	if d := s.Design(); s.Path() != batch || d.Batch.Brewed != "2026-06-20" || d.Batch.Design != "hedge.toml" || s.batchMark() != "batch of 20 June" {
		t.Fatalf("%s: %+v, %q; it says %q", s.Path(), d.Batch, s.batchMark(), s.said())
	}
	s.goTo(4)
	s.settle()
	if n := len(s.ledger.Answer.Entries); n != 1 || s.ledger.Answer.Entries[0].At.Format("2006-01-02") != "2026-06-20" {
		t.Errorf("%d batches in the ledger, skipped %v", n, s.ledger.Answer.Skipped)
	}
	s.goTo(0)
	pitched := time.Date(2026, 6, 20, 16, 0, 0, 0, time.Local)
	s.Clock = func() time.Time { return pitched.Add(500 * time.Hour) }
	s.note(t, "mash-temperature", 67, pitched.Add(-4*time.Hour))
	s.note(t, measured.OriginalGravity, 1.043, pitched)
	s.note(t, "pitched", 1, pitched)
	s.note(t, measured.HoneyAdded, 0.55, pitched.Add(50*time.Hour))
	s.note(t, measured.Gravity, 1.008, pitched.Add(300*time.Hour))
	rest := s.restC()
	s.Window().Canvas().Focus(s.taste.Levers.Rest)
	s.key(fyne.KeyRight, false)
	s.settle()
	if s.restC() != rest || !strings.Contains(s.said(), "mashed at 67.0 °C on 20 June") {
		t.Errorf("a spent lever moves to %g; it says %q", s.restC(), s.said())
	}
	for _, what := range []string{measured.FinalGravity, "volume-packaged", "perceived-dryness", "perceived-body"} {
		s.note(t, what, map[string]float64{measured.FinalGravity: 1.008, "volume-packaged": 14, "perceived-dryness": 60, "perceived-body": 40}[what], pitched.Add(499*time.Hour))
	}
	s.ferment.CloseBatch()
	s.settle()
	if s.Editor.Closed() == "" || s.Unsaved() || !strings.HasPrefix(s.batchMark(), "closed 11 July") {
		t.Fatalf("closed %q, unsaved %v; it says %q", s.Editor.Closed(), s.Unsaved(), s.said())
	}
	history, err := os.ReadFile(batch)
	if err != nil {
		t.Fatal(err)
	}
	// It is read: levers, readings, undo and a save move nothing.
	d := s.Design()
	s.Undo()
	if err := s.Edit("honey", func(d *design.Design) { d.Honey[0].MassKg = 2 }); err == nil || !strings.Contains(err.Error(), "Brew again") {
		t.Errorf("a change of history: %v", err)
	}
	if err := s.Move("mash rest", design.LeverRest, func(d *design.Design) { d.Mash.Rest[0].TemperatureC = 60 }); err == nil {
		t.Error("a lever of history moves")
	}
	s.Save(nil)
	if again, _ := os.ReadFile(batch); string(again) != string(history) || !d.Equal(s.Design()) {
		t.Error("history is another")
	}
	if after, _ := os.ReadFile(plan); string(after) != string(before) {
		t.Error("the design's own file is another")
	}
	s.brewThisAgain()
	s.settle()
	again := s.Design()
	if s.Path() != "" || len(again.Reading) != 0 || again.Batch.Brewed != "" || again.Batch.Closed != "" || again.Mash.Rest[0].TemperatureC != rest {
		t.Errorf("%q: %+v, %d readings, rest %g", s.Path(), again.Batch, len(again.Reading), again.Mash.Rest[0].TemperatureC)
	}
	if taught := s.Taught(); taught.Batches != 1 || len(taught.Lessons) == 0 {
		t.Errorf("%d batches have taught it %v", taught.Batches, taught.Lessons)
	}
}

// Two batches of one day are two files; one renamed on disk is listed under its new
// name, and a save of it as it was open is told of; one in the bin is gone from the list.
func TestBatchesOfOneDayAndOnesRenamed(t *testing.T) {
	s, plan, folder := brewer(t)
	s.brewThis()
	s.settle()
	s.Open(plan)
	s.brewThis()
	s.settle()
	first, second := filepath.Join(folder, "2026-06-20-hedge.toml"), filepath.Join(folder, "2026-06-20-hedge-2.toml")
	if s.Path() != second {
		t.Fatalf("the second of the day is %s", s.Path())
	}
	s.note(t, "pitched", 1, s.Now())
	renamed := filepath.Join(folder, "sunday.toml")
	if err := os.Rename(second, renamed); err != nil {
		t.Fatal(err)
	}
	s.Save(nil)
	s.settle()
	if !strings.Contains(s.said(), "not there any more") || !s.bad() {
		t.Errorf("it says %q", s.said())
	}
	s.goTo(4)
	s.ledger.Read()
	s.settle()
	if n := len(s.ledger.Answer.Entries); n < 2 {
		t.Errorf("%d batches, skipped %v", n, s.ledger.Answer.Skipped)
	}
	to, err := filepath.Glob(filepath.Join(xdg.DataHome, "Trash", "files", "*"))
	if err != nil || len(to) != 0 {
		t.Fatal(to, err)
	}
	for i := range s.ledger.Answer.Entries {
		if e := &s.ledger.Answer.Entries[i]; e.Path == first {
			s.ledger.Remove(e)
		}
	}
	s.settle()
	if _, err := os.Lstat(first); err == nil {
		t.Errorf("it is not removed: %q", s.said())
	}
	if to, _ := filepath.Glob(filepath.Join(xdg.DataHome, "Trash", "files", "*hedge.toml")); len(to) != 1 {
		t.Errorf("in the bin: %v; it says %q", to, s.said())
	}
}

// A folder that a person chose and that is not there is told of and not made; a date
// to come and a file that is gone at the next start are said, and nothing is lost.
func TestFoldersAndDatesThatAreNotThere(t *testing.T) {
	s, _, _ := brewer(t)
	s.Prefs.Ledger = filepath.Join(t.TempDir(), "stick", "batches")
	s.brewThis()
	s.settle()
	if !strings.Contains(s.said(), s.Prefs.Ledger) || !strings.Contains(s.said(), "not there") || s.Design().Batch.Brewed != "" {
		t.Errorf("it says %q", s.said())
	}
	if _, err := os.Lstat(filepath.Dir(s.Prefs.Ledger)); err == nil {
		t.Error("the folder of a stick that is not there was made")
	}
	d := s.Design()
	path, err := batches.Begin(t.TempDir(), "", d, s.Now().AddDate(0, 0, 9))
	if err != nil {
		t.Fatal(err)
	}
	s.Open(path)
	if !strings.Contains(s.said(), "2026-06-29") || !s.bad() {
		t.Errorf("of a date to come it says %q", s.said())
	}
	s.Reopen(filepath.Join(t.TempDir(), "gone.toml"))
	if !strings.Contains(s.said(), "gone.toml was open last") {
		t.Errorf("of a file that is gone it says %q", s.said())
	}
}
