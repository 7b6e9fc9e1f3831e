package app

import (
	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/quantity"
)

// preferences are a person's own, kept between starts; a design file knows
// nothing of them.
type preferences struct {
	units      quantity.Units
	mode       look.Mode
	whole      bool     // the landing plane shows 0 to 100, not the closer look
	ledger     string   // the folder of finished batches; empty: the usual one
	leftOut    []string // batches not to learn from, by file
	lessonsOff []string // lessons not to use, by key
	last       string   // the file that was open when the window closed

	store fyne.Preferences
}

const (
	keyUnits      = "units"
	keyMode       = "appearance"
	keyLast       = "last file"
	keyWhole      = "whole plane"
	keyLedger     = "ledger folder"
	keyLeftOut    = "batches left out"
	keyLessonsOff = "lessons left out"
)

func loadPreferences(store fyne.Preferences) *preferences {
	p := &preferences{store: store}
	// What can't be read falls back to metric: a lost choice is no disaster.
	p.units, _ = quantity.DecodeUnits(store.String(keyUnits))
	p.mode = look.ModeFrom(store.String(keyMode))
	p.last = store.String(keyLast)
	p.whole = store.Bool(keyWhole)
	p.ledger = store.String(keyLedger)
	p.leftOut = store.StringList(keyLeftOut)
	p.lessonsOff = store.StringList(keyLessonsOff)
	return p
}

func (p *preferences) save() {
	p.store.SetString(keyUnits, p.units.Encode())
	p.store.SetString(keyMode, p.mode.String())
	p.store.SetString(keyLast, p.last)
	p.store.SetBool(keyWhole, p.whole)
	p.store.SetString(keyLedger, p.ledger)
	p.store.SetStringList(keyLeftOut, p.leftOut)
	p.store.SetStringList(keyLessonsOff, p.lessonsOff)
}
