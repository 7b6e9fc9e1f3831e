package app

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"

	"skep/app/table"
	"skep/app/ui"
)

// stopName tells a stop of the keyboard from others in a message.
func stopName(f fyne.Focusable) string {
	if a, ok := f.(fyne.Accessible); ok {
		return fmt.Sprintf("%T %s", f, a.AccessibilityLabel())
	}
	return fmt.Sprintf("%T", f)
}

// isList tells whether a press opens a list.
func isList(f fyne.Focusable) bool {
	switch f := f.(type) {
	case *ui.Choice:
		return f.List
	case *table.Choice:
		return f.List
	case *table.Link:
		return f.List
	case *table.WordChoice:
		return f.List
	case *ui.Select:
		return true
	}
	return false
}

// Escape never takes the keyboard away: on each stop of each place it stays there, and
// from the list of a choice it comes back to the choice, so that Tab goes on from there.
func TestEscapeLeavesTheKeyboardWhereItWas(t *testing.T) {
	s := newStage(t, "../assets/demo/gate-field-middle.toml")
	c := s.Window().Canvas()
	lists := 0
	for at, p := range s.places {
		s.goTo(at)
		s.settle()
		seen := map[fyne.Focusable]bool{}
		for range 150 {
			c.FocusNext()
			f := c.Focused()
			if f == nil || seen[f] {
				break
			}
			seen[f] = true
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			if now := c.Focused(); now != f {
				t.Errorf("%s: Escape on %s leaves the keyboard at %v", p.name, stopName(f), now)
				c.Focus(f)
			}
			if press, ok := f.(fyne.Tappable); ok && isList(f) {
				// By the pointer, before which the driver takes the keyboard away.
				c.Unfocus()
				press.Tapped(&fyne.PointEvent{})
				s.escape()
				if now := c.Focused(); now != f {
					t.Errorf("%s: pressed by the pointer, after Escape %s leaves the keyboard at %v", p.name, stopName(f), now)
					c.Focus(f)
				}
			}
			opens := isList(f)
			if !opens {
				continue
			}
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
			if c.Overlays().Top() == nil {
				t.Errorf("%s: space on %s opens nothing", p.name, stopName(f))
				continue
			}
			lists++
			s.escape()
			s.settle()
			if top := c.Overlays().Top(); top != nil {
				t.Errorf("%s: Escape does not close the list of %s", p.name, stopName(f))
				s.leaveAll()
			}
			if now := c.Focused(); now != f {
				t.Errorf("%s: Escape from the list of %s leaves the keyboard at %v", p.name, stopName(f), now)
				c.Focus(f)
			}
		}
		t.Logf("%s: %d stops", p.name, len(seen))
	}
	if lists < 5 {
		t.Errorf("only %d lists were opened", lists)
	}
}
