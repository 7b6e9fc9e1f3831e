package app

import (
	"errors"
	"path/filepath"
	"slices"
	"time"

	"skep/app/ledger"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/learn"
)

// ledgerAsk is what the Ledger place wants of its worker.
type ledgerAsk struct {
	folder    string
	leftOut   []string      // by file
	reference design.Design // the design as its file stands: what the priors are centred on
	open      openBatch     // what is on the bench
	predict   bool          // fill the predictions in; false: read the folder anew
}

// ledgerAnswer is the folder as read, and what it taught.
type ledgerAnswer struct {
	entries   []ledger.Entry
	skipped   []ledger.Skipped
	lessons   learn.Lessons
	missing   bool // the folder is not there
	err       error
	predicted bool
	kit       design.Kit // that the lessons are centred on
	unkept    error      // the predictions could not be kept for the next time
}

// ledgerLive reads and predicts on the worker's goroutine.
type ledgerLive struct {
	cache *ledger.Cache
	of    *ledger.Ledger
}

func (l *ledgerLive) answer(ask ledgerAsk) ledgerAnswer {
	if l.cache == nil {
		l.cache = ledger.NewCache()
		l.cache.Load(ledger.CachePath()) // one that can't be read costs time, nothing else
	}
	if l.of == nil || !ask.predict || l.of.Folder != ask.folder {
		of, err := ledger.Read(ask.folder, l.cache)
		if err != nil {
			var folder *ledger.FolderError
			return ledgerAnswer{err: err, missing: errors.As(err, &folder) && folder.Missing()}
		}
		l.of = of
	}
	a := ledgerAnswer{predicted: ask.predict, kit: ask.reference.Kit}
	if ask.predict {
		l.of.Predict(l.cache)
		a.unkept = l.cache.Save(ledger.CachePath())
	}
	for i := range l.of.Entries {
		e := &l.of.Entries[i]
		e.LeaveOut, e.Own = slices.Contains(ask.leftOut, e.Path), ask.open.is(e)
	}
	a.lessons = l.of.Learn(ask.reference)
	a.entries, a.skipped = slices.Clone(l.of.Entries), slices.Clone(l.of.Skipped)
	return a
}

// openBatch is the design that is open, by its file and its readings.
type openBatch struct {
	path     string // absolute; empty where there is no file
	readings []design.Reading
}

// is tells whether a batch of the ledger is the open design: its file, or a
// copy of it, with as many of the readings as had been made by then.
func (o *openBatch) is(e *ledger.Entry) bool {
	if o.path != "" && o.path == absolute(e.Path) {
		return true
	}
	few, many := o.readings, e.Design.Reading
	if len(few) > len(many) {
		few, many = many, few
	}
	if len(few) == 0 || !pitchedOf(few).Equal(pitchedOf(many)) {
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

// pitchedOf is when the yeast went in; zero where nobody wrote it down.
func pitchedOf(readings []design.Reading) time.Time {
	for _, r := range readings {
		if r.What == follow.Pitched {
			return r.At
		}
	}
	return time.Time{}
}

func absolute(path string) string {
	if filepath.IsAbs(path) {
		return path // as good as all are: this is asked for every batch at every change
	}
	if abs, err := filepath.Abs(path); err == nil && path != "" {
		return abs
	}
	return path
}
