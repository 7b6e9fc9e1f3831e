// Package stage is a window without a display in which a test puts one place:
// the shell is the real one, only Fyne's driver is the toolkit's for tests.
//
// A place comes in; what a person would do goes through the stage. It is for
// tests alone and must not know any place.
package stage

import (
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/shell"
	"skep/app/ui"
	"skep/app/userfile"
)

// Queue stands in for fyne.Do: the test's goroutine does what a worker hands
// over, as Fyne's does in the real window, so that nothing is touched by two.
type Queue struct {
	mu   sync.Mutex
	todo []func()
}

// Do leaves f to be done.
func (q *Queue) Do(f func()) {
	q.mu.Lock()
	q.todo = append(q.todo, f)
	q.mu.Unlock()
}

// Drain does what was left, and says how much that was.
func (q *Queue) Drain() int {
	q.mu.Lock()
	todo := q.todo
	q.todo = nil
	q.mu.Unlock()
	for _, f := range todo {
		f()
	}
	return len(todo)
}

// Place is what is put on the stage.
type Place interface {
	Object() fyne.CanvasObject
	Update()
	Post()
	FocusFirst()
	Idle()
	Close()
}

// Stage is a window with one place.
type Stage struct {
	*shell.Shell
	Q     *Queue
	Place Place
}

// New is a stage before its place is put on it.
func New(t testing.TB) *Stage {
	t.Helper()
	a := test.NewApp()
	a.Settings().SetTheme(look.New(look.Light))
	q := &Queue{}
	s := &Stage{Shell: shell.New(a, shell.LoadPreferences(filepath.Join(t.TempDir(), "preferences.toml"), ""), q.Do), Q: q}
	s.StrainsFile = filepath.Join(t.TempDir(), "strains.toml") // not those of who runs the tests
	return s
}

// Put shows a place, as when it is gone to.
func (s *Stage) Put(t testing.TB, p Place) {
	t.Helper()
	s.Place = p
	s.OnChanged = func() { p.Update(); s.Post() }
	s.OnPost = p.Post
	w := s.Window()
	// Where the window has its bar and its foot, here is room.
	w.SetContent(container.New(layout.NewCustomPaddedLayout(ui.BarHeight, ui.FootHeight, 0, 0), p.Object()))
	w.SetPadded(false)
	w.Resize(fyne.NewSize(1280, 800))
	w.Show()
	s.Offers(func([]userfile.Offer, error) {})
	s.Changed()
	p.FocusFirst()
	s.WaitIdle()
	t.Cleanup(func() {
		s.Closing = true
		p.Close()
		w.Close()
	})
}

// WaitIdle waits until what was posted is on the screen, glides included.
func (s *Stage) WaitIdle() {
	for {
		s.Place.Idle()
		s.Disk().Idle()
		if s.Q.Drain() == 0 {
			return
		}
	}
}

// key presses a key where the keyboard is.
func (s *Stage) Key(name fyne.KeyName, shift bool) { Key(s.Window().Canvas(), name, shift) }

// Key presses a key where a canvas has the keyboard.
func Key(c fyne.Canvas, name fyne.KeyName, shift bool) {
	f := c.Focused()
	if k, ok := f.(desktop.Keyable); ok {
		if shift {
			k.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
		}
		k.KeyDown(&fyne.KeyEvent{Name: name})
	}
	f.TypedKey(&fyne.KeyEvent{Name: name})
	if k, ok := f.(desktop.Keyable); ok {
		k.KeyUp(&fyne.KeyEvent{Name: name})
		if shift {
			k.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
		}
	}
}

// StatusText is what stands at the foot of the window when no hint does.
func (s *Stage) StatusText() string { text, _ := s.Status.Shown(); return text }

// Bad says whether that is a warning.
func (s *Stage) Bad() bool { _, bad := s.Status.Shown(); return bad }

// RestC is the temperature of the first mash rest.
func (s *Stage) RestC() float64 { return s.Design().Mash.Rest[0].TemperatureC }

// UnitsChosen takes changed units up.
func (s *Stage) UnitsChosen() {
	s.SetUnits()
	s.Changed()
}

// Texts is what stands in an object, line by line.
func Texts(top fyne.CanvasObject) string {
	var all []string
	for _, o := range test.LaidOutObjects(top) {
		switch o := o.(type) {
		case *ui.Paragraph:
			all = append(all, o.Text)
		case *ui.Caption:
			all = append(all, o.Text)
		case *ui.Choice:
			all = append(all, o.Text)
		case *widget.Label:
			all = append(all, o.Text)
		}
	}
	return strings.Join(all, "\n")
}
