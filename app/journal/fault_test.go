package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// plain is an entry of a text.
func plain(base, text string) Entry {
	return Entry{Base: Base{Path: "/nowhere/brew.toml", Text: base}, Step: "step " + text, Text: func() ([]byte, error) { return []byte(text), nil }}
}

// ears keep what a writer tells.
type ears struct {
	mu   sync.Mutex
	said []error
}

func (e *ears) tell(err error) {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.said = append(e.said, err)
}

func (e *ears) heard() []error {
	e.mu.Lock()
	defer e.mu.Unlock()
	return append([]error(nil), e.said...)
}

// leftTexts are the texts that a start would offer, from any disk.
func leftTexts(t *testing.T, folder string) (texts []string) {
	t.Helper()
	all, err := Open(folder).Left()
	if err != nil {
		t.Error(err)
	}
	for _, l := range all {
		texts = append(texts, string(l.Text))
		l.Release()
	}
	return texts
}

func quick(s *Store) *Store {
	s.gap, s.retry = time.Millisecond, 5*time.Millisecond
	return s
}

// Each operation of a session fails in turn, in every way that disks fail. The
// session goes on; once the disk works again, the newest work is on it. At
// every moment what the disk holds is one of the works whole, and none older
// than the last that was reported to be there.
func TestFaultSweep(t *testing.T) {
	t.Parallel()
	ops := []string{"make folder", "lock", "create", "write", "sync", "close", "rename", "sync folder", "extend", "list"}
	for _, kind := range []struct {
		name        string
		err         error
		half, quiet bool
		says        string
	}{
		{"full disk", &fs.PathError{Op: "write", Path: "x", Err: syscall.ENOSPC}, true, false, "the disk is full"},
		{"no permission", &fs.PathError{Op: "open", Path: "x", Err: syscall.EACCES}, false, false, "no permission"},
		{"read-only disk", &os.LinkError{Op: "rename", Old: "x", New: "y", Err: syscall.EROFS}, false, false, "read-only"},
		{"broken disk", &fs.PathError{Op: "sync", Path: "x", Err: syscall.EIO}, true, false, "input/output error"},
		{"interrupted", &fs.PathError{Op: "write", Path: "x", Err: syscall.EINTR}, true, false, "interrupted"},
		{"short write", syscall.EIO, true, true, ""},
	} {
		for _, many := range []int{1, 2, 7} {
			t.Run(fmt.Sprintf("%s, %d in a row", kind.name, many), func(t *testing.T) {
				t.Parallel()
				seen := map[string]bool{}
				for first := 1; ; first++ {
					d := &faultyDisk{first: first, many: many, err: kind.err, half: kind.half, quiet: kind.quiet}
					failed := session(t, d, kind.says)
					if len(failed) == 0 {
						break
					}
					for _, op := range failed {
						seen[op] = true
					}
				}
				for _, op := range ops {
					if !seen[op] {
						t.Errorf("the sweep never failed %s: it proves nothing of it", op)
					}
				}
			})
		}
	}
}

// session writes some works on a failing disk, on two bases, clears and writes
// again, and returns what failed.
func session(t *testing.T, d *faultyDisk, says string) []string {
	folder := t.TempDir()
	var e ears
	w := quick(open(d, folder)).Write(e.tell)
	var safe int // the newest work reported to be on the disk
	for i := 1; i <= 4; i++ {
		w.Put(plain(fmt.Sprint("base ", i/3), fmt.Sprint("work ", i)))
		for w.Flush() != nil { // each try of a failing disk is looked at
			check(t, d, folder, safe, i)
		}
		safe = i
		check(t, d, folder, safe, i)
	}
	if got := fmt.Sprint(peek(t, folder)); got != "[work 4]" {
		t.Errorf("%v failed: the journal holds %s", d.failures(), got)
	}
	w.Clear()
	for w.Flush() != nil {
	}
	if got := peek(t, folder); got != nil {
		t.Errorf("%v failed: cleared, yet %v stands there", d.failures(), got)
	}
	w.Put(plain("base", "work 5"))
	for w.Flush() != nil {
	}
	d.mend() // what follows looks with an eye of its own
	if err := w.Close(true); err != nil {
		t.Error(err)
	}
	if got := fmt.Sprint(leftTexts(t, folder)); got != "[work 5]" {
		t.Errorf("%v failed: the next start is offered %s", d.failures(), got)
	}
	heard := e.heard()
	for i, err := range heard {
		if (err == nil) != (i%2 == 1) {
			t.Errorf("%v failed: heard %v, not one message a row of failures", d.failures(), heard)
		}
		if err != nil && (!strings.Contains(err.Error(), folder) || !strings.Contains(err.Error(), says)) {
			t.Errorf("%v failed: message %q does not name the folder and %q", d.failures(), err, says)
		}
	}
	return d.failures()
}

