package app

import (
	"errors"
	"slices"

	"skep/app/ledger"
	"skep/calc/design"
	"skep/calc/learn"
)

// ledgerAsk is what the Ledger place wants of its worker.
type ledgerAsk struct {
	folder    string
	leftOut   map[string]bool // by file
	reference design.Design   // the design as its file stands: what the priors are centred on
	predict   bool            // fill the predictions in; false: read the folder anew
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
		e.LeaveOut = ask.leftOut[e.Path]
	}
	a.lessons = l.of.Learn(ask.reference)
	a.entries, a.skipped = slices.Clone(l.of.Entries), slices.Clone(l.of.Skipped)
	return a
}
