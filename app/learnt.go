package app

import (
	"fmt"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/learn"
)

// lessonsOff are the lessons that the person has switched off.
func (b *bench) lessonsOff() learn.Switches {
	off := learn.Switches{}
	for _, key := range b.prefs.lessonsOff {
		off[key] = true
	}
	return off
}

// taught is a design as this kit makes it, with the doubts that are left, and
// the keys of the lessons that are in them. It is for predicting only, and never saved.
func (b *bench) taught(d design.Design) (design.Design, calc.Doubts, []string) {
	if b.learnt == nil {
		return d, calc.Doubts{}, nil
	}
	off := b.lessonsOff()
	applied, doubts, used := b.learnt.Apply(d, off)
	if design.FirstError(applied.Validate()) != nil {
		return d, calc.Doubts{}, nil // a lesson that leads out of what may be: leave it
	}
	// The state kept beside it was brewed with the same kit.
	if g, ok := ghostDesign(d); ok {
		g, _, _ = b.learnt.Apply(g, off)
		applied.Ghost = settingsOf(&g, d.Ghost.Name)
	}
	return applied, doubts.Engine(), used
}

// taughtStrains are strains as they work in these hands.
func (b *bench) taughtStrains(strains []design.Yeast) []design.Yeast {
	if b.learnt == nil {
		return strains
	}
	d, _, _ := b.learnt.Apply(design.Design{Yeast: strains}, b.lessonsOff())
	return d.Yeast
}

// doubtsKey tells doubts apart.
func doubtsKey(x calc.Doubts) string { return fmt.Sprintf("%+v", x) }
