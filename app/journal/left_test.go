package journal

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// leave is what a program that died leaves.
func leave(t *testing.T, s *Store, e Entry) {
	t.Helper()
	w := quick(s).Write(nil)
	w.Put(e)
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(true); err != nil {
		t.Fatal(err)
	}
}

func offered(t *testing.T, s *Store) []*Left {
	t.Helper()
	all, err := s.Left()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func names(t *testing.T, folder string) (all []string) {
	t.Helper()
	err := filepath.WalkDir(folder, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			all = append(all, filepath.Base(path))
		}
		return err
	})
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	return all
}

func TestNothingIsLeftOfACleanExit(t *testing.T) {
	t.Parallel()
	s := Open(t.TempDir())
	w := s.Write(nil)
	w.Put(plain("base", "work"))
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if got := names(t, s.folder); len(got) != 2 {
		t.Errorf("%v there, want a journal and its lock", got)
	}
	if err := w.Close(false); err != nil {
		t.Fatal(err)
	}
	if got := names(t, s.folder); got != nil {
		t.Errorf("a clean exit left %v", got)
	}
}

// What the dead left is offered to one program at a time, as often as need be,
// and goes only when told to.
func TestLeftIsOfferedUntilDiscarded(t *testing.T) {
	t.Parallel()
	s := Open(t.TempDir())
	leave(t, s, plain("base", "work"))
	for range 3 {
		all := offered(t, s)
		if len(all) != 1 || string(all[0].Text) != "work" || all[0].Step != "step work" || all[0].Base.Path != "/nowhere/brew.toml" {
			t.Fatalf("offered %+v", all)
		}
		if again := offered(t, s); len(again) > 0 {
			t.Errorf("offered to two at a time")
		}
		all[0].Release()
	}
	if err := offered(t, s)[0].Discard(); err != nil {
		t.Fatal(err)
	}
	if got := names(t, s.folder); got != nil || len(offered(t, s)) > 0 {
		t.Errorf("discarded, yet %v is there", got)
	}
}

// The latest comes first by the count of journals, whatever the clock did.
func TestAClockThatJumpsBackOrdersNothing(t *testing.T) {
	t.Parallel()
	s := Open(t.TempDir())
	clock := time.Date(2026, 6, 20, 15, 40, 0, 0, time.UTC)
	s.now = func() time.Time { return clock }
	w := quick(s).Write(nil)
	for i := 1; i <= 3; i++ {
		w.Put(plain("base", fmt.Sprint("first ", i)))
		if err := w.Flush(); err != nil {
			t.Fatal(err)
		}
		clock = clock.AddDate(-3, 0, 0)
	}
	if err := w.Close(true); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"second", "third"} {
		clock = clock.AddDate(-300, 0, 0)
		leave(t, s, plain("base", name))
	}
	clock = time.Date(20260, 1, 1, 0, 0, 0, 0, time.UTC) // a year of five digits has no JSON
	leave(t, s, plain("base", "fourth"))
	var got []string
	for _, l := range offered(t, s) {
		got = append(got, string(l.Text))
		l.Release()
	}
	if want := "[fourth third second first 3]"; fmt.Sprint(got) != want {
		t.Errorf("offered in the order %v, want %s", got, want)
	}
}

// A program that dies between saving and clearing left nothing unsaved.
func TestWorkThatIsInItsFileIsNotOffered(t *testing.T) {
	t.Parallel()
	s := Open(t.TempDir())
	file := filepath.Join(t.TempDir(), "brew.toml")
	e := plain("base", "work")
	e.Base.Path = file
	leave(t, s, e)
	if err := os.WriteFile(file, []byte("work, but not quite"), 0o600); err != nil {
		t.Fatal(err)
	}
	all := offered(t, s)
	if len(all) != 1 {
		t.Fatalf("offered %v", all)
	}
	all[0].Release()
	if err := os.WriteFile(file, []byte("work"), 0o600); err != nil {
		t.Fatal(err)
	}
	if all := offered(t, s); len(all) > 0 || names(t, s.folder) != nil {
		t.Errorf("offered %v, there are %v", all, names(t, s.folder))
	}
}

