package shell

import (
	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/quantity"
)

// Preferences are a person's own, kept between starts; a design file knows
// nothing of them.
type Preferences struct {
	Units      quantity.Units
	Mode       look.Mode
	Whole      bool     // the landing plane shows 0 to 100, not the closer look
	Ledger     string   // the folder of finished batches; empty: the usual one
	LeftOut    []string // batches not to learn from, by file
	LessonsOff []string // lessons not to use, by key
	Last       string   // the file that was open when the window closed

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

// LoadPreferences reads what was kept.
func LoadPreferences(store fyne.Preferences) *Preferences {
	p := &Preferences{store: store}
	// What can't be read falls back to metric: a lost choice is no disaster.
	p.Units, _ = quantity.DecodeUnits(store.String(keyUnits))
	p.Mode = look.ModeFrom(store.String(keyMode))
	p.Last = store.String(keyLast)
	p.Whole = store.Bool(keyWhole)
	p.Ledger = store.String(keyLedger)
	p.LeftOut = store.StringList(keyLeftOut)
	p.LessonsOff = store.StringList(keyLessonsOff)
	return p
}

// Save keeps them.
func (p *Preferences) Save() {
	p.store.SetString(keyUnits, p.Units.Encode())
	p.store.SetString(keyMode, p.Mode.String())
	p.store.SetString(keyLast, p.Last)
	p.store.SetBool(keyWhole, p.Whole)
	p.store.SetString(keyLedger, p.Ledger)
	p.store.SetStringList(keyLeftOut, p.LeftOut)
	p.store.SetStringList(keyLessonsOff, p.LessonsOff)
}
