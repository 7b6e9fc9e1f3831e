package recovery_test

import (
	"bufio"
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"skep/app/editor"
	"skep/app/recovery"
	"skep/calc/design"
	"skep/calc/design/file"
)

var (
	kills    = flag.Int("kills", 50, "how often TestKill kills the program")
	killSeed = flag.Uint64("killseed", 8, "what TestKill's luck begins with")
)

// promise is the age from which a change must survive.
const promise = time.Second

// event is a step that the program reported.
type event struct {
	n  int
	at time.Time
}

// life is what is known of one working folder over all its deaths.
type life struct {
	dir    string
	luck   *rand.Rand
	first  design.Design
	starts time.Duration // how long the program takes here until it works

	now    int // the version that a start would go on from
	saved  int // the version in the file
	deaths int
	taken  int           // deaths after which work was offered
	halves int           // files that a death left half made, swept at the next start
	worst  time.Duration // the oldest change that was lost
}

// A program that edits and saves is killed at random moments, again and again
// in the same folder, and goes on from what it finds. After each death the file
// is whole and one of those saved, nothing older than a second is lost, and in
// the end nothing lies about. The long form is
//
//	go test -tags ci ./app/recovery -run 'TestKill$' -kills 2000 -timeout 60m -v
func TestKill(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		*kills = min(*kills, 8)
	}
	const hands = 2 // folders worked in at once
	starts := promise * 10
	for range 3 { // the quickest of three: another program may have the processor
		starts = min(starts, newLife(t, hands).start(t))
	}
	for hand := range hands {
		t.Run(fmt.Sprint("hand ", hand), func(t *testing.T) {
			t.Parallel()
			l := newLife(t, hand)
			l.starts = starts
			for range *kills / hands {
				l.die(t)
				if t.Failed() {
					t.Fatalf("seed %d, death %d", *killSeed, l.deaths)
				}
			}
			l.rest(t)
			t.Logf("%d deaths, work offered after %d of them; the oldest change lost was %v old; %d files half made were swept", l.deaths, l.taken, l.worst.Round(time.Millisecond), l.halves)
			t.Logf("the program starts in %v", starts)
			if l.taken == 0 && l.deaths > 10 {
				t.Error("nothing was ever left to take back: this proves nothing")
			}
		})
	}
}

func newLife(t *testing.T, hand int) *life {
	l := &life{dir: t.TempDir(), luck: rand.New(rand.NewPCG(*killSeed, uint64(hand)))}
	doc, _ := file.Parse("", firstFile())
	l.first = doc.Design
	src, err := doc.Write(version(0, l.first))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Dir(fileIn(l.dir)), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(fileIn(l.dir), src, 0o600); err != nil {
		t.Fatal(err)
	}
	return l
}

// start is how long the program takes from its beginning to its first step: 20 ms on
// Linux, and ten times that under wine on a busy machine, where every death would
// else come before any work.
func (l *life) start(t *testing.T) time.Duration {
	cmd := l.program()
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	began := time.Now()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	bufio.NewScanner(out).Scan()
	took := time.Since(began)
	if err := cmd.Process.Kill(); err != nil {
		t.Error(err)
	}
	_ = cmd.Wait() // "signal: killed"
	return took
}

func (l *life) program() *exec.Cmd {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childVariable+"="+l.dir, fmt.Sprint(seedVariable, "=", l.luck.Uint64()))
	return cmd
}

// patience is how long the program lives: often it dies while it starts, mostly
// at work, and now and then after long enough for the promise to bind.
func (l *life) patience() time.Duration {
	upTo := func(d time.Duration) time.Duration { return time.Duration(l.luck.Int64N(int64(d))) }
	switch l.luck.IntN(10) {
	case 0, 1:
		return upTo(l.starts + 40*time.Millisecond)
	case 2, 3:
		return l.starts + 1100*time.Millisecond + upTo(900*time.Millisecond)
	}
	return l.starts + 40*time.Millisecond + upTo(340*time.Millisecond)
}

// die is one start, some work, and death.
func (l *life) die(t *testing.T) {
	cmd := l.program()
	var out, bad bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &bad
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	time.Sleep(l.patience())
	killed := time.Now()
	if err := cmd.Process.Kill(); err != nil {
		t.Error(err)
	}
	_ = cmd.Wait() // "signal: killed"
	l.deaths++
	if bad.Len() > 0 || strings.Contains(out.String(), "broken") {
		t.Errorf("the program says %s%s", out.String(), bad.String())
	}
	l.look(t, &out, killed)
}

