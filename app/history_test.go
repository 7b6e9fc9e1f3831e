package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"skep/assets"
	"skep/calc"
	"skep/calc/follow"
	"skep/calc/measured"
)

// Where the ledger is empty it offers the club's batches. They are marked, teach
// nothing, go into no folder, and one click puts them away.
func TestTheClubsBatchesAreOnlyLookedAt(t *testing.T) {
	folder := t.TempDir()
	s := ledgerStage(t, folder)
	l := s.ledger
	if l.Demo.Hidden || l.Answer.Demo {
		t.Fatal("an empty ledger offers nothing to look at")
	}
	before := s.Taught()
	test.Tap(l.Demo)
	s.settle()
	if !l.Answer.Demo || len(l.Answer.Entries) != 4 || len(l.List.Objects) != 4 || len(l.Answer.Lessons.Lessons) == 0 {
		t.Fatalf("demo %v, %d batches, %d cards", l.Answer.Demo, len(l.Answer.Entries), len(l.List.Objects))
	}
	for _, e := range l.Answer.Entries {
		if !strings.HasPrefix(e.Title, "Gate Field") || e.Unpredicted != nil || e.Path != "" {
			t.Errorf("%s: %v, at %q", e.Title, e.Unpredicted, e.Path)
		}
	}
	if s.Lessons != nil || len(s.Taught().Lessons) != 0 || !s.Taught().Design.Equal(before.Design) {
		t.Error("the club's lessons act on the person's design")
	}
	if list, err := os.ReadDir(folder); err != nil || len(list) != 0 {
		t.Errorf("the person's folder has %v, %v", list, err)
	}
	if !l.Demo.Hidden || l.Away.Hidden {
		t.Error("what shows them and what puts them away are offered at the same time")
	}
	test.Tap(l.Away)
	s.settle()
	if l.Answer.Demo || len(l.Answer.Entries) != 0 || l.Demo.Hidden || !l.Away.Hidden {
		t.Error("one click does not put them away")
	}
	// With a batch of one's own there is nothing to offer.
	s = ledgerStage(t, copyBatches(t))
	if !s.ledger.Demo.Hidden || s.Lessons == nil {
		t.Error("the club's batches are offered beside the person's own")
	}
}

// Where nothing was measured yet, Ferment offers a beer half way, one reading of
// which does not fit; it goes into no ledger, and one click brings back what was open.
func TestTheClubsFermentationIsOnlyLookedAt(t *testing.T) {
	own := filepath.Join(t.TempDir(), "own.toml")
	src, err := assets.Demo(assets.DemoSoft)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(own, src, 0o600); err != nil {
		t.Fatal(err)
	}
	s := newStage(t, own)
	s.Prefs.Ledger = t.TempDir()
	s.goTo(3)
	s.settle()
	title := s.Title()
	s.ShowDemoBeer()
	s.settle()
	d := s.Design()
	if len(d.Reading) < 6 || s.Title() == title {
		t.Fatalf("%q with %d readings", s.Title(), len(d.Reading))
	}
	var f follow.Follower
	b, err := f.Follow(d, s.Now(), measured.Instruments{}, calc.Doubts{})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range b.Timeline.Points {
		if p.What == measured.Gravity && p.Used == (p.Raw == 1.033) {
			t.Errorf("%v at %.0f h: used %v, %v", p.Raw, p.Hours, p.Used, p.Flags)
		}
	}
	if b.State.Code == follow.NotPitched || b.State.Code == follow.Finished {
		t.Errorf("half way is %v", b.State.Code)
	}
	if s.Prefs.Last != "" && s.Prefs.Last != own {
		t.Errorf("the next start opens %q", s.Prefs.Last)
	}
	s.ferment.CloseBatch()
	if list, _ := os.ReadDir(s.Prefs.Ledger); len(list) != 0 {
		t.Errorf("the club's beer went into the person's ledger: %v", list)
	}
	s.PutDemoBeerAway()
	s.settle()
	if s.Title() != title || s.Path() != own || len(s.Design().Reading) != 0 {
		t.Errorf("back at %q, %q", s.Title(), s.Path())
	}
}
