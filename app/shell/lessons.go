package shell

import (
	"slices"
	"time"

	"skep/app/ghost"
	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/glasstest"
	"skep/calc/learn"
	"skep/calc/measured"
)

// Learnt takes what the ledger has taught; nil is nothing.
func (s *Shell) Learnt(lessons *learn.Lessons) { s.Lessons = lessons }

// lessonsOff are the lessons that the person has switched off.
func (s *Shell) lessonsOff() learn.Switches {
	off := learn.Switches{}
	for _, key := range s.Prefs.LessonsOff {
		off[key] = true
	}
	return off
}

// LessonOff says whether a lesson is switched off.
func (s *Shell) LessonOff(key string) bool { return slices.Contains(s.Prefs.LessonsOff, key) }

// UseLesson switches a lesson on or off.
func (s *Shell) UseLesson(key string, on bool) {
	s.Prefs.LessonsOff = with(s.Prefs.LessonsOff, key, !on)
	s.SavePrefs()
}

// LeftOut are the batches that are not to be learnt from, by file.
func (s *Shell) LeftOut() []string { return slices.Clone(s.Prefs.LeftOut) }

// LeaveOut leaves a batch out of what is learnt from, or takes it in again.
func (s *Shell) LeaveOut(file string, out bool) {
	s.Prefs.LeftOut = with(s.Prefs.LeftOut, file, out)
	s.SavePrefs()
}

// with is a list with a name in it, or without it.
func with(list []string, name string, in bool) []string {
	list = slices.DeleteFunc(list, func(n string) bool { return n == name })
	if in {
		list = append(list, name)
	}
	return list
}

// Now is what the clock says.
func (s *Shell) Now() time.Time { return s.Clock() }

// Conditioned is the design with what was measured in it.
func (s *Shell) Conditioned() measured.Conditioned {
	d := s.Design()
	t := measured.NewTimeline(d.Reading, follow.Minute(s.Now()), measured.Instruments{})
	return measured.Condition(d, &t, 0)
}

// Taught is the design as this kit makes it. It is for predicting only, and
// never saved.
func (s *Shell) Taught() ui.Taught {
	t := s.taught()
	t.Now, t.Moving = follow.Minute(s.Now()), s.moving
	return t
}

func (s *Shell) taught() ui.Taught { return s.Teacher()(s.Design()) }

// Teacher makes of any design what this kit makes of it, without a now. It may be
// used by a worker: lessons are never changed.
func (s *Shell) Teacher() func(design.Design) ui.Taught {
	lessons, off, palate := s.Lessons, s.lessonsOff(), s.palateUsed()
	return func(d design.Design) ui.Taught { return teach(lessons, off, palate, d) }
}

func teach(lessons *learn.Lessons, off learn.Switches, palate *glasstest.Palate, d design.Design) ui.Taught {
	untaught := ui.Taught{Design: d, Doubts: palate.Into(calc.Doubts{}, false)}
	if lessons == nil {
		return untaught
	}
	applied, doubts, used := lessons.Apply(d, off)
	if design.FirstError(applied.Validate()) != nil {
		return untaught // a lesson that leads out of what may be: leave it
	}
	// The state kept beside it was brewed with the same kit.
	if g, ok := ghost.Design(d); ok {
		g, _, _ = lessons.Apply(g, off)
		applied.Ghost = ghost.Of(&g, d.Ghost.Name)
	}
	return ui.Taught{Design: applied, Doubts: palate.Into(doubts.Engine(), doubts.Body.Known), Lessons: used, Batches: lessons.Batches}
}

// TaughtStrains are strains as they work in these hands.
func (s *Shell) TaughtStrains(strains []design.Yeast) []design.Yeast {
	if s.Lessons == nil {
		return strains
	}
	d, _, _ := s.Lessons.Apply(design.Design{Yeast: strains}, s.lessonsOff())
	return d.Yeast
}

// LedgerFolder is the folder of finished batches; empty: the usual one.
func (s *Shell) LedgerFolder() string { return s.Prefs.Ledger }

// SetLedgerFolder takes another one.
func (s *Shell) SetLedgerFolder(path string) {
	s.Prefs.Ledger = path
	s.SavePrefs()
}

// Saved is the design as its file holds it.
func (s *Shell) Saved() design.Design { return s.Editor.Saved() }
