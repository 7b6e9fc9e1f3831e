package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
)

// A finished batch says why it came out otherwise, and one press puts its next brew
// there: without readings and without a file, with what it was to be as the wish.
func TestWhatDifferedAndTheNextBrew(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	e := s.ledger.Found()[0]
	s.ledger.ShowDiffered(e)
	s.settle()
	got := &s.ledger.Differed
	if len(got.Misses) < 3 {
		t.Fatalf("%+v", got)
	}
	top := s.Window().Canvas().Overlays().Top()
	if top == nil {
		t.Fatal("no dialog")
	}
	var again *ui.Button
	var said strings.Builder
	for _, o := range test.LaidOutObjects(top) {
		switch x := o.(type) {
		case *ui.Button:
			if strings.HasPrefix(x.Text, "Brew it again") {
				again = x
			}
		case *widget.Label:
			said.WriteString(x.Text + "\n")
		}
	}
	for _, want := range []string{"points", "your palate"} {
		if !strings.Contains(said.String(), want) {
			t.Errorf("nothing of %q:\n%s", want, said.String())
		}
	}
	if again == nil {
		t.Fatal("nothing to brew it again with")
	}
	test.Tap(again)
	s.settle()
	d := s.Design()
	if len(d.Reading) != 0 || s.Path() != "" || !s.Editor.Unsaved() || s.at != 0 || !strings.Contains(d.Title, e.Title) {
		t.Errorf("%d readings, path %q, unsaved %v, place %d, title %q", len(d.Reading), s.Path(), s.Editor.Unsaved(), s.at, d.Title)
	}
	if d.Taste.Dryness == nil && d.Taste.Body == nil && d.Taste.StrengthPct == nil {
		t.Error("nothing is wanted of it")
	}
	if d.Batch.Brewed != "" || d.Batch.Closed != "" {
		t.Errorf("brewed %q, closed %q", d.Batch.Brewed, d.Batch.Closed)
	}
}
