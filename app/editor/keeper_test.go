package editor

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/app/recovery"
	"skep/app/savefile"
	"skep/calc/design"
)

type tester interface {
	Helper()
	Fatal(...any)
	Errorf(string, ...any)
}

// kept is a demonstration and its keeper, that takes any trouble for a failure.
func kept(t tester, store *recovery.Store) (*Editor, *Keeper) {
	e := demo(t)
	return e, NewKeeper(e, store, func(err error) { t.Errorf("trouble: %v", err) })
}

func must(t tester, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// dies is a program's end without a word.
func dies(t tester, k *Keeper) {
	t.Helper()
	must(t, k.Close(false))
}

func one(t tester, k *Keeper) *recovery.Left {
	t.Helper()
	all, err := k.Left()
	must(t, err)
	if len(all) != 1 {
		t.Fatal("offered:", len(all))
	}
	return all[0]
}

// A file with what only a person could have written: comments, odd spacing, an
// unknown key.
func personal(t *testing.T) string {
	t.Helper()
	e := demo(t)
	path := filepath.Join(t.TempDir(), "brew.toml")
	src := append([]byte("# ours  \r\nunheard_of = 'x'   # kept\n"), e.doc.Source()...)
	must(t, os.WriteFile(path, src, 0o600))
	return path
}

// Whatever was done, what is taken back is the design, its file and its marks
// as they were, and saving then writes what it would have written.
func TestTakenBackIsExactlyAsItWas(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		state, err := os.MkdirTemp("", "skep-state-")
		must(t, err)
		defer os.RemoveAll(state)
		store := recovery.Open(state)
		e, k := kept(t, store)
		path := filepath.Join(state, "brew.toml")
		for range rapid.IntRange(1, 12).Draw(t, "steps") {
			switch rapid.IntRange(0, 7).Draw(t, "do") {
			case 0:
				e.Undo()
			case 1:
				e.Redo()
			case 2:
				must(t, k.SaveOver(path))
			case 3:
				title := rapid.StringMatching(`[a-z "\\é]{0,9}`).Draw(t, "title")
				must(t, e.Change("the title", "", func(d *design.Design) { d.Title = title }))
			case 4:
				must(t, e.Change("one rest more", "", func(d *design.Design) { d.Mash.Rest = append(d.Mash.Rest, design.NewRest()) }))
			case 5:
				must(t, e.Change("no honey", "", func(d *design.Design) { d.Honey = nil }))
			default:
				v := rapid.Float64Range(58, 72).Draw(t, "rest")
				must(t, e.Change("the mash rest", "drag", func(d *design.Design) { d.Mash.Rest[0].TemperatureC = v }))
			}
		}
		was, wrote := *e, []byte(nil)
		if e.Touched() {
			wrote, err = e.text()
			must(t, err)
		}
		dies(t, k)

		e, k = kept(t, store)
		all, err := k.Left()
		must(t, err)
		if len(all) > 0 != was.Touched() {
			t.Fatalf("%d offered, unsaved changes: %v", len(all), was.Touched())
		}
		if len(all) > 0 {
			must(t, k.TakeBack(all[0]))
			if !e.now.Equal(was.now) || !e.saved.Equal(was.saved) || e.path != was.path || e.Unsaved() != was.Unsaved() ||
				e.Touched() != was.Touched() || e.onDisk != was.onDisk || !e.print.Same(was.print) || e.Title() != was.Title() {
				t.Fatal("taken back otherwise than it was")
			}
			if text, err := e.text(); err != nil || !bytes.Equal(text, wrote) {
				t.Fatalf("it would save otherwise (%v):\n%s\nbefore:\n%s", err, text, wrote)
			}
			wasName, had := was.UndoName()
			if name, ok := e.UndoName(); name != wasName && had || !ok || !e.Undo() || e.Touched() {
				t.Fatalf("undo (%q, was %q) does not lead to what is saved", name, wasName)
			}
		}
		must(t, k.Close(true))
		if again, err := k.Left(); err != nil || len(again) > 0 {
			t.Fatalf("a clean exit left %d (%v)", len(again), err)
		}
	})
}

func TestTakenBackKeepsWhatAPersonWrote(t *testing.T) {
	t.Parallel()
	store, path := recovery.Open(t.TempDir()), personal(t)
	e, k := kept(t, store)
	_, err := e.Open(path)
	must(t, err)
	must(t, e.Change("the mash rest", "", warm))
	dies(t, k)
	_, k = kept(t, store)
	must(t, k.TakeBack(one(t, k)))
	must(t, k.Save())
	src, err := os.ReadFile(path)
	must(t, err)
	if !bytes.HasPrefix(src, []byte("# ours  \r\nunheard_of = 'x'   # kept\n")) {
		t.Errorf("the file begins %.60q", src)
	}
	must(t, k.Close(true))
}

