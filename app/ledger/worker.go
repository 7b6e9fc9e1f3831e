package ledger

import (
	"errors"
	"path/filepath"
	"slices"
	"time"

	"skep/app/batches"
	"skep/calc/design"
	"skep/calc/learn"
	"skep/calc/measured"
)

// ask is what the Ledger place wants of its worker.
type ask struct {
	folder    string
	leftOut   []string      // by file
	reference design.Design // the design as its file stands: what the priors are centred on
	open      openBatch     // what is on the bench
	predict   bool          // fill the predictions in; false: read the folder anew
	demo      bool          // the club's batches, in place of the folder's
}

// Answer is the folder as read, and what it taught.
type Answer struct {
	Entries   []batches.Entry
	Skipped   []batches.Skipped
	Lessons   learn.Lessons
	Missing   bool // the folder is not there
	Err       error
	Predicted bool
	Demo      bool       // the club's: to look at, nothing of them acts
	kit       design.Kit // that the lessons are centred on
	unkept    error      // the predictions could not be kept for the next time
}

// worker reads and predicts on the worker's goroutine.
type worker struct {
	cache *batches.Cache
	of    *batches.Ledger
}

func (l *worker) answer(ask ask) Answer {
	if l.cache == nil {
		l.cache = batches.NewCache()
		l.cache.Load(batches.CachePath()) // one that can't be read costs time, nothing else
	}
	if ask.demo {
		of, err := batches.Demonstration(l.cache)
		if err != nil {
			return Answer{Err: err}
		}
		// Heard for the club's own kit, which is that of the latest batch.
		return Answer{Entries: of.Entries, Skipped: of.Skipped, Predicted: true, Demo: true, Lessons: of.Learn(of.Entries[0].Design)}
	}
	if l.of == nil || !ask.predict || l.of.Folder != ask.folder {
		of, err := batches.Read(ask.folder, l.cache)
		if err != nil {
			var folder *batches.FolderError
			return Answer{Err: err, Missing: errors.As(err, &folder) && folder.Missing()}
		}
		l.of = of
	}
	a := Answer{Predicted: ask.predict, kit: ask.reference.Kit}
	if ask.predict {
		l.of.Predict(l.cache)
		a.unkept = l.cache.Save(batches.CachePath())
	}
	for i := range l.of.Entries {
		e := &l.of.Entries[i]
		e.LeaveOut, e.Own = slices.Contains(ask.leftOut, e.Path), ask.open.is(e)
	}
	a.Lessons = l.of.Learn(ask.reference)
	a.Entries, a.Skipped = slices.Clone(l.of.Entries), slices.Clone(l.of.Skipped)
	return a
}

// openBatch is the design that is open, by its file and its readings.
type openBatch struct {
	path     string // absolute; empty where there is no file
	readings []design.Reading
}

// is tells whether a batch of the ledger is the open design: its file, or a
// copy of it, with as many of the readings as had been made by then.
func (o *openBatch) is(e *batches.Entry) bool {
	if o.path != "" && o.path == absolute(e.Path) {
		return true
	}
	few, many := o.readings, e.Design.Reading
	if len(few) > len(many) {
		few, many = many, few
	}
	if len(few) == 0 || !PitchedOf(few).Equal(PitchedOf(many)) {
		return false
	}
	for _, r := range few {
		if !slices.ContainsFunc(many, func(x design.Reading) bool {
			at := x.At
			x.At = r.At
			return at.Equal(r.At) && x == r
		}) {
			return false
		}
	}
	return true
}

// PitchedOf is when the yeast went in; zero where nobody wrote it down.
func PitchedOf(readings []design.Reading) time.Time {
	for _, r := range readings {
		if r.What == measured.Pitched {
			return r.At
		}
	}
	return time.Time{}
}

func absolute(path string) string {
	if path == "" || filepath.IsAbs(path) {
		return path // as good as all are: this is asked for every batch at every change
	}
	if abs, err := filepath.Abs(path); err == nil {
		return abs
	}
	return path
}
