package recovery

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"skep/app/savefile"
)

// quick is a store that does not wait between two writings.
func quick(s *Store) *Store {
	s.gap, s.retry = 0, time.Millisecond
	return s
}

func plain(base, text string) Entry {
	return Entry{
		Base: Base{Path: "/nowhere/brew.toml", Text: base}, Step: "step " + text,
		Text: func() ([]byte, error) { return []byte(text), nil },
	}
}

// peek is the text of the only work in a store, whoever has it; empty for none.
func peek(t *testing.T, s *Store) string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(s.unsaved(), "*"+endWork))
	if err != nil || len(found) == 0 {
		return ""
	}
	data, err := savefile.Read(found[0])
	if err != nil {
		t.Fatal(err)
	}
	w, err := decode(data)
	if err != nil {
		t.Fatal(err)
	}
	return string(w.Text)
}

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
		t.Errorf("%v there, want the work and its lock", got)
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

// A recovery file that can't be read is never removed, and does not hide the others.
func TestADamagedFileStays(t *testing.T) {
	t.Parallel()
	s := Open(t.TempDir())
	leave(t, s, plain("base", "good"))
	folder := s.unsaved()
	bad := map[string]string{"DAMAGED": "{ \"version\": 1, \"des", "NEWER": `{"version": 2}`, "HASH": `{"version": 1, "on_disk": true, "hash": "00"}`}
	for id, text := range bad {
		if err := os.WriteFile(filepath.Join(folder, id+endWork), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	all, err := s.Left()
	if len(all) != 1 || string(all[0].Text) != "good" {
		t.Errorf("offered %v", all)
	}
	for id, text := range bad {
		path := filepath.Join(folder, id+endWork)
		if err == nil || !strings.Contains(err.Error(), path) {
			t.Errorf("the error %v does not name %s", err, path)
		}
		if got, err := os.ReadFile(path); err != nil || string(got) != text {
			t.Errorf("%q is left (%v)", got, err)
		}
	}
	for _, l := range all {
		l.Release() // Windows removes no file that is open
	}
}

// The latest change comes first; a clock that jumped loses nothing.
func TestTheLatestIsOfferedFirst(t *testing.T) {
	t.Parallel()
	s := Open(t.TempDir())
	day := func(year int) time.Time { return time.Date(year, 6, 20, 15, 40, 0, 0, time.UTC) }
	for _, when := range []time.Time{day(2026), day(20260), day(1926), day(2027)} { // a year of five digits has no JSON
		f := &file{folder: s.unsaved(), id: fmt.Sprint(when.Year())}
		if err := f.put(Work{When: when, Text: []byte(fmt.Sprint(when.Year()))}); err != nil {
			t.Fatal(err)
		}
		f.end()
	}
	var got []string
	for _, l := range offered(t, s) {
		got = append(got, string(l.Text))
		l.Release()
	}
	if want := "[20260 2027 2026 1926]"; fmt.Sprint(got) != want {
		t.Errorf("offered in the order %v, want %s", got, want)
	}
}

// Whatever work there is comes back as it was.
func TestWorkComesBackAsItWas(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		w := Work{
			Base: Base{
				Path:   string(rapid.SliceOfN(rapid.ByteRange(1, 255), 0, 20).Draw(t, "path")),
				OnDisk: rapid.Bool().Draw(t, "on disk"), Fresh: rapid.Bool().Draw(t, "fresh"),
				Text: rapid.String().Draw(t, "base"),
			},
			Step: rapid.String().Draw(t, "step"), Text: []byte(rapid.String().Draw(t, "text")),
			When: time.UnixMilli(rapid.Int64Range(-1e15, 1e15).Draw(t, "when")),
		}
		if w.Base.OnDisk {
			w.Base.Print.Size = rapid.Int64Range(0, 1<<20).Draw(t, "size")
			copy(w.Base.Print.Hash[:], rapid.SliceOfN(rapid.Byte(), 32, 32).Draw(t, "hash"))
		}
		data, err := w.encode()
		if err != nil {
			t.Fatal(err)
		}
		if got, err := decode(data); err != nil || !reflect.DeepEqual(got, w) {
			t.Fatalf("%+v comes back as %+v (%v)", w, got, err)
		}
	})
}

// The state folder is taken away while the window works: the work goes on being
// kept, and others see that somebody has it.
func TestAFolderThatVanished(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" {
		t.Skip("Windows takes no folder away in which a file is open")
	}
	s := Open(t.TempDir())
	w := quick(s).Write(func(err error) { t.Error(err) })
	for _, text := range []string{"one", "two"} {
		w.Put(plain("base", text))
		if err := w.Flush(); err != nil {
			t.Fatal(err)
		}
		if got := peek(t, s); got != text {
			t.Errorf("%q is kept, want %q", got, text)
		}
		if all := offered(t, s); len(all) > 0 {
			t.Error("the work of a window that lives is offered")
		}
		if err := os.RemoveAll(s.folder); err != nil {
			t.Fatal(err)
		}
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
		n := 0
		if text := peek(t, s); text != "" {
			if _, err := fmt.Sscanf(text, "work %d", &n); err != nil {
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