// look compares what is on the disk with what the program said it did.
func (l *life) look(t *testing.T, out *bytes.Buffer, killed time.Time) {
	states := []event{{l.now, time.Time{}}}
	files := map[int]bool{l.saved: true}
	for lines := bufio.NewScanner(out); lines.Scan(); {
		var what string
		var n int
		var at int64
		if k, err := fmt.Sscan(lines.Text(), &what, &n, &at); k != 3 || err != nil {
			continue // the last line may be torn
		}
		switch what {
		case "state":
			states = append(states, event{n, time.Unix(0, at)})
		case "saving":
			files[n] = true
		case "saved":
			files = map[int]bool{n: true}
		}
	}
	l.halves += len(l.temporaries(t)) // the next start sweeps them
	l.saved = l.inFile(t)
	if !files[l.saved] {
		t.Errorf("the file holds version %d, want one of %v", l.saved, files)
	}
	now := l.saved
	all, err := store(l.dir).Left()
	if err != nil {
		t.Error(err)
	}
	if len(all) > 0 {
		l.taken++
		now = l.number(t, "the recovery file", all[0].Text)
	}
	for _, left := range all {
		left.Release()
	}
	// The version may have been there more than once, through undo: what counts
	// is its last time.
	at := -1
	for i, s := range states {
		if s.n == now {
			at = i
		}
	}
	if at < 0 {
		t.Errorf("version %d is left, which never was in %v", now, states)
		return
	}
	if at+1 < len(states) { // states[at+1] is the oldest that is lost
		age := killed.Sub(states[at+1].at)
		l.worst = max(l.worst, age)
		if age > promise {
			t.Errorf("version %d is left, version %d was %v old: lost", now, states[at+1].n, age)
		}
	}
	l.now = now
}

func (l *life) inFile(t *testing.T) int {
	src, err := os.ReadFile(fileIn(l.dir))
	if err != nil {
		t.Fatal(err)
	}
	return l.number(t, "the file", src)
}

// number is the version that a text holds, which it must hold in full.
func (l *life) number(t *testing.T, what string, src []byte) int {
	doc, findings := file.Parse(what, src)
	if err := design.FirstError(findings); err != nil {
		t.Fatalf("%s does not read: %v", what, err)
	}
	n, err := numberOf(doc.Design)
	if err != nil || !doc.Design.Equal(version(n, l.first)) || !bytes.Contains(src, []byte(lastLine)) {
		t.Fatalf("%s is not version %d as it was (%v):\n%s", what, n, err, src)
	}
	return n
}

// rest is the last start: all is taken back, saved and closed, and then only
// the file and its previous version are there.
func (l *life) rest(t *testing.T) {
	e, err := editor.New("", firstFile())
	if err != nil {
		t.Fatal(err)
	}
	k := editor.NewKeeper(e, store(l.dir), func(err error) { t.Error(err) })
	if _, err := e.Open(fileIn(l.dir)); err != nil {
		t.Fatal(err)
	}
	all, err := k.Left()
	if err != nil {
		t.Error(err)
	}
	for i, left := range all {
		if i == 0 {
			err = k.TakeBack(left)
		} else {
			err = left.Discard()
		}
		if err != nil {
			t.Error(err)
		}
	}
	if n, err := numberOf(e.Design()); err != nil || n != l.now {
		t.Errorf("taken back: version %d (%v), want %d", n, err, l.now)
	}
	// Another change, so that the save keeps a previous version and sweeps.
	if err := e.Change("one more", "", func(d *design.Design) { *d = version(l.now+1, l.first) }); err != nil {
		t.Error(err)
	}
	if err := k.Save(); err != nil {
		t.Error(err)
	}
	if err := k.Close(true); err != nil {
		t.Error(err)
	}
	if n := l.inFile(t); n != l.now+1 {
		t.Errorf("saved version %d, want %d", n, l.now+1)
	}
	if got := l.temporaries(t); len(got) > 0 {
		t.Errorf("temporary files lie about: %v", got)
	}
	for _, folder := range []string{"unsaved", "locks"} {
		if left := everything(t, filepath.Join(l.dir, "state", folder)); len(left) > 0 {
			t.Errorf("a clean exit leaves %v", left)
		}
	}
	for _, f := range everything(t, l.dir) {
		if f != fileIn(l.dir) && !strings.HasPrefix(f, filepath.Join(l.dir, "state", "previous")) {
			t.Errorf("%s lies about", f)
		}
	}
	if prev, ok := recovery.Open(filepath.Join(l.dir, "state")).Previous(fileIn(l.dir)); !ok {
		t.Error("no previous version is kept")
	} else if src, err := os.ReadFile(prev); err != nil {
		t.Error(err)
	} else if n := l.number(t, "the previous version", src); n != l.saved {
		t.Errorf("the previous version is %d, want %d", n, l.saved)
	}
}

func (l *life) temporaries(t *testing.T) (found []string) {
	for _, f := range everything(t, l.dir) {
		if strings.HasSuffix(f, ".tmp") {
			found = append(found, f)
		}
	}
	return found
}

func everything(t *testing.T, folder string) (files []string) {
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			files = append(files, path)
		}
		return nil // what is not there holds nothing
	})
	if err != nil {
		t.Error(err)
	}
	return files
}