// A journal that can't be read is never removed, and does not hide the others.
func TestADamagedJournalStays(t *testing.T) {
	t.Parallel()
	s := Open(t.TempDir())
	leave(t, s, plain("base", "good"))
	bad := filepath.Join(s.journals(), "BAD"+endJournal)
	if err := os.WriteFile(bad, []byte("skep-journal 1 rubbish\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	all, err := s.Left()
	if len(all) != 1 || string(all[0].Text) != "good" {
		t.Errorf("offered %v", all)
	}
	if err == nil || !strings.Contains(err.Error(), bad) {
		t.Errorf("the error %v does not name the file", err)
	}
	if _, err := os.Stat(bad); err != nil {
		t.Error(err)
	}
}

// Killed while a journal was made anew, whole or half.
func TestAJournalHalfMade(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name string
		cut  int // bytes missing from the new journal
		old  bool
		want string
	}{
		{"whole beside the old", 0, true, "[newer]"},
		{"half beside the old", 9, true, "[older]"},
		{"whole and alone", 0, false, "[newer]"},
		{"half and alone", 9, false, "[]"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := Open(t.TempDir())
			var files [2][]byte
			w := quick(s).Write(nil)
			for i, text := range []string{"older", "newer"} {
				w.Put(plain("base "+text, text))
				if err := w.Flush(); err != nil {
					t.Fatal(err)
				}
				var err error
				if files[i], err = os.ReadFile(w.log.path(endJournal)); err != nil {
					t.Fatal(err)
				}
			}
			if err := w.Close(true); err != nil {
				t.Fatal(err)
			}
			put := func(ending string, data []byte) {
				if err := os.WriteFile(w.log.path(ending), data, 0o600); err != nil {
					t.Fatal(err)
				}
			}
			if err := os.Remove(w.log.path(endJournal)); err != nil {
				t.Fatal(err)
			}
			put(endNew, files[1][:len(files[1])-test.cut])
			put(endLock, nil)
			if test.old {
				put(endJournal, files[0])
			}
			got := []string{}
			for _, l := range offered(t, s) {
				got = append(got, string(l.Text))
				if err := l.Discard(); err != nil {
					t.Error(err)
				}
			}
			if fmt.Sprint(got) != test.want {
				t.Errorf("offered %v, want %s", got, test.want)
			}
			if left := names(t, s.folder); left != nil {
				t.Errorf("%v is left", left)
			}
		})
	}
}

// The journal stays small however long a lever moves, and readable throughout.
func TestAJournalDoesNotGrowForEver(t *testing.T) {
	t.Parallel()
	s := quick(Open(t.TempDir()))
	w := s.Write(nil)
	text := strings.Repeat("x", 100<<10)
	most := int64(0)
	for i := range 40 {
		w.Put(plain("base", fmt.Sprint("work ", i, " ", text)))
		if err := w.Flush(); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(w.log.path(endJournal))
		if err != nil {
			t.Fatal(err)
		}
		most = max(most, info.Size())
		if got := peek(t, s.folder); len(got) != 1 || !strings.HasPrefix(got[0], fmt.Sprint("work ", i, " ")) {
			t.Fatalf("work %d is not the one that is read", i)
		}
	}
	if most > mostBytes+1000 || most < mostBytes/2 {
		t.Errorf("the journal grew to %d bytes, %d are the most", most, mostBytes)
	}
	if err := w.Close(false); err != nil {
		t.Error(err)
	}
}

// With the real pauses: a lone change is on the disk at once, and of a burst
// that does not stop none waits a second.
func TestAChangeIsOnTheDiskWithinASecond(t *testing.T) {
	t.Parallel()
	s := Open(t.TempDir())
	w := s.Write(func(err error) { t.Error(err) })
	start := time.Now()
	var worst time.Duration
	for time.Since(start) < 1500*time.Millisecond {
		w.Put(plain("base", fmt.Sprint("work ", time.Since(start).Milliseconds())))
		time.Sleep(4 * time.Millisecond)
		texts, n := peek(t, s.folder), 0
		if len(texts) > 0 {
			if _, err := fmt.Sscanf(texts[0], "work %d", &n); err != nil {
				t.Fatal(err)
			}
		}
		worst = max(worst, time.Since(start)-time.Duration(n)*time.Millisecond)
	}
	if worst > time.Second {
		t.Errorf("the disk lagged %v behind", worst)
	}
	t.Logf("the disk lagged at most %v behind", worst)
	if err := w.Close(false); err != nil {
		t.Error(err)
	}
}