// Taken back twice without a save between: killed again at once.
func TestTakenBackSurvivesTheNextCrash(t *testing.T) {
	t.Parallel()
	store := recovery.Open(t.TempDir())
	e, k := kept(t, store)
	must(t, e.Change("the mash rest", "", warm))
	want := e.Design()
	for range 3 {
		dies(t, k)
		e, k = kept(t, store)
		must(t, k.TakeBack(one(t, k)))
		if !e.Design().Equal(want) || !e.Touched() {
			t.Fatal("not what it was")
		}
	}
	must(t, k.Close(true))
}

func TestAnotherHandIsNoticedAfterACrashToo(t *testing.T) {
	t.Parallel()
	store, path := recovery.Open(t.TempDir()), personal(t)
	e, k := kept(t, store)
	_, err := e.Open(path)
	must(t, err)
	must(t, e.Change("the mash rest", "", warm))
	dies(t, k)
	must(t, os.WriteFile(path, []byte("# theirs\n"), 0o600))
	_, k = kept(t, store)
	must(t, k.TakeBack(one(t, k)))
	if err := k.Save(); !errors.Is(err, ErrChangedUnderneath) {
		t.Errorf("saved over another's text: %v", err)
	}
	must(t, k.Close(true))
}

// Two windows on one file: the second is told, can't save over it, can save
// beside it, and gets the file once the first lets go.
func TestTwoWindowsOnOneFile(t *testing.T) {
	t.Parallel()
	store, path := recovery.Open(t.TempDir()), personal(t)
	e1, k1 := kept(t, store)
	_, err := e1.Open(path)
	must(t, err)
	if k1.Busy() != nil {
		t.Fatal("the first is told of another")
	}
	e2, k2 := kept(t, store)
	_, err = e2.Open(path)
	must(t, err)
	if k2.Busy() == nil || k2.Busy().PID != os.Getpid() {
		t.Fatalf("the second is told %v", k2.Busy())
	}
	must(t, e2.Change("the mash rest", "", warm))
	var busy *recovery.Busy
	if err := k2.Save(); !errors.As(err, &busy) {
		t.Errorf("the second saved: %v", err)
	}
	if err := k2.SaveOver(path); !errors.As(err, &busy) {
		t.Errorf("the second saved over it: %v", err)
	}
	beside := filepath.Join(filepath.Dir(path), "beside.toml")
	must(t, k2.SaveOver(beside))
	if k2.Busy() != nil || e2.Path() != beside {
		t.Errorf("saved beside, yet %v, %s", k2.Busy(), e2.Path())
	}
	if err := k1.SaveOver(beside); !errors.As(err, &busy) || e1.Path() != path {
		t.Errorf("the first saved over the second's new file: %v", err)
	}
	must(t, e1.Change("the mash rest", "", warm))
	must(t, k1.Save()) // its own lock is still good after the refusal

	_, err = e2.Open(path)
	must(t, err)
	if k2.Busy() == nil {
		t.Fatal("not told again")
	}
	must(t, k1.Close(true))
	must(t, e2.Change("the mash rest", "", warm))
	must(t, k2.Save()) // nobody has it any more
	if k2.Busy() != nil {
		t.Error("still told of the one who left")
	}
	must(t, k2.Close(true))
}

func TestAFailedSaveKeepsTheLockOfTheOldFile(t *testing.T) {
	t.Parallel()
	store, path := recovery.Open(t.TempDir()), personal(t)
	e, k := kept(t, store)
	_, err := e.Open(path)
	must(t, err)
	if err := k.SaveOver(filepath.Join(filepath.Dir(path), "no", "such", "a.toml")); err == nil {
		t.Fatal("saved into no folder")
	}
	var busy *recovery.Busy
	if _, err := store.Lock(path); !errors.As(err, &busy) {
		t.Errorf("the lock is gone: %v", err)
	}
	must(t, k.Close(true))
}

func TestThePreviousVersionIsKept(t *testing.T) {
	t.Parallel()
	store, path := recovery.Open(t.TempDir()), personal(t)
	was, err := os.ReadFile(path)
	must(t, err)
	e, k := kept(t, store)
	_, err = e.Open(path)
	must(t, err)
	if _, ok := k.Previous(path); ok {
		t.Error("a previous version of a file that was never saved")
	}
	must(t, e.Change("the mash rest", "", warm))
	must(t, k.Save())
	must(t, k.Save()) // nothing new: the version before must not become the same
	prev, ok := k.Previous(path)
	if got, err := os.ReadFile(prev); !ok || err != nil || !bytes.Equal(got, was) {
		t.Errorf("%v, %v: what was kept is not what was there", ok, err)
	}
	must(t, k.Close(true))
}

// The disk did not confirm the save, but the new text stands: saving again must
// not take it for another's, and until then the work is unsaved and kept.
func TestAnUnconfirmedSaveIsOurs(t *testing.T) {
	t.Parallel()
	store, path := recovery.Open(t.TempDir()), personal(t)
	e, k := kept(t, store)
	_, err := e.Open(path)
	must(t, err)
	must(t, e.Change("the mash rest", "", warm))
	w, err := e.writing(path, false)
	must(t, err)
	must(t, os.WriteFile(path, w.doc.Source(), 0o600))
	w.print, err = savefile.FingerprintOf(path)
	must(t, err)
	w.ours, w.err = true, &savefile.Error{Doing: savefile.Saving, Path: path, Err: errors.New("no answer"), Replaced: true}
	err = e.wrote(w)
	if err == nil || !e.Unsaved() {
		t.Errorf("counts as saved: %v", err)
	}
	must(t, k.Save())
	must(t, k.Close(true))
}