// check looks at the disk as a start after a crash now would.
func check(t *testing.T, d *faultyDisk, folder string, least, most int) {
	t.Helper()
	texts := peek(t, folder)
	if len(texts) == 0 {
		if least > 0 {
			t.Errorf("%v failed: nothing to take back, work %d was on the disk", d.failures(), least)
		}
		return
	}
	var n int
	if _, err := fmt.Sscanf(texts[0], "work %d", &n); err != nil || len(texts) > 1 || n < least || n > most {
		t.Errorf("%v failed: the journals hold %q, want one work from %d to %d", d.failures(), texts, least, most)
	}
}

// peek reads the journals of the living too, as if they were dead.
func peek(t *testing.T, folder string) (texts []string) {
	t.Helper()
	dir := filepath.Join(folder, "journal")
	names, err := osDisk{}.list(dir)
	if err != nil {
		t.Error(err)
	}
	for _, id := range ids(names) {
		whole, err := osDisk{}.read(filepath.Join(dir, id+endJournal))
		next, _ := osDisk{}.read(filepath.Join(dir, id+endNew))
		w, _, ok := newest(whole, next)
		if err == nil && !ok {
			t.Errorf("the journal %s is torn", id)
		}
		if ok {
			texts = append(texts, string(w.Text))
		}
	}
	return texts
}

// A lone failure, a signal say, is mended on the spot: nobody need hear of it
// unless the journal could not be written whole either.
func TestOneInterruptionIsNotWorthAMessage(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	d := &faultyDisk{err: syscall.EINTR, half: true}
	var e ears
	w := quick(open(d, folder)).Write(e.tell)
	w.Put(plain("base", "work 1"))
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	d.mu.Lock()
	d.first, d.many = d.done+1, 1
	d.mu.Unlock()
	w.Put(plain("base", "work 2"))
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if got := d.failures(); len(got) != 1 || got[0] != "write" {
		t.Fatalf("%v failed, want the one write", got)
	}
	if got := fmt.Sprint(peek(t, folder)); got != "[work 2]" || len(e.heard()) > 0 {
		t.Errorf("the journal holds %s, heard %v", got, e.heard())
	}
	if err := w.Close(false); err != nil {
		t.Error(err)
	}
	if names, _ := os.ReadDir(filepath.Join(folder, "journal")); len(names) > 0 {
		t.Errorf("a clean exit left %v", names)
	}
}

// A folder that vanishes, lock and all, is made again with the next change.
func TestAFolderThatVanishes(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "state", "skep")
	w := quick(Open(folder)).Write(func(err error) { t.Error(err) })
	for i, want := range []string{"work 1", "work 2"} {
		w.Put(plain("base", want))
		if err := w.Flush(); err != nil {
			t.Fatal(err)
		}
		if got := leftTexts(t, folder); got != nil {
			t.Errorf("the living one's %v is offered", got)
		}
		if got := fmt.Sprint(peek(t, folder)); got != "["+want+"]" {
			t.Errorf("the journal holds %s", got)
		}
		if i == 0 {
			if err := os.RemoveAll(filepath.Dir(folder)); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := w.Close(true); err != nil {
		t.Error(err)
	}
}

// A file stands where the folder should be: the program goes on, hears of it
// once, and closes.
func TestAFolderThatCannotBe(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "skep")
	if err := os.WriteFile(folder, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	var e ears
	w := quick(Open(folder)).Write(e.tell)
	for range 3 {
		w.Put(plain("base", "work"))
		if err := w.Flush(); err == nil {
			t.Fatal("written into a file that is no folder")
		}
	}
	var trouble *Trouble
	if heard := e.heard(); len(heard) != 1 || !errors.As(heard[0], &trouble) {
		t.Errorf("heard %v, want one *Trouble", heard)
	}
	if err := w.Close(true); err == nil {
		t.Error("closed as if the work were kept")
	}
}
