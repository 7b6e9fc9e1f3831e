package command

import (
	"fmt"
	"time"

	"skep/app/batches"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
)

// evidence is what a command predicts from beside the design itself.
type evidence struct {
	Plan   bool   `name:"plan" help:"Leave the file's readings out: the beer as it was planned."`
	Now    string `name:"now" placeholder:"TIME" help:"When the beer is looked at, as 2026-06-21T18:00:00Z: honey that is planned and not logged goes in no sooner. Left out: this minute, as in the window."`
	Learnt string `name:"learnt" placeholder:"FOLDER" help:"Use what the finished batches of a folder have taught; without it nothing outside the file counts."`
}

// known is a design as one beer: with its readings, unless the plan is wanted, as
// of now, and with the lessons of a folder, if one is given. The window's is the
// same (ui.Knower).
func (e *evidence) known(d design.Design) (*follow.Known, error) {
	d = d.Clone()
	var doubts calc.Doubts
	if e.Learnt != "" {
		finished, err := batches.Read(e.Learnt, batches.NewCache())
		if err != nil {
			return nil, wrong(err)
		}
		lessons := finished.Learn(d)
		applied, x, _ := lessons.Apply(d, nil)
		d, doubts = applied, x.Engine()
	}
	if e.Plan {
		d.Reading = nil
	}
	now := time.Now()
	if e.Now != "" {
		at, err := time.Parse(time.RFC3339, e.Now)
		if err != nil {
			return nil, misused(fmt.Errorf("--now %q is no time such as 2026-06-21T18:00:00Z", e.Now))
		}
		now = at
	}
	var f follow.Follower
	k, err := f.Know(d, follow.Minute(now), follow.Instruments{}, doubts)
	if err != nil {
		return nil, wrong(err)
	}
	return k, nil
}
