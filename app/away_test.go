package app

import (
	"fmt"
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// forget destroys every renderer under an object, hidden or not, as the toolkit
// does with what has not been drawn for a minute: its next drawing makes all of
// them anew.
func forget(t *testing.T, root fyne.CanvasObject) (n int) {
	t.Helper()
	t.Run("forget", func(t *testing.T) { // the renderers go when this part ends
		var walk func(fyne.CanvasObject)
		walk = func(o fyne.CanvasObject) {
			switch o := o.(type) {
			case *fyne.Container:
				for _, child := range o.Objects {
					walk(child)
				}
			case fyne.Widget:
				n++
				for _, child := range test.TempWidgetRenderer(t, o).Objects() {
					walk(child)
				}
			}
		}
		walk(root)
	})
	return n
}

// drawAnew lays out what was hidden as the toolkit's driver for a real window does
// before it draws it again, and the driver of tests does not: an object is laid out
// when the least size of its last child that has one is new. What has none is
// nothing new; so a widget whose only child asks for no room is not laid out, and
// has to have its objects where they belong by itself.
func drawAnew(root fyne.CanvasObject) {
	var parentIsNext fyne.CanvasObject
	var walk func(o, parent fyne.CanvasObject)
	walk = func(o, parent fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		var children []fyne.CanvasObject
		switch o := o.(type) {
		case *fyne.Container:
			children = o.Objects
		case fyne.Widget:
			children = test.WidgetRenderer(o).Objects()
		}
		for _, child := range children {
			walk(child, o)
		}
		if parentIsNext == o {
			parentIsNext = nil
			switch o := o.(type) {
			case *fyne.Container:
				if o.Layout != nil {
					o.Layout.Layout(o.Objects, o.Size())
				}
			case fyne.Widget:
				test.WidgetRenderer(o).Layout(o.Size())
			}
		}
		if !o.MinSize().IsZero() {
			parentIsNext = parent
		}
	}
	walk(root, nil)
}

// differing counts the points that differ, and says where they lie.
func differing(a, b image.Image) (n int, within image.Rectangle) {
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			if a.At(x, y) != b.At(x, y) {
				n++
				within = within.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return n, within
}

// drawn is a place as it comes out once its pictures have their sizes.
func (s *scene) drawn(at int) image.Image {
	drawAnew(s.places[at].place.Object())
	s.Window().Canvas().Capture()
	s.settle()
	return s.Window().Canvas().Capture()
}

// Every place, each of its sides, looks the same after one was away for so long
// that the toolkit has thrown away all that it drew.
func TestEveryPlaceSurvivesALongAbsence(t *testing.T) {
	s := newStage(t, "../assets/demo/gate-field-middle.toml")
	sides := map[string][]func(){
		"Taste":   {func() { s.taste.Third.Turn(1) }, func() { s.taste.Third.Turn(0) }},
		"Ferment": {func() { s.ferment.Side.Turn(1) }, func() { s.ferment.Side.Turn(2) }, func() { s.ferment.Side.Turn(0) }},
	}
	for at, p := range s.places {
		turns := sides[p.name]
		if turns == nil {
			turns = []func(){func() {}}
		}
		for side, turn := range turns {
			t.Run(fmt.Sprint(p.name, side), func(t *testing.T) { s.away(t, at, turn) })
		}
	}
}

func (s *scene) away(t *testing.T, at int, turn func()) {
	elsewhere := (at + 1) % len(s.places)
	visit := func(at int) {
		s.goTo(at)
		s.settle()
	}
	visit(at)
	turn()
	s.settle()
	visit(elsewhere)
	visit(at)
	before := s.drawn(at)
	visit(elsewhere)
	if n := forget(t, s.places[at].place.Object()); n < 10 {
		t.Errorf("only %d widgets were forgotten", n)
	}
	visit(at)
	if n, where := differing(before, s.drawn(at)); n > 0 {
		t.Errorf("%d points differ after a long absence, within %v", n, where)
	}
}

// What stands over the window comes back as well: drawers, dialogs and lists, also
// when they were not drawn for so long.
func TestWhatStandsOverTheWindowComesBack(t *testing.T) {
	s := newStage(t, "../assets/demo/gate-field-middle.toml")
	for name, open := range map[string]func(){
		"preferences": s.showPreferences,
		"title":       s.editTitle,
		"keys":        s.showHelp,
		"save as":     func() { s.SaveAs(nil) },
		"recent":      func() { s.AskOpen() },
		"vessel":      func() { s.goTo(2); s.Mend("kit.vessel_l") },
		"print":       func() { s.brew.Print() },
		"a refusal":   func() { s.Open("no/such/file.toml") },
	} {
		open()
		s.settle()
		s.Window().Canvas().Unfocus() // a cursor blinks
		top := s.Window().Canvas().Overlays().Top()
		drawAnew(top)
		before := s.Window().Canvas().Capture()
		if n := forget(t, top); n < 3 {
			t.Errorf("%s: only %d widgets were forgotten", name, n)
		}
		drawAnew(top)
		// The four corners of the toolkit's own dialogs differ by 27 or 28 points.
		const corners = 40
		if n, where := differing(before, s.Window().Canvas().Capture()); n > corners {
			t.Errorf("%s: %d points differ after a long absence, within %v", name, n, where)
		}
		for range 3 {
			if len(s.Window().Canvas().Overlays().List()) > 0 {
				s.escape()
			}
		}
	}
}
