// Package lever holds the two widgets that Skep is worked with: [Lever], one
// value on a track, and [TwoHanded], a low and a high one that move apart or
// together.
//
// A value and its words come in, what a person does with it goes to a callback. It
// must not know what the value is of.
//
// Fyne's own slider counts its steps from nought, knows only the arrow keys
// along its axis, echoes what the programme sets and has one handle; these are
// drawn anew instead. A lever has a name, its value in a box that can be typed
// into, a track, words (or marks with words) for what its ends mean, a way
// back to its default and a padlock.
//
// By pointer: a press on the track jumps there at once, dragging follows,
// Escape while dragging puts the value back, a double click resets; the wheel
// is left to the column that scrolls. By keyboard, with the lever in focus:
//
//	Left, Right (and Down, Up)    one step; with Shift a big one
//	Page Down, Page Up            a bigger one
//	Home, End                     the ends
//	a digit, Enter or F2          type the value; Enter or Tab takes it, Escape doesn't
//	Delete or Backspace           back to the default
//	L                             lock, unlock
//	Space, Up, Down               two-handed only: low handle, high handle, both
//
// Each lever is one stop of the Tab key, so Tab walks the levers.
//
// OnChanged tells what a person does, at every move, and never what the
// programme sets; it should only store the value and wake a worker.
// OnCommitted comes once when the gesture is over (button up, key up, text
// taken), so that one drag is one step of undo. Both run on Fyne's goroutine.
//
// Values are in whatever unit the owner likes; text comes and goes through the
// Format and Parse functions it hands in.
package lever
