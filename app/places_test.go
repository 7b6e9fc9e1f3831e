package app

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"skep/app/userfile"
	"skep/calc/design"
)

func TestPlacesChangeByTheBar(t *testing.T) {
	s := newStage(t, "")
	if !s.taste.Object().Visible() || s.yeasts.Object().Visible() {
		t.Fatal("the window should begin with Taste alone")
	}
	test.Tap(s.bar.places[1])
	s.settle()
	if s.taste.Object().Visible() || !s.yeasts.Object().Visible() || !s.bar.places[1].Current || s.bar.places[0].Current {
		t.Error("pressing Yeasts did not go there")
	}
	if f := s.Window().Canvas().Focused(); f == nil {
		t.Error("nothing has the keyboard")
	}
	// The keys themselves (Ctrl+1, Ctrl+2) need a canvas that takes shortcuts,
	// which the test driver's does not: the real window's run presses them.
	s.goTo(0)
	s.goTo(7) // there is no such place
	s.goTo(-1)
	if s.at != 0 || !s.taste.Object().Visible() {
		t.Errorf("at place %d", s.at)
	}
}

// What is changed in one place is there in the other, whichever was shown.
func TestTheOtherPlaceCatchesUp(t *testing.T) {
	s := newStage(t, "")
	s.goTo(1)
	s.settle()
	if err := s.Edit("brew with the second", func(d *design.Design) { d.Yeast[0], d.Yeast[1] = d.Yeast[1], d.Yeast[0] }); err != nil {
		t.Fatal(err)
	}
	s.goTo(0)
	s.settle()
	if got := s.taste.Levers.YeastName.Text; got != "English ale" {
		t.Errorf("Taste shows %q", got)
	}
	if s.taste.Shown.Prediction.Yeast != "English ale" {
		t.Errorf("Taste predicts %q", s.taste.Shown.Prediction.Yeast)
	}
}

// One's own strains stand in the lever's menu and in Brew's, and the ways to a
// taste are sought among them.
func TestOnesOwnStrainsAreOfferedEverywhere(t *testing.T) {
	s := newStage(t, "")
	if err := userfile.AddStrain(s.StrainsFile, shelfJar(7), design.About{}); err != nil {
		t.Fatal(err)
	}
	s.taste.Levers.ChooseYeast()
	var names []string
	for _, o := range test.LaidOutObjects(s.Window().Canvas().Overlays().Top()) {
		if text, ok := o.(*canvas.Text); ok {
			names = append(names, text.Text)
		}
	}
	if !slices.ContainsFunc(names, func(n string) bool { return strings.HasPrefix(n, "Jar 007 ") }) {
		t.Errorf("the lever's menu offers %q", names)
	}
	s.Window().Canvas().Overlays().Remove(s.Window().Canvas().Overlays().Top())
	if q := s.taste.Third.Landing.Ask(s.Taught()); !slices.Contains(q.Strains, shelfJar(7)) {
		t.Errorf("ways are sought among %d strains, none of them ours", len(q.Strains))
	}
}

// shelfJar is a strain of one's own.
func shelfJar(i int) design.Yeast {
	y := design.NewYeast()
	y.Name, y.AttenuationLowPct, y.AttenuationHighPct = fmt.Sprintf("Jar %03d", i), 66, 72
	return y
}
