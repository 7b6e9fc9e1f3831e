package ui

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"

	"skep/app/disk"
	"skep/app/savefile"
	"skep/app/userfile"
	"skep/assets"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/measured"
	"skep/plotting/style"
)

// Host is the little that a place may ask of the window it stands in.
//
// Its methods are for Fyne's goroutine, but for Do, which is how a worker
// comes back to it.
type Host interface {
	// Design is the design as it stands: a copy of the caller's own.
	Design() design.Design
	// Edit alters the design as one step of undo. An error says why not; then
	// nothing has changed, and every control shows again what holds.
	Edit(step string, alter func(*design.Design)) error
	// Move is Edit for a lever on its way: steps of one lever merge, and the
	// pictures' axes hold still, until EndMove.
	Move(step, lever string, alter func(*design.Design)) error
	EndMove()
	Moving() bool
	Undo()
	Redo()
	// Changed shows the design anew in all that shows it.
	Changed()

	// At says which rest and which honey the levers move; Rest and Honey the
	// same in a design that may have fewer.
	At() lever.At
	Rest(d *design.Design) int
	Honey(d *design.Design) int

	// Title is the design's, Path its file; empty where it has none.
	Title() string
	Path() string

	// Taught is the design as this kit makes it, for predicting only.
	Taught() Taught
	// Conditioned is the design with what was measured in the place of what was
	// planned, without lessons, and the levers that are spent.
	Conditioned() measured.Conditioned
	// Now is what the window's clock says.
	Now() time.Time
	// TaughtStrains are strains as they work in these hands.
	TaughtStrains(strains []design.Yeast) []design.Yeast
	// Catalogue is what the program knows of grain, hops, honey and yeast.
	Catalogue() assets.Catalogue
	// Offers reads a person's own strains and the catalogue's. An error is about
	// the own file; the catalogue's are there all the same.
	Offers(take func(list []userfile.Offer, err error))
	// ShelfFolder is where a person's own files lie.
	ShelfFolder() string
	// Own are a person's own strains as they were read last.
	Own() []design.Yeast
	// AddOwn writes a strain to the person's own file, which is OwnPath.
	AddOwn(y design.Yeast, then func(error))
	OwnPath() string

	// Disk does what may wait for a disk: nothing else may on Fyne's goroutine.
	Disk() *disk.Disk
	// Write is Disk for a writing, whose outcome is told whatever came between.
	Write(lane, path string, write func() error, then func(error))
	// Visit changes whenever the person has moved on: to another place or design,
	// or to something that opens over the window or closes there.
	Visit() int

	Say() Formatter
	Read() Parser

	// Hint shows a text at the foot of the window while the pointer or the
	// keyboard is on something; an empty one gives back what stood there.
	Hint(text string)
	// ShowMessage says what was done, Warn what could not be done and why.
	ShowMessage(text string)
	Warn(text string)
	// SaySaved says that a file is saved, and, once for each file, what of the one that was
	// there could not be kept.
	SaySaved(path string, lost savefile.Lost)
	// Withdraw takes back a warning that holds no more, if it still stands there.
	Withdraw(text string)

	// Mend leads to where the value of a key of the design is changed.
	Mend(key string)

	// Over says that something stands over the window as long as stands says so, which
	// Escape closes by leave; behind what is modal the window hears no key. gone is to
	// be called when it is closed.
	Over(modal bool, stands func() bool, leave func()) (gone func())

	// ReducedMotion says that nothing is to glide.
	ReducedMotion() bool

	Window() fyne.Window
	Palette() style.Palette
	// Do runs f on Fyne's goroutine, unless the window is going.
	Do(f func())
	// Post asks the place that is shown for a new picture of what it shows.
	Post()
}

// Taught is a design as this kit makes it, with what the ledger has taught:
// all that [Knower.Know] makes the one beer from.
type Taught struct {
	Design  design.Design // with its readings
	Now     time.Time     // the minute it is (follow.Minute)
	Moving  bool          // a lever is on its way
	Doubts  calc.Doubts   // that are left
	Lessons []string      // the keys of those that are in the design and the doubts
	Batches int           // that were heard
}

// Change edits the design and says at the foot of the window why, if it can't.
func Change(h Host, step string, alter func(*design.Design)) bool {
	if err := h.Edit(step, alter); err != nil {
		h.Warn(h.Say().Why(err))
		return false
	}
	return true
}

// Wanted tells, when something has come from the disk, whether it is still wanted: not
// where the person has moved on since.
func Wanted(h Host) (wanted func() bool) {
	at := h.Visit()
	return func() bool { return h.Visit() == at }
}

// Focus gives an object the keyboard.
func Focus(h Host, o fyne.Focusable) { h.Window().Canvas().Focus(o) }

// Position is where an object stands in the window.
func Position(o fyne.CanvasObject) fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
}

// Measures of the window that the places' layouts keep to.
const (
	BarHeight  = 56 // top bar
	FootHeight = 34 // status line
)

// Move moves a lever and says at the foot of the window why, if it can't.
func Move(h Host, step, lever string, alter func(*design.Design)) {
	if err := h.Move(step, lever, alter); err != nil {
		h.Warn(h.Say().Why(err))
	}
}

// Key tells doubts apart.
func (t *Taught) Key() string { return fmt.Sprintf("%+v", t.Doubts) }
