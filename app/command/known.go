package command

import (
	"time"

	"skep/app/batches"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
)

// evidence is what a command predicts from beside the design itself.
type evidence struct {
	Plan   bool   `name:"plan" help:"Leave the file's readings out: the beer as it was planned."`
	Learnt string `name:"learnt" placeholder:"FOLDER" help:"Use what the finished batches of a folder have taught; without it nothing outside the file counts."`
}

// known is a design as one beer: with its readings as of the last of them, unless
// the plan is wanted, and with the lessons of a folder, if one is given.
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
	var f follow.Follower
	k, err := f.Know(d, time.Time{}, follow.Instruments{}, doubts)
	if err != nil {
		return nil, wrong(err)
	}
	return k, nil
}
