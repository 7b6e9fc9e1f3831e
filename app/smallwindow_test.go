package app

import (
	"testing"

	"fyne.io/fyne/v2"
)

// A window may be as small as 800 by 600, or 1600 by 1200 drawn twice as large (WCAG
// 2.2, 1.4.4): no place is squeezed below what it needs, and all of it can be scrolled
// to. In a window with room it does not scroll.
func TestASmallWindowScrolls(t *testing.T) {
	s := newStage(t, "")
	if m := s.Window().Content().MinSize(); m.Width > 800 || m.Height > 560 {
		t.Errorf("the window asks for %v", m)
	}
	for _, size := range []fyne.Size{{Width: 800, Height: 600}, {Width: 640, Height: 480}, {Width: 1280, Height: 800}, {Width: 2560, Height: 1400}} {
		s.Window().Resize(size)
		for i, p := range s.places {
			s.goTo(i)
			s.settle()
			o, view := p.place.Object(), p.view
			least := o.MinSize()
			if got := o.Size(); got.Width < least.Width || got.Height < least.Height {
				t.Errorf("%v: %s has %v, needs %v", size, p.name, got, least)
			}
			if size.Width >= 1280 && o.Size() != view.Size() {
				t.Errorf("%v: %s is %v in a view of %v", size, p.name, o.Size(), view.Size())
			}
			end := o.Size().Subtract(view.Size())
			view.ScrollToOffset(fyne.NewPos(end.Width, end.Height))
			if at := view.Offset; at.X != max(end.Width, 0) || at.Y != max(end.Height, 0) {
				t.Errorf("%v: %s scrolls to %v of %v", size, p.name, at, end)
			}
			view.ScrollToOffset(fyne.Position{})
		}
	}
}

// Nothing glides for who does not want it: the first frame has the axes where they
// end.
func TestNothingGlidesForWhoDoesNotWantIt(t *testing.T) {
	s := newStage(t, "")
	s.Prefs.ReducedMotion = true
	if !s.ReducedMotion() {
		t.Fatal("the preference is not heard")
	}
	_, before := s.taste.Worker.Counts()
	s.taste.Levers.Honey.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	s.settle()
	if _, after := s.taste.Worker.Counts(); after-before > 4 {
		t.Errorf("%d frames for one move", after-before)
	}
}
