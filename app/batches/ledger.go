package batches

import (
	"cmp"
	"crypto/sha256"
	"fmt"
	"maps"
	"path/filepath"
	"runtime"
	"slices"
	"sync"

	"skep/app/savefile"
	"skep/assets"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/learn"
	"skep/calc/message"
)

// Ledger is a folder as it was read.
type Ledger struct {
	Folder  string
	Entries []Entry // the latest first
	Skipped []Skipped
}

// Open is [Read] and [Ledger.Predict].
func Open(folder string, cache *Cache) (*Ledger, error) {
	l, err := Read(folder, cache)
	if err == nil {
		l.Predict(cache)
	}
	return l, err
}

// Read reads a folder: the list with everything measured, enough to learn
// from. The error is of the folder itself (see [FolderError]); a file that is
// no batch is in Skipped. It takes as many processors as there are and does not
// return before all is done: call it beside the window.
func Read(folder string, cache *Cache) (*Ledger, error) {
	names, skipped, err := files(folder)
	if err != nil {
		return nil, err
	}
	l := &Ledger{Folder: folder, Skipped: skipped}
	l.take(names, func(name string) (Entry, error) { return readEntry(folder, name, cache) })
	return l, nil
}

// Demonstration are the club's batches, which lie in the program and in no folder:
// to look at, and nothing to learn from.
func Demonstration(cache *Cache) (*Ledger, error) {
	all, err := assets.DemoBatches()
	if err != nil {
		return nil, err
	}
	l := &Ledger{}
	l.take(slices.Sorted(maps.Keys(all)), func(name string) (Entry, error) { return entryOf(name, "", all[name], cache) })
	l.Predict(cache)
	return l, nil
}

// take reads files, each once, and puts them in their order.
func (l *Ledger) take(names []string, of func(name string) (Entry, error)) {
	read := make([]Entry, len(names))
	why := make([]error, len(names))
	share(len(names), func(i int) { read[i], why[i] = of(names[i]) })

	first := map[[32]byte]string{}
	for i, name := range names {
		e := &read[i]
		if other, ok := first[e.key]; why[i] == nil && ok {
			// A copy would be heard twice.
			why[i] = message.NewError("the same, letter by letter, as {file}", other)
		}
		if why[i] != nil {
			l.Skipped = append(l.Skipped, Skipped{name, why[i]})
			continue
		}
		first[e.key] = name
		l.Entries = append(l.Entries, *e)
	}
	slices.SortFunc(l.Skipped, func(a, b Skipped) int { return cmp.Compare(a.File, b.File) })
	slices.SortFunc(l.Entries, func(a, b Entry) int { return cmp.Or(b.At.Compare(a.At), cmp.Compare(a.File, b.File)) })
}

// share gives the numbers below n to as many workers as there are processors.
func share(n int, do func(i int)) {
	workers := min(runtime.NumCPU(), max(n, 1))
	var wait sync.WaitGroup
	for w := range workers {
		wait.Go(func() {
			for i := w; i < n; i += workers {
				do(i)
			}
		})
	}
	wait.Wait()
}

// readEntry reads one file and what its readings say; why is nil if it is a
// batch.
func readEntry(folder, name string, cache *Cache) (e Entry, why error) {
	path := filepath.Join(folder, name)
	src, err := savefile.Read(path)
	if err != nil {
		return e, err
	}
	return entryOf(name, path, src, cache)
}

// entryOf is a batch by its text.
func entryOf(name, path string, src []byte, cache *Cache) (e Entry, why error) {
	key := sha256.Sum256(src)
	if e, ok := cache.get(key); ok {
		e.File, e.Path = name, path
		if e.Design.Title == "" {
			e.Title = name
		}
		return e, nil
	}
	doc, findings := file.Parse(name, src)
	if err := design.FirstError(findings); err != nil {
		return e, err
	}
	switch {
	case doc == nil:
		return e, message.NewError("it does not read as a design")
	case doc.ReadOnly != nil:
		return e, doc.ReadOnly
	case len(doc.Design.Reading) == 0 && doc.Design.Batch.Brewed == "":
		return e, message.NewError("no reading is in it: a plan, not a batch")
	}
	d := doc.Design
	m, err := learn.Measure(d)
	if err != nil {
		return e, err
	}
	e = Entry{File: name, Path: path, Title: d.Title, At: brewedAt(d), Yeast: m.Strain, Finished: m.FinalGravitySG.Known, Closed: d.Batch.Closed != "", Design: d, Measured: m, Unpredicted: notYet,
		mash: fmt.Sprint(d.Mash, d.Grain, d.Kit.HeaterW, d.Kit.VesselHeatKJPerK, d.Kit.RestErrorC), key: key}
	if e.Title == "" {
		e.Title = name
	}
	if p, ok := cache.foretold(key); ok {
		e.Predicted, e.Unpredicted = p, nil
	}
	for _, f := range findings {
		e.Warnings = append(e.Warnings, f.AsMessage())
	}
	return e, nil
}

// notYet is Unpredicted before [Ledger.Predict].
var notYet = message.NewError("not worked out yet")

// Predict works out the predictions that are still wanting, and keeps
// everything in the cache. Each worker has an engine, and batches that mash
// alike follow each other, which is what an engine is quick at.
func (l *Ledger) Predict(cache *Cache) {
	var todo []*Entry
	for i := range l.Entries {
		if e := &l.Entries[i]; e.Unpredicted == notYet {
			todo = append(todo, e)
		}
	}
	slices.SortStableFunc(todo, func(a, b *Entry) int { return cmp.Compare(a.mash, b.mash) })
	workers := runtime.NumCPU()
	share(workers, func(w int) {
		engine := calc.NewEngine()
		for _, e := range todo[w*len(todo)/workers : (w+1)*len(todo)/workers] {
			p, err := engine.Predict(e.Design)
			if err != nil {
				e.Unpredicted = err
				continue
			}
			e.Predicted, e.Unpredicted = predicted(&p), nil
		}
	})
	cache.keep(l.Entries)
}

// Learn hears all finished batches but the design's own; see [learn.Learn] for the reference.
func (l *Ledger) Learn(reference design.Design) learn.Lessons {
	var batches []learn.Batch
	for i := range l.Entries {
		if e := &l.Entries[i]; e.Finished {
			batches = append(batches, learn.Batch{ID: e.File, Title: e.Title, Measured: e.Measured, LeaveOut: e.LeaveOut || e.Own})
		}
	}
	return learn.Learn(batches, reference)
}
