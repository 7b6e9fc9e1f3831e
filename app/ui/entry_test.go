package ui_test

import (
	"testing"

	"fyne.io/fyne/v2/test"

	"skep/app/stage"
	"skep/app/ui"
)

// A press of Space on a button that opens a dialog is heard as a key and then as a
// character: that must not begin the file's name in the field which has the keyboard by
// then. A space that is typed afterwards is one.
func TestTheSpaceThatOpenedAFieldIsNotTypedIntoIt(t *testing.T) {
	s := stage.New(t)
	e := ui.NewEntry(s)
	w := test.NewTempWindow(t, e)
	w.Canvas().Focus(e)
	e.TypedRune(' ')
	e.TypedRune('a')
	s.Q.Drain()
	e.TypedRune(' ')
	e.TypedRune('b')
	if e.Text != "a b" {
		t.Errorf("the field holds %q, want %q", e.Text, "a b")
	}
}
