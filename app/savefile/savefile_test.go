package savefile

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"skep/app/savefile/linktest"
)

func TestWriteNewAndAgain(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "design.toml")
	for _, text := range []string{"first", "second, which is longer", ""} {
		if err := Write(path, []byte(text)); err != nil {
			t.Fatal(err)
		}
		mustHold(t, path, []byte(text))
	}
	if got := list(t, filepath.Dir(path)); strings.Contains(got, "tmp") {
		t.Errorf("the folder holds %s", got)
	}
}

// A new file gets the mode of any other new file; an old one keeps its own,
// whatever the umask.
func TestWriteKeepsPermissions(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" {
		t.Skip("no such permissions here")
	}
	folder := t.TempDir()
	plain, ours := filepath.Join(folder, "plain"), filepath.Join(folder, "ours")
	put(t, filepath.Join(folder, "like"), nil)
	if f, err := os.Create(plain); err != nil {
		t.Fatal(err)
	} else if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if err := Write(ours, []byte("x")); err != nil {
		t.Fatal(err)
	}
	if a, b := modeOf(t, ours), modeOf(t, plain); a != b {
		t.Errorf("a new file has %v, os.Create makes %v", a, b)
	}
	for _, mode := range []fs.FileMode{0o600, 0o640, 0o666, 0o755} {
		if err := os.Chmod(ours, mode); err != nil {
			t.Fatal(err)
		}
		if err := Write(ours, []byte("y")); err != nil {
			t.Fatal(err)
		}
		if got := modeOf(t, ours); got != mode {
			t.Errorf("mode %v became %v", mode, got)
		}
	}
}

func modeOf(t *testing.T, path string) fs.FileMode {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	return info.Mode().Perm()
}

func TestWriteFollowsLinks(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	if err := os.MkdirAll(filepath.Join(folder, "club", "designs"), 0o755); err != nil {
		t.Fatal(err)
	}
	link := func(to string, at ...string) {
		t.Helper()
		linktest.Symlink(t, to, filepath.Join(append([]string{folder}, at...)...))
	}
	real := filepath.Join(folder, "club", "gate.toml")
	put(t, real, []byte("old"))
	link("../gate.toml", "club", "designs", "one.toml") // relative
	link(filepath.Join(folder, "club", "designs", "one.toml"), "two.toml")
	link("club/designs", "near")          // a linked folder: ".." counts from the real one
	link("../fresh.toml", "club", "soon") // dangling
	link("club/soon", "later")
	for _, c := range []struct{ path, real string }{
		{filepath.Join(folder, "two.toml"), real},
		{filepath.Join(folder, "near", "one.toml"), real},
		{filepath.Join(folder, "later"), filepath.Join(folder, "fresh.toml")},
	} {
		if err := Write(c.path, []byte(c.path)); err != nil {
			t.Fatal(err)
		}
		mustHold(t, c.real, []byte(c.path))
	}
	for _, p := range []string{"two.toml", "later"} {
		if info, err := os.Lstat(filepath.Join(folder, p)); err != nil || info.Mode()&fs.ModeSymlink == 0 {
			t.Errorf("%s is no link any more (%v)", p, err)
		}
	}
	link("b", "a")
	link("a", "b")
	if err := Write(filepath.Join(folder, "a"), nil); err == nil || !strings.Contains(err.Error(), "circle") {
		t.Errorf("links in a circle: %v", err)
	}
}

func TestWriteRefuses(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	for _, c := range []struct{ path, says string }{
		{folder, "is a folder"},
		{filepath.Join(folder, "no", "such.toml"), "its folder is not there; make the folder first, or save under another name"},
		{os.DevNull, "is a device"},
	} {
		err := Write(c.path, []byte("x"))
		var e *Error
		if !errors.As(err, &e) || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), c.path) {
			t.Errorf("Write(%s) = %v, want %q", c.path, err, c.says)
		}
	}
}