// Killed when a save was done but nobody had taken that up, with a change after it: the
// file is ours, and saving what is taken back asks nobody about another program. A hand
// that did come in between is noticed still.
func TestASaveThatWasDoneWhenTheProgramDiedIsOurs(t *testing.T) {
	t.Parallel()
	for _, other := range []bool{false, true} {
		store, path := recovery.Open(t.TempDir()), personal(t)
		e, k := kept(t, store)
		_, err := e.Open(path)
		must(t, err)
		must(t, e.Change("the mash rest", "", warm))
		job, err := k.Saving(new(bool))
		must(t, err)
		job() // and what it returns never runs
		must(t, e.Change("the title", "", func(d *design.Design) { d.Title = "After the save" }))
		if other {
			src, err := os.ReadFile(path)
			must(t, err)
			must(t, os.WriteFile(path, append([]byte("# theirs\n"), src...), 0o600))
		}
		dies(t, k)

		e, k = kept(t, store)
		must(t, k.TakeBack(one(t, k)))
		if e.Title() != "After the save" || !e.Unsaved() || e.Path() != path {
			t.Errorf("taken back: %q, unsaved %v, %s", e.Title(), e.Unsaved(), e.Path())
		}
		switch err := k.Save(); {
		case !other && err != nil:
			t.Errorf("the own save counts as another's: %v", err)
		case other && !errors.Is(err, ErrChangedUnderneath):
			t.Errorf("another's text was written over: %v", err)
		}
		must(t, k.Close(true))
	}
}

// Work of a version that read the base otherwise stands alone and unsaved.
func TestWorkWhoseBaseIsUnreadable(t *testing.T) {
	t.Parallel()
	e := demo(t)
	must(t, e.Change("the mash rest", "", warm))
	text, err := e.text()
	must(t, err)
	want := e.Design()
	store := recovery.Open(t.TempDir())
	e, k := kept(t, store)
	w := recovery.Work{Base: recovery.Base{Path: "/no/brew.toml", Text: "format = 9", OnDisk: true}, Step: "x", Text: text}
	for range 2 {
		must(t, e.Restore(w))
		if !e.Design().Equal(want) || !e.Touched() || e.Path() != "" {
			t.Fatal("not the work, or not unsaved")
		}
		dies(t, k)
		e, k = kept(t, store)
		l := one(t, k)
		w = l.Work
		must(t, l.Discard())
	}
	must(t, e.Restore(w))
	must(t, k.SaveOver(filepath.Join(t.TempDir(), "a.toml")))
	w.Text = []byte("format = 1")
	before := e.Design()
	if err := e.Restore(w); err == nil || !e.Design().Equal(before) {
		t.Errorf("half a design was taken back: %v", err)
	}
	must(t, k.Close(true))
}

// Without a state folder the program goes on, and says once that it can't
// protect the work and can't lock.
func TestNoStateFolder(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "skep")
	must(t, os.WriteFile(folder, nil, 0o600))
	var said []string
	e := demo(t)
	heard := make(chan string, 100)
	k := NewKeeper(e, recovery.Open(folder), func(err error) {
		if err == nil {
			t.Error("told that all is well again")
			return
		}
		heard <- err.Error()
	})
	path := personal(t)
	_, err := e.Open(path)
	must(t, err)
	for range 3 {
		must(t, e.Change("the mash rest", "", warm))
		if k.Flush() == nil {
			t.Error("kept in a folder that can't be")
		}
	}
	must(t, k.Save())
	must(t, k.Close(true))
	close(heard)
	for s := range heard {
		said = append(said, s)
		if !strings.Contains(s, folder) {
			t.Errorf("%q does not name %s", s, folder)
		}
	}
	if len(said) != 3 {
		t.Errorf("said %q, want one of the lock, one of the unsaved work, one of the previous version", said)
	}
}

// What the window's goroutine pays for a change to be kept.
func BenchmarkChangeKept(b *testing.B) {
	e := demo(b)
	k := NewKeeper(e, recovery.Open(b.TempDir()), nil)
	i := 0
	for b.Loop() {
		i++
		if err := e.Change("the mash rest", "drag", func(d *design.Design) { d.Mash.Rest[0].TemperatureC = 62 + float64(i%80)/10 }); err != nil {
			b.Fatal(err)
		}
	}
	if err := k.Close(true); err != nil {
		b.Fatal(err)
	}
}

func BenchmarkChangeAlone(b *testing.B) {
	e := demo(b)
	i := 0
	for b.Loop() {
		i++
		if err := e.Change("the mash rest", "drag", func(d *design.Design) { d.Mash.Rest[0].TemperatureC = 62 + float64(i%80)/10 }); err != nil {
			b.Fatal(err)
		}
	}
}
