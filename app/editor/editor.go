// Package editor is the state behind the window: one design, its file, and every step
// that led to it. It draws nothing and knows no toolkit, so that a test, or a program
// without a display, can do all that a person can.
//
// Alterations come in; the design, its undo steps and what is to be written go out.
//
// An Editor is for one goroutine: the window's.
package editor

import (
	"errors"
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

	taken int // counts the designs that came in the place of another

	saving *writing      // the save that has begun; nil: none
	lost   savefile.Lost // what the last save could not keep
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
	e.taken++
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

// Lost is what the last save could not keep of the file that it took the place of.
func (e *Editor) Lost() savefile.Lost { return e.lost }

// Unsaved says whether there is anything that a save would keep.
func (e *Editor) Unsaved() bool { return e.fresh || e.Touched() }

// Touched says whether a person has changed anything since the design was
// opened: an untouched demonstration need not be asked about.
func (e *Editor) Touched() bool { return !e.now.Like(&e.saved) }

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

// Opened is a file that was read and reads as a design.
type Opened struct {
	Findings []design.Finding // what its text deserves to be told
	doc      *file.Document
	path     string
	print    savefile.Fingerprint
}

// Read reads a file, and may do so beside the editor. A design with values that are
// refused is opened, so that they can be mended where they are shown; the findings
// tell of them, and [Editor.Refused].
func Read(path string) (*Opened, error) {
	src, print, err := savefile.ReadPrint(path)
	if err != nil {
		return &Opened{}, err
	}
	doc, findings := file.Parse(path, src)
	if err := design.FirstError(findings); err != nil && !mendable(doc) {
		return &Opened{Findings: findings}, err
	}
	return &Opened{findings, doc, path, print}, nil
}

// Take puts a file that was read in the place of the design.
func (e *Editor) Take(o *Opened) {
	e.take(o.doc, o.path, false)
	e.print, e.onDisk = o.print, true
	e.notify()
}

// Open is [Read] and Take. On an error nothing changes.
func (e *Editor) Open(path string) ([]design.Finding, error) {
	o, err := Read(path)
	if err == nil {
		e.Take(o)
	}
	return o.Findings, err
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
	changed, taken := e.Changed, e.taken
	*e = *fresh
	e.Changed, e.taken = changed, taken+1
	e.notify()
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
	return e.write(e.path, false)
}

// SaveOver writes the design to a path, whatever stands there, and makes it
// the design's file. The design in memory is untouched if it fails.
func (e *Editor) SaveOver(path string) error { return e.write(path, true) }

func (e *Editor) write(path string, over bool) error {
	w, err := e.writing(path, over)
	if err != nil {
		return err
	}
	w.do()
	return e.wrote(w)
}

// writing is a save on its way: what is written, and what came of it. Its do may run
// beside the editor, which may go on changing meanwhile.
type writing struct {
	path   string
	doc    *file.Document // what the text reads back as
	print  savefile.Fingerprint
	known  bool // print is what the file was when it was read or written last
	over   bool // write whatever stands there
	taken  int  // which design it is of
	design design.Design

	err  error
	lost savefile.Lost
	gone bool // the file was there when it was read or written last, and was no more
	ours bool // what stands there now is ours, with print
}

// writing begins a save.
func (e *Editor) writing(path string, over bool) (*writing, error) {
	if why := e.ReadOnly(); why != nil && path == e.path {
		return nil, why
	}
	src, err := e.text()
	if err != nil {
		return nil, err
	}
	// What is about to be written must read back as what is on the screen.
	doc, findings := file.Parse(path, src)
	if err := design.FirstError(findings); err != nil {
		return nil, message.NewError("the design was not written, as it would not read back: {error}", err)
	}
	if !doc.Design.Equal(e.now) {
		return nil, message.NewError("{path} was not written: the text would not read back as the design on the screen", path)
	}
	e.saving = &writing{path: path, doc: doc, print: e.print, known: e.onDisk && path == e.path, over: over, taken: e.taken, design: e.now.Clone()}
	return e.saving, nil
}

// do writes the file.
func (w *writing) do() {
	if w.known {
		now, err := savefile.FingerprintOf(w.path)
		var failed *savefile.Error
		switch {
		case errors.As(err, &failed) && failed.Missing():
			w.gone = true // deleted or moved away: writing it anew loses nothing
		case w.over:
		case err != nil:
			w.err = err
			return
		case !now.Same(w.print):
			w.err = message.After(w.path+": ", ErrChangedUnderneath).Err()
			return
		}
	}
	w.lost, w.err = savefile.WriteOver(w.path, w.doc.Source())
	// A save that failed only after the new text had taken the old one's place was our
	// hand, not another's.
	var failed *savefile.Error
	if w.err == nil || errors.As(w.err, &failed) && failed.Replaced {
		if print, err := savefile.FingerprintOf(w.path); err == nil {
			w.print, w.ours = print, true
		}
	}
}

// wrote takes up what came of a save. A design that has come in the place of the one
// that was written is not touched.
func (e *Editor) wrote(w *writing) error {
	if e.saving == w {
		e.saving = nil
	}
	e.lost = w.lost
	if w.taken != e.taken {
		return w.err
	}
	if w.err != nil {
		if w.ours && w.path == e.path { // unsaved still: the disk has not confirmed it
			e.print, e.onDisk = w.print, true
			e.notify()
		}
		return w.err
	}
	e.doc, e.path, e.fresh = w.doc, w.path, false
	e.saved = w.design
	e.gesture = ""
	if w.ours {
		e.print, e.onDisk = w.print, true
	}
	e.notify()
	return nil
}

func (e *Editor) text() ([]byte, error) {
	if e.doc == nil {
		return file.Encode(e.now)
	}
	return e.doc.Write(e.now)
}

func (e *Editor) notify() {
	if e.Changed != nil {
		e.Changed()
	}
}
