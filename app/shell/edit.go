package shell

import (
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/message"
)

// Design is the design as it stands: a copy of the caller's own.
func (s *Shell) Design() design.Design { return s.Editor.Design() }

// Title is the design's title, or a word for none.
func (s *Shell) Title() string { return s.Editor.Title() }

// Path is the design's file; empty where it has none.
func (s *Shell) Path() string { return s.Editor.Path() }

// Edit alters the design as one step of undo.
func (s *Shell) Edit(step string, alter func(*design.Design)) error { return s.change(step, "", alter) }

// Move is Edit for a lever on its way: the axes hold still until it ends. A
// lever that is spent does not move: the error says since when.
func (s *Shell) Move(step, lever string, alter func(*design.Design)) error {
	if c := s.Conditioned(); len(c.Spent) > 0 {
		if spent, ok := c.SpentAt(lever, s.Rest(&c.Design), s.Honey(&c.Design)); ok {
			s.Changed() // puts the control back
			return message.NewError("This can't be moved any more: {why}", ui.SpentWords(s, spent))
		}
	}
	s.moving = true
	return s.change(step, lever, alter)
}

// ReadOnly says why nothing of the design can be changed; nil where it can.
func (s *Shell) ReadOnly() error {
	if day := s.Editor.Closed(); day != "" {
		return message.NewError("This batch was closed on {day} and is history: “Brew again” makes a design of it.", ui.DayWords(day, s.Now()))
	}
	return s.Editor.ReadOnly()
}

func (s *Shell) change(step, gesture string, alter func(*design.Design)) error {
	err := s.ReadOnly()
	if err == nil {
		err = s.Editor.Change(step, gesture, alter)
	}
	if err != nil {
		s.Changed() // puts the control back
	}
	return err
}

// Mend leads to where a key's value is changed.
func (s *Shell) Mend(key string) {
	if s.OnMend != nil {
		s.OnMend(key)
	}
}

// Demonstration says that the design is one of ours, with nothing changed yet.
func (s *Shell) Demonstration() bool { return s.Demo && !s.Editor.Touched() && s.Editor.Path() == "" }

// StartAnew asks what the person has.
func (s *Shell) StartAnew() {
	if s.OnStart != nil {
		s.OnStart()
	}
}

// Start alters the design that is being started from what one has: steps merge
// until EndMove, and the pictures' axes follow.
func (s *Shell) Start(alter func(*design.Design)) error {
	return s.change(words.T("start from what you have"), "start", alter)
}

// EndMove says that the lever has come to rest.
func (s *Shell) EndMove() {
	s.Editor.EndGesture()
	s.moving = false
	s.Post()
}

// Moving says whether a lever is on its way.
func (s *Shell) Moving() bool { return s.moving }

// Undo takes the last step back.
func (s *Shell) Undo() {
	if s.ReadOnly() == nil {
		s.Editor.Undo()
	}
}

// Redo does it again.
func (s *Shell) Redo() {
	if s.ReadOnly() == nil {
		s.Editor.Redo()
	}
}

// At says which rest and which honey the levers move.
func (s *Shell) At() lever.At { return s.Levers }

// SetAt chooses another rest or honey.
func (s *Shell) SetAt(at lever.At) { s.Levers = at }

// ReducedMotion says that nothing is to glide, as the person or the desktop wants it.
func (s *Shell) ReducedMotion() bool {
	return s.Prefs.ReducedMotion || !s.App.Settings().ShowAnimations()
}

// WholePlane says whether the landing plane shows 0 to 100.
func (s *Shell) WholePlane() bool { return s.Prefs.Whole }

// SetWholePlane keeps that for the next time.
func (s *Shell) SetWholePlane(on bool) {
	s.Prefs.Whole = on
	s.SavePrefs()
}

// Rest is the rest that the levers move, in a design that may have fewer.
func (s *Shell) Rest(d *design.Design) int { return s.Levers.In(d).Rest }

// Honey is the honey that the levers move; 0 where there is none yet.
func (s *Shell) Honey(d *design.Design) int { return max(s.Levers.In(d).Honey, 0) }
