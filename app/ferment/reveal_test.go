package ferment

import (
	"testing"

	"fyne.io/fyne/v2"
)

// What the keyboard comes to in a page that is taller than its room is scrolled into
// view, and so is the remark on what was typed.
func TestTheKeyboardIsInView(t *testing.T) {
	s := fermenting(t, 100)
	s.Window().Resize(fyne.NewSize(1024, 560))
	side := s.ferment.Side
	side.Turn(2)
	s.WaitIdle()
	inView := func(what string, o fyne.CanvasObject) {
		t.Helper()
		scroll := side.column.Scroll
		top, bottom := o.Position().Y-scroll.Offset.Y, o.Position().Y+o.Size().Height-scroll.Offset.Y
		if top < 0 || bottom > scroll.Size().Height {
			t.Errorf("%s stands at %.0f to %.0f of %.0f", what, top, bottom, scroll.Size().Height)
		}
	}
	finish := side.finish
	if side.column.Tall <= side.column.Scroll.Size().Height {
		t.Fatal("all of the page is seen, so this shows nothing")
	}
	canvas := s.Window().Canvas()
	canvas.Focus(finish.add)
	inView("closing the batch", finish.add)
	canvas.Focus(finish.fields[0])
	inView("the final gravity", finish.fields[0])
	finish.fields[0].SetText("NaN")
	finish.write()
	for _, o := range finish.remarks.Objects() {
		inView("the remark", o)
	}
}
