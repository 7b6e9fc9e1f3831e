package app

import (
	"fmt"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/learn"
)

// appliedLesson says whether a lesson acts on the predictions of the window.
// The thermometer's and the palate's are only shown: the first would move the
// pictures' axis away from what the lever says, the second would make the
// indices mean something else in every window.
func appliedLesson(key string) bool {
	switch key {
	case learn.Thermometer, learn.Dryness, learn.Body:
		return false
	}
	return true
}

// taught is a design as this kit makes it, with the doubts that are left. It
// is for predicting only, and never saved.
func (b *bench) taught(d design.Design) (design.Design, calc.Doubts, int) {
	if b.learnt == nil {
		return d, calc.Doubts{}, 0
	}
	off := learn.Switches{learn.Thermometer: true, learn.Dryness: true, learn.Body: true}
	for _, key := range b.prefs.lessonsOff {
		off[key] = true
	}
	applied, doubts, used := b.learnt.Apply(d, off)
	if design.FirstError(applied.Validate()) != nil {
		return d, calc.Doubts{}, 0 // a lesson that leads out of what may be: leave it
	}
	x := doubts.Engine()
	x.Dryness, x.Body, x.SweetShare = calc.Palate{}, calc.Palate{}, 0
	return applied, x, len(used)
}

// doubtsKey tells doubts apart.
func doubtsKey(x calc.Doubts) string { return fmt.Sprintf("%+v", x) }
