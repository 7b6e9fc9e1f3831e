package shell

import (
	"slices"

	"fyne.io/fyne/v2"
)

// over is something that stands over the window.
type over struct {
	modal  bool
	stands func() bool
	leave  func()
}

// Over says that something stands over the window, until gone is called or it stands no
// more: a press beside a drawer closes it without a word.
func (s *Shell) Over(modal bool, stands func() bool, leave func()) (gone func()) {
	o := &over{modal, stands, leave}
	s.overs = append(s.overs, o)
	s.MoveOn()
	return func() {
		s.MoveOn()
		s.overs = slices.DeleteFunc(s.overs, func(x *over) bool { return x == o })
	}
}

// Modal says whether a dialog stands over the window, which then hears no key.
func (s *Shell) Modal() bool {
	return slices.ContainsFunc(s.overs, func(o *over) bool { return o.modal })
}

// typedKey hears the keys that nothing in the window has taken: Escape closes what
// stands over it, F1 opens the list of keys.
func (s *Shell) typedKey(k *fyne.KeyEvent) {
	s.overs = slices.DeleteFunc(s.overs, func(o *over) bool { return !o.stands() })
	switch n := len(s.overs); {
	case k.Name == fyne.KeyEscape && n > 0:
		s.overs[n-1].leave()
	case k.Name == fyne.KeyF1 && !s.Modal() && s.OnHelp != nil:
		s.OnHelp()
	}
}
