package command

import (
	"strconv"
	"time"

	"skep/app/batches"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/measured"
	"skep/calc/message"
)

// evidence is what a command predicts from beside the design itself.
type evidence struct {
	Plan bool   `name:"plan" help:"Leave the file's readings out: the beer as it was planned."`
	Now  string `name:"now" placeholder:"TIME" help:"When the beer is looked at, as 2026-06-21T18:00:00Z: honey that is planned and not logged goes in no sooner. Left out: this minute, as in the window."`
	learnt
}

// learnt are the lessons of a folder, as everywhere.
type learnt struct {
	Learnt string `name:"learnt" placeholder:"FOLDER" help:"Use what the finished batches of a folder have taught, and your own glass test; without it nothing outside the file counts."`
}

// known is a design as one beer: with its readings, unless the plan is wanted, as
// of now, and with the lessons of a folder, if one is given. The window's is the
// same (ui.Knower).
func (e *evidence) known(s *session, d design.Design) (*follow.Known, error) {
	now, doubts, d, err := e.given(s, d)
	if err != nil {
		return nil, err
	}
	if e.Plan {
		d.Reading = nil
	}
	var f follow.Follower
	k, err := f.Know(d, now, measured.Instruments{}, doubts)
	if err != nil {
		return nil, wrong(err)
	}
	return k, nil
}

// knownIn is known of a file with changes tried on it.
func (e *evidence) knownIn(s *session, file string, changes []string) (*follow.Known, error) {
	d, err := s.load(file)
	if err != nil {
		return nil, err
	}
	if err := set(&d, changes); err != nil {
		return nil, err
	}
	return e.known(s, d)
}

// given is the minute that the beer is looked at, and the design with the lessons
// of a folder in it and in the doubts.
func (e *evidence) given(s *session, d design.Design) (now time.Time, doubts calc.Doubts, _ design.Design, err error) {
	d = d.Clone()
	if e.Learnt != "" {
		finished, err := batches.Read(e.Learnt, batches.NewCache())
		if err != nil {
			return now, doubts, d, wrong(err)
		}
		lessons := finished.Learn(d)
		applied, x, _ := lessons.Apply(d, nil)
		palate, err := s.palate()
		if err != nil {
			return now, doubts, d, wrong(err)
		}
		d, doubts = applied, palate.Into(x.Engine(), x.Body.Known)
	}
	now = time.Now()
	if e.Now != "" {
		if now, err = time.Parse(time.RFC3339, e.Now); err != nil {
			return now, doubts, d, misused(message.NewError("{text} is no time such as 2026-06-21T18:00:00Z", strconv.Quote(e.Now)))
		}
	}
	return follow.Minute(now), doubts, d, nil
}
