// Package editor is the state behind the window: one design, its file, and
// every step that led to it. It draws nothing and knows no toolkit, so that a
// test, or a program without a display, can do all that a person can.
//
// An Editor is for one goroutine: the window's.
package editor

import (
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"strconv"
	"strings"

	"skep/app/savefile"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/message"
)

// Editor holds one design.
type Editor struct {
	// Changed is called after every change of the design, its file or its
	// unsaved mark; nil is fine.
	Changed func()

	doc    *file.Document // nil: never saved and not from a text
	path   string
	print  savefile.Fingerprint
	onDisk bool // path was read or written by us

	now   design.Design
	saved design.Design // what the file holds; the state in which nothing is unsaved
	fresh bool          // nothing was ever saved: unsaved even when unchanged

	undo, redo []step
	gesture    string // the group of the last step, while it may still grow
}

// New is an editor with an unsaved copy of a design read from a text, such as
// a demonstration.
func New(name string, src []byte) (*Editor, error) {
	e := &Editor{}
	doc, findings := file.Parse(name, src)
	if err := design.FirstError(findings); err != nil {
		return nil, err
	}
	e.take(doc, "", true)
	return e, nil
}

func (e *Editor) take(doc *file.Document, path string, fresh bool) {
	e.doc, e.path, e.fresh = doc, path, fresh
	e.now = doc.Design.Clone()
	e.saved = e.now.Clone()
	e.undo, e.redo, e.gesture = nil, nil, ""
}

// Design is the design as it stands: a copy of the caller's own.
func (e *Editor) Design() design.Design { return e.now.Clone() }

// Saved is the design as its file holds it.
func (e *Editor) Saved() design.Design { return e.saved.Clone() }

// Title is the design's title, or a word for none.
func (e *Editor) Title() string {
	if t := strings.TrimSpace(e.now.Title); t != "" {
		return t
	}
	if e.path != "" {
		return filepath.Base(e.path)
	}
	return "Untitled"
}

// Path is the design's file; empty when it has none yet.
func (e *Editor) Path() string { return e.path }

// Unsaved says whether there is anything that a save would keep.
func (e *Editor) Unsaved() bool { return e.fresh || !e.now.Equal(e.saved) }

// Touched says whether a person has changed anything since the design was
// opened: an untouched demonstration need not be asked about.
func (e *Editor) Touched() bool { return !e.now.Equal(e.saved) }

// ReadOnly says why the file can't be saved over; nil when it can.
func (e *Editor) ReadOnly() error {
	if e.doc == nil {
		return nil
	}
	return e.doc.ReadOnly
}

// Closed is the day on which the batch in the file was closed: from then on it is
// history, and nothing in it moves. Empty where it is no such batch.
func (e *Editor) Closed() design.Day {
	if e.path == "" {
		return ""
	}
	return e.saved.Batch.Closed
}

// Gone says that the file was there when it was read or written last, and is no more.
func (e *Editor) Gone() bool { return e.onDisk && e.path != "" && !savefile.IsThere(e.path) }

// Open reads a file in place of the design, with what its text deserves to be told.
// A design with values that are refused is opened, so that they can be mended where
// they are shown; [Editor.Refused] says that it is. On an error nothing changes.
func (e *Editor) Open(path string) ([]design.Finding, error) {
	src, print, err := savefile.ReadPrint(path)
	if err != nil {
		return nil, err
	}
	doc, findings := file.Parse(path, src)
	if err := design.FirstError(findings); err != nil && !mendable(doc) {
		return findings, err
	}
	e.take(doc, path, false)
	e.print, e.onDisk = print, true
	e.tell()
	return findings, nil
}

// Refused is the first thing for which the design is refused; nil: it is not.
func (e *Editor) Refused() *design.Finding {
	for _, f := range e.now.Validate() {
		if f.Severity == design.Error {
			return &f
		}
	}
	return nil
}

// mostMendable is the largest value that a refused design may show in a control.
const mostMendable = 1e6

// mendable tells whether all that is wrong in a file are values that a control of
// the window can show and change: the lists are there, and numbers have a size.
func mendable(doc *file.Document) bool {
	if doc == nil || !doc.Read() && doc.ReadOnly == nil {
		return false
	}
	for _, f := range doc.Design.Validate() {
		k, ok := design.KeyOf(f.Key)
		if f.Severity != design.Error {
			continue
		}
		if !ok {
			return false
		}
		if text, err := doc.Design.Get(f.Key); k.Kind == design.Number {
			if v, bad := strconv.ParseFloat(text, 64); err != nil || bad != nil || !(math.Abs(v) <= mostMendable) {
				return false
			}
		}
	}
	return true
}

// Replace takes a design read from a text in place of the present one, as an
// unsaved copy. On an error nothing changes.
func (e *Editor) Replace(name string, src []byte) error {
	fresh, err := New(name, src)
	if err != nil {
		return err
	}
	changed := e.Changed
	*e = *fresh
	e.Changed = changed
	e.tell()
	return nil
}

// ErrNoPath says that the design has no file yet: ask for one.
var ErrNoPath = message.NewError("the design has no file yet")

// ErrChangedUnderneath says that somebody else has written the file since it
// was read: ask what to keep.
var ErrChangedUnderneath = message.NewError("the file was changed by another program since it was opened")

// Save writes the design to its file, whole or not at all.
func (e *Editor) Save() error {
	if e.path == "" {
		return ErrNoPath
	}
	if e.onDisk {
		now, err := savefile.FingerprintOf(e.path)
		var failed *savefile.Error
		switch {
		case errors.As(err, &failed) && failed.Missing():
			// Deleted or moved away: writing it anew loses nothing.
		case err != nil:
			return err
		case !now.Same(e.print):
			return fmt.Errorf("%s: %w", e.path, ErrChangedUnderneath)
		}
	}
	return e.SaveOver(e.path)
}

// SaveOver writes the design to a path, whatever stands there, and makes it
// the design's file. The design in memory is untouched if it fails.
func (e *Editor) SaveOver(path string) error {
	if why := e.ReadOnly(); why != nil && path == e.path {
		return why
	}
	src, err := e.text()
	if err != nil {
		return err
	}
	// What is about to be written must read back as what is on the screen.
	doc, findings := file.Parse(path, src)
	if err := design.FirstError(findings); err != nil {
		return message.NewError("the design was not written, as it would not read back: {error}", err)
	}
	if !doc.Design.Equal(e.now) {
		return message.NewError("{path} was not written: the text would not read back as the design on the screen", path)
	}
	if err := savefile.Write(path, src); err != nil {
		return err
	}
	e.doc, e.path, e.fresh = doc, path, false
	e.saved = e.now.Clone()
	e.gesture = ""
	if print, err := savefile.FingerprintOf(path); err == nil {
		e.print, e.onDisk = print, true
	}
	e.tell()
	return nil
}

func (e *Editor) text() ([]byte, error) {
	if e.doc == nil {
		return file.Encode(e.now)
	}
	return e.doc.Write(e.now)
}

func (e *Editor) tell() {
	if e.Changed != nil {
		e.Changed()
	}
}
