package recovery

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"skep/app/savefile/linktest"
)

func TestOneFileOneWindow(t *testing.T) {
	t.Parallel()
	s, dir := Open(t.TempDir()), t.TempDir()
	file := filepath.Join(dir, "brew.toml")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(dir, "link.toml")
	all := []string{file, filepath.Join(dir, ".", "x", "..", "brew.toml")}
	if why := linktest.None(); why == "" {
		linktest.Symlink(t, "brew.toml", link)
		linktest.Symlink(t, dir, filepath.Join(dir, "round"))
		all = append(all, link, filepath.Join(dir, "round", "link.toml"))
	} else {
		t.Log(why)
		link = file
	}
	first, err := s.Lock(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range all {
		_, err := s.Lock(name)
		var busy *Busy
		if !errors.As(err, &busy) || busy.PID != os.Getpid() || busy.Since.IsZero() {
			t.Errorf("%s: %v, want a *Busy that names this process", name, err)
		}
		if !first.Holds(name) {
			t.Errorf("the lock does not know %s", name)
		}
	}
	other, err := s.Lock(filepath.Join(dir, "other.toml")) // not there yet
	if err != nil {
		t.Fatal(err)
	}
	other.Release()
	first.Release()
	again, err := s.Lock(link)
	if err != nil {
		t.Errorf("released, yet: %v", err)
	}
	again.Release()
	if got := names(t, s.locks()); got != nil {
		t.Errorf("%v is left", got)
	}
}

// The lock file of a process that died is there, but nobody holds it.
func TestALockOfTheDeadIsFree(t *testing.T) {
	t.Parallel()
	s, file := Open(t.TempDir()), filepath.Join(t.TempDir(), "brew.toml")
	l, err := s.Lock(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := l.held.Unlock(); err != nil { // as the system does for the dead
		t.Fatal(err)
	}
	if got := names(t, s.locks()); len(got) != 2 {
		t.Fatalf("%v there, want a lock and its owner", got)
	}
	again, err := s.Lock(file)
	if err != nil {
		t.Fatal(err)
	}
	again.Release()
}

func TestALockWhoseFolderVanishedIsNoMore(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" {
		t.Skip("Windows takes no folder away in which a file is open")
	}
	s, file := Open(t.TempDir()), filepath.Join(t.TempDir(), "brew.toml")
	l, err := s.Lock(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(s.locks()); err != nil {
		t.Fatal(err)
	}
	if l.Valid() {
		t.Error("the lock counts although nobody can see it")
	}
	next, err := s.Lock(file)
	if err != nil {
		t.Fatal(err)
	}
	l.Release() // must not take the other's file away
	if !next.Valid() {
		t.Error("releasing the old lock removed the new one")
	}
	next.Release()
}

// Many at once: one at a time holds the lock, though its file comes and goes.
func TestLocksUnderContention(t *testing.T) {
	t.Parallel()
	s, file := Open(t.TempDir()), filepath.Join(t.TempDir(), "brew.toml")
	inside := make(chan struct{}, 1)
	done := make(chan int)
	for range 8 {
		go func() {
			got := 0
			for range 300 {
				l, err := s.Lock(file)
				var busy *Busy
				if errors.As(err, &busy) {
					continue
				}
				if err != nil {
					t.Error(err)
					continue
				}
				select {
				case inside <- struct{}{}:
				default:
					t.Error("two hold the lock")
				}
				got++
				<-inside
				l.Release()
			}
			done <- got
		}()
	}
	total := 0
	for range 8 {
		total += <-done
	}
	if total < 8 {
		t.Errorf("the lock was had only %d times", total)
	}
}

func TestPreviousVersion(t *testing.T) {
	t.Parallel()
	s, dir := Open(t.TempDir()), t.TempDir()
	file := filepath.Join(dir, "brew.toml")
	if got, ok := s.Previous(file); ok {
		t.Errorf("%s kept of a file never saved", got)
	}
	for _, old := range []string{"one", "two"} {
		if err := s.KeepPrevious(file, []byte(old)); err != nil {
			t.Fatal(err)
		}
		path, ok := s.Previous(file)
		if got, err := os.ReadFile(path); !ok || err != nil || string(got) != old {
			t.Errorf("kept %q (%v, %v), want %q", got, ok, err, old)
		}
	}
	if err := s.KeepPrevious(filepath.Join(dir, "x", "brew.toml"), []byte("other")); err != nil {
		t.Fatal(err)
	}
	if got := names(t, s.previous()); len(got) != 2 {
		t.Errorf("%v kept, want one of each file", got)
	}
}

func TestSweepTakesOnlyDeadTemporaries(t *testing.T) {
	t.Parallel()
	s, dir := Open(t.TempDir()), t.TempDir()
	old := time.Now().Add(-2 * staleAge)
	for name, age := range map[string]time.Time{
		".skep-ABCDEFGHIJKLMNOPQRSTUVWXYZ.tmp": old,
		".skep-ZBCDEFGHIJKLMNOPQRSTUVWXYZ.tmp": time.Now().Add(2 * staleAge), // the clock went back
		".skep-YBCDEFGHIJKLMNOPQRSTUVWXYZ.tmp": time.Now(),                   // being filled
		".skep-mine.tmp":                       old,
		"brew.toml":                            old,
	} {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(path, age, age); err != nil {
			t.Fatal(err)
		}
	}
	s.SweepTemporaries(filepath.Join(dir, "brew.toml"))
	if got := names(t, dir); len(got) != 3 {
		t.Errorf("%v is left, want the fresh one, the person's and the design", got)
	}
}

func TestFolderFollowsTheVariable(t *testing.T) {
	dir := t.TempDir()
	t.Setenv(stateVariable, dir)
	if got, want := Folder(), filepath.Join(dir, "skep"); got != want {
		t.Errorf("the folder is %s, want %s", got, want)
	}
	t.Setenv(stateVariable, "relative/is/no/folder") // as the base directory specification has it
	if got := Folder(); !filepath.IsAbs(got) || filepath.Base(got) != "skep" {
		t.Errorf("the folder is %s", got)
	}
}
