package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
)

// ledgerStage is a bench with the simulated batches of testdata/learn as its
// ledger.
func ledgerStage(t *testing.T, folder string) *stage {
	t.Helper()
	s := newStage(t, "")
	s.prefs.ledger = folder
	s.goTo(len(s.places) - 1)
	s.ledger.read()
	s.settle()
	return s
}

func copyBatches(t *testing.T) string {
	t.Helper()
	to := t.TempDir()
	files, err := filepath.Glob("../testdata/learn/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal("no batches", err)
	}
	for _, f := range files {
		src, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(to, filepath.Base(f)), src, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return to
}

func TestTheLedgerListsTeachesAndSkips(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	a := &s.ledger.answer
	if a.err != nil || len(a.entries) < 3 || !a.predicted {
		t.Fatalf("%d batches, predicted %v, %v", len(a.entries), a.predicted, a.err)
	}
	named := false
	for _, k := range a.skipped {
		named = named || strings.Contains(k.String(), "broken.toml")
	}
	if !named {
		t.Errorf("the broken file is not named: %v", a.skipped)
	}
	if s.learnt == nil || s.learnt.Batches == 0 {
		t.Fatal("nothing was learnt")
	}
	all := len(s.ledger.list.Objects)
	s.ledger.search.SetText(a.entries[0].Title)
	if n := len(s.ledger.list.Objects); n >= all || n == 0 {
		t.Errorf("the search leaves %d of %d", n, all)
	}
}

// New predictions use what the kit has taught and say so; a switch and the
// file itself are left in peace.
func TestLessonsActOnPredictionsAndCanBeSwitchedOff(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	s.goTo(0)
	s.settle()
	with := s.shown.prediction.OriginalGravitySG
	if !strings.Contains(s.taste.sentence.label.Text, "taught") {
		t.Errorf("the sentence does not say so: %q", s.taste.sentence.label.Text)
	}
	if s.editor.Touched() {
		t.Error("lessons changed the design")
	}
	for _, l := range s.learnt.Lessons {
		s.prefs.lessonsOff = append(s.prefs.lessonsOff, l.Key)
	}
	s.post()
	s.settle()
	without := s.shown.prediction.OriginalGravitySG
	if with == without {
		t.Errorf("original gravity %v with and without lessons", with)
	}
	s.learnt = nil
	s.post()
	s.settle()
	if s.shown.prediction.OriginalGravitySG != without {
		t.Error("switched off is not the same as never learnt")
	}
}

func TestAMissingLedgerOffersToMakeIt(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "batches")
	s := ledgerStage(t, folder)
	if !s.ledger.answer.missing || s.ledger.make.Hidden {
		t.Fatal("the missing folder is not offered")
	}
	s.ledger.make.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	s.settle()
	if _, err := os.Stat(folder); err != nil || s.ledger.answer.missing {
		t.Errorf("not made: %v", err)
	}
}
