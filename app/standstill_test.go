//go:build ci

package app

import (
	"errors"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"skep/app/ui"
)

// spot is where a control stands in the window.
type spot struct {
	at   fyne.Position
	size fyne.Size
	name string
}

func (s spot) holds(p fyne.Position) bool {
	return p.X >= s.at.X && p.Y >= s.at.Y && p.X < s.at.X+s.size.Width && p.Y < s.at.Y+s.size.Height
}

// spots are where the controls of the window stand.
func (s *scene) spots() map[fyne.CanvasObject]spot {
	all := map[fyne.CanvasObject]spot{}
	for _, o := range controls(s.Window().Content()) {
		if o.Size().Width > 0 && o.Size().Height > 0 {
			all[o] = spot{ui.Position(o), o.Size(), name(o)}
		}
	}
	return all
}

// under is the control at a point of the window; the innermost, where one lies in
// another.
func under(spots map[fyne.CanvasObject]spot, p fyne.Position) (found fyne.CanvasObject) {
	least := float32(1e9)
	for o, s := range spots {
		if area := s.size.Width * s.size.Height; s.holds(p) && area < least {
			found, least = o, area
		}
	}
	return found
}

// What comes and goes by itself (a remark at the foot, long or short, a warning, the
// mark of what is not saved, the brew day's line, what is waited for, a hint) moves no
// control of any place: what is under the pointer stays there.
func TestNothingMovesUnderThePointer(t *testing.T) {
	s := newStage(t, aFile(t))
	s.settle()
	long := strings.Repeat("a long remark that does not fit the foot of the window ", 8)
	for place := range s.places {
		s.goTo(place)
		s.settle()
		before := s.spots()
		for what, happens := range map[string]func(){
			"a remark":            func() { s.ShowMessage("done") },
			"a long remark":       func() { s.ShowMessage(long) },
			"a warning":           func() { s.Warn(long) },
			"a hint":              func() { s.Hint("a hint") },
			"no hint":             func() { s.Hint("") },
			"a disk that is slow": func() { s.Status.Wait("Reading…", true) },
			"and comes":           func() { s.Status.Wait("Reading…", false) },
			"a trouble":           func() { s.dayTroubled(errors.New(long)) },
			"the brew day":        func() { s.Status.SetDay("boil 12:34", func() {}) },
			"no brew day":         func() { s.Status.SetDay("", nil) },
			"units":               func() { s.chosen() },
			"a minute goes by":    func() { s.Clock = func() time.Time { return time.Now().Add(time.Minute) }; s.Changed() },
		} {
			happens()
			s.settle()
			after := s.spots()
			for o, was := range before {
				if is, there := after[o]; there && (is.at != was.at) {
					t.Errorf("%s, %s: %s moves from %v to %v", s.places[place].name, what, was.name, was.at, is.at)
				}
			}
			before = after
		}
	}
}

// The line that leads from the demonstration to a design of one's own goes with the first
// move of a lever, and the lever stays where the pointer holds it.
func TestTheFirstMoveOfALeverMovesNoLever(t *testing.T) {
	s := newStage(t, "")
	before := s.spots()
	s.key(fyne.KeyRight, false)
	s.settle()
	s.chosen() // lays all of it out anew
	s.settle()
	after := s.spots()
	gone := 0
	for o, was := range before {
		if _, there := after[o]; !there && strings.Contains(was.name, "Start from what you have") {
			gone++
		}
	}
	if !s.Editor.Touched() || gone != 1 {
		t.Fatal("the line is still there")
	}
	for o, was := range before {
		if is, there := after[o]; there && is.at.Y != was.at.Y {
			t.Errorf("%s moves from %v to %v", was.name, was.at, is.at)
		}
	}
}

// A press and one more at the same point: what stands there after the first is what was
// pressed, with another value at most, or nothing. Undo takes both back.
func TestNothingBecomesItsOppositeUnderThePointer(t *testing.T) {
	s := newStage(t, "")
	s.OwnFolder = t.TempDir()
	s.Prefs.Ledger = t.TempDir()
	presses := 0
	for place := range s.places {
		s.goTo(place)
		s.settle()
		pressed := map[string]bool{}
		for range 60 {
			before := s.spots()
			var next fyne.CanvasObject
			for _, o := range controls(s.places[place].view) {
				is := before[o]
				c, ok := o.(*ui.Choice)
				if ok && !pressed[is.name] && is.name != leavesThePlaces && !strings.Contains(is.name, "Print") && under(before, middle(is)) == o && is.at.Y > ui.BarHeight && c.Text != "" {
					next = o
					break
				}
			}
			if next == nil {
				break
			}
			was := before[next]
			pressed[was.name] = true
			presses++
			next.(fyne.Tappable).Tapped(&fyne.PointEvent{})
			s.settle()
			if top := s.Window().Canvas().Overlays().Top(); top == nil && s.at == place {
				after := s.spots()
				if o := under(after, middle(was)); o != nil {
					is := after[o]
					_, link := o.(*ui.Choice)
					if link && is.name != was.name && !sameWithAnotherValue(was.name, is.name) {
						t.Errorf("%s: where %q was pressed stands %q", s.places[place].name, was.name, is.name)
					}
				}
			}
			s.leaveAll()
			if s.at != place {
				s.goTo(place)
				s.settle()
			}
		}
	}
	t.Logf("%d presses", presses)
	if presses < 25 {
		t.Errorf("only %d controls were pressed", presses)
	}
}

func middle(s spot) fyne.Position { return s.at.AddXY(s.size.Width/2, s.size.Height/2) }

// sameWithAnotherValue tells whether two names are of one control that shows a value:
// its spoken name is the same, and it says that it is one.
func sameWithAnotherValue(a, b string) bool {
	x, _, _ := strings.Cut(a, "/")
	y, _, _ := strings.Cut(b, "/")
	return x == y && x != "choice "
}

// leaveAll closes what stands over the window.
func (s *scene) leaveAll() {
	for range 5 {
		top := s.Window().Canvas().Overlays().Top()
		if top == nil {
			return
		}
		s.Window().Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if s.Window().Canvas().Overlays().Top() == top {
			s.Window().Canvas().Overlays().Remove(top)
		}
		s.settle()
	}
}