// A folder and a file that may not be written. Root is above permissions: the
// test speaks only where it is run by somebody else.
func TestWriteWithoutPermission(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" || os.Getuid() == 0 {
		t.Skip("permissions do not bind this user; the fault sweep has the case")
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "design.toml")
	put(t, path, []byte("old"))
	if err := os.Chmod(path, 0o444); err != nil {
		t.Fatal(err)
	}
	if err := Write(path, []byte("new")); err == nil || !strings.Contains(err.Error(), "permission") {
		t.Errorf("a write-protected file: %v", err)
	}
	if err := errors.Join(os.Chmod(path, 0o644), os.Chmod(folder, 0o555)); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(folder, 0o755)
	if err := Write(path, []byte("new")); err == nil || !strings.Contains(err.Error(), "permission") {
		t.Errorf("a write-protected folder: %v", err)
	}
	mustHold(t, path, []byte("old"))
}

func TestRead(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	path := filepath.Join(folder, "design.toml")
	largest := bytes.Repeat([]byte("#"), maxBytes)
	put(t, path, largest)
	got, err := Read(path)
	if err != nil || !bytes.Equal(got, largest) {
		t.Errorf("a file of exactly MaxBytes: %d bytes, %v", len(got), err)
	}
	put(t, path, append(largest, '#'))
	for _, c := range []struct {
		path, says     string
		missing, unfit bool
	}{
		{path, "larger than the 1024 KiB", false, true},
		{folder, "is a folder", false, true},
		{filepath.Join(folder, "none.toml"), "there is no such file", true, false},
	} {
		_, err := Read(c.path)
		var e *Error
		if !errors.As(err, &e) || !strings.Contains(err.Error(), c.says) || e.Missing() != c.missing || e.Unfit() != c.unfit {
			t.Errorf("Read(%s) = %v, missing %v, unfit %v", c.path, err, e.Missing(), e.Unfit())
		}
	}
	if _, err := ReadFrom("standard input", strings.NewReader(string(largest)+"##")); err == nil {
		t.Error("a stream without end was taken")
	}
}

func TestFingerprint(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "design.toml")
	put(t, path, []byte("title = 'a'\n"))
	data, loaded, err := ReadPrint(path)
	if err != nil || string(data) != "title = 'a'\n" {
		t.Fatal(string(data), err)
	}
	now := func() Fingerprint {
		t.Helper()
		f, err := FingerprintOf(path)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	if !now().Same(loaded) {
		t.Error("an untouched file has changed")
	}
	if err := os.Chtimes(path, time.Now(), time.Now().Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	if !now().Same(loaded) {
		t.Error("a touched file counts as changed")
	}
	put(t, path, []byte("title = 'b'\n")) // as long, and as old
	if err := os.Chtimes(path, loaded.ModTime, loaded.ModTime); err != nil {
		t.Fatal(err)
	}
	if now().Same(loaded) {
		t.Error("other content of the same length and time counts as the same")
	}
}

// A process that saves without end is killed at odd moments: whatever it was
// doing, the file is one of the versions it wrote, whole.
func TestKilledWhileSaving(t *testing.T) {
	const mark = "SKEP_SAVE_FOREVER"
	if path := os.Getenv(mark); path != "" {
		for i := 0; ; i++ {
			if err := Write(path, bytes.Repeat([]byte{byte('a' + i%26)}, 200_000)); err != nil {
				os.Exit(1)
			}
			if i == 0 {
				fmt.Println("saved")
			}
		}
	}
	t.Parallel()
	path := filepath.Join(t.TempDir(), "design.toml")
	put(t, path, bytes.Repeat([]byte("-"), 200_000))
	for i := range 12 {
		cmd := exec.Command(os.Args[0], "-test.run=^TestKilledWhileSaving$")
		cmd.Env = append(os.Environ(), mark+"="+path)
		says, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		if line, err := bufio.NewReader(says).ReadString('\n'); err != nil {
			t.Fatalf("the other process saved nothing: %q, %v", line, err)
		}
		time.Sleep(time.Duration(7*i) * time.Millisecond)
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		got, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if len(got) != 200_000 || len(bytes.Trim(got, string(got[:1]))) != 0 {
			t.Fatalf("after a kill the file has %d bytes, or two versions in one", len(got))
		}
	}
}
