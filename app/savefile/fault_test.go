package savefile

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"skep/app/savefile/linktest"
)

// faultyDisk is the real disk, but its nth operation fails with err. Every
// operation counts, those on the file too.
type faultyDisk struct {
	osDisk
	nth   int
	err   error
	half  bool // a failing write has first written half
	quiet bool // a failing write says no error, only fewer bytes

	done   int
	failed string // the operation that failed
}

func (d *faultyDisk) step(name string) error {
	d.done++
	if d.done == d.nth {
		d.failed = name
		return d.err
	}
	return nil
}

func (d *faultyDisk) lstat(p string) (fs.FileInfo, error) {
	if err := d.step("lstat"); err != nil {
		return nil, err
	}
	return d.osDisk.lstat(p)
}

func (d *faultyDisk) readlink(p string) (string, error) {
	if err := d.step("readlink"); err != nil {
		return "", err
	}
	return d.osDisk.readlink(p)
}

func (d *faultyDisk) writable(p string) error {
	if err := d.step("open for writing"); err != nil {
		return err
	}
	return d.osDisk.writable(p)
}

func (d *faultyDisk) create(p string, m fs.FileMode) (file, error) {
	if err := d.step("create"); err != nil {
		return nil, err
	}
	f, err := d.osDisk.create(p, m)
	return &faultyFile{f, d}, err
}

func (d *faultyDisk) rename(from, to string) error {
	if err := d.step("rename"); err != nil {
		return err
	}
	return d.osDisk.rename(from, to)
}

func (d *faultyDisk) syncFolder(p string) error {
	if err := d.step("sync folder"); err != nil {
		return err
	}
	return d.osDisk.syncFolder(p)
}

type faultyFile struct {
	file
	d *faultyDisk
}

func (f *faultyFile) Write(p []byte) (int, error) {
	if err := f.d.step("write"); err != nil {
		n := 0
		if f.d.half {
			n, _ = f.file.Write(p[:len(p)/2])
		}
		if f.d.quiet {
			err = nil
		}
		return n, err
	}
	return f.file.Write(p)
}

func (f *faultyFile) Chmod(m fs.FileMode) error {
	if err := f.d.step("chmod"); err != nil {
		return err
	}
	return f.file.Chmod(m)
}

func (f *faultyFile) Sync() error {
	if err := f.d.step("sync"); err != nil {
		return err
	}
	return f.file.Sync()
}

func (f *faultyFile) Close() error {
	err := f.d.step("close")
	return errors.Join(err, f.file.Close())
}

// Each operation of a save fails in turn, in every way that disks fail, until a
// save needs no operation more. After each failure the old file must be there
// byte for byte, or not be there if it was not; nothing else may lie about; and
// the message must name the file and say why. Only when the folder's flush
// fails, the last step, the new content stands, and the message says that.
func TestFaultSweep(t *testing.T) {
	t.Parallel()
	before, after := bytes.Repeat([]byte("before\n"), 500), bytes.Repeat([]byte("after!!\n"), 700)
	for _, start := range []string{"old file", "through a link", "no file"} {
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
			{"short write", syscall.EIO, true, true, ""},
		} {
			t.Run(start+", "+kind.name, func(t *testing.T) {
				t.Parallel()
				seen := map[string]bool{}
				for nth := 1; ; nth++ {
					folder := t.TempDir()
					path := filepath.Join(folder, "design.toml")
					real := path
					switch start {
					case "old file":
						put(t, path, before)
					case "through a link":
						real = filepath.Join(folder, "real.toml")
						put(t, real, before)
						linktest.Symlink(t, "real.toml", path)
					}
					was := list(t, folder)
					d := &faultyDisk{nth: nth, err: kind.err, half: kind.half, quiet: kind.quiet}
					_, err := write(d, path, after)
					if d.failed == "" {
						if err != nil {
							t.Fatalf("no operation failed, yet: %v", err)
						}
						mustHold(t, real, after)
						break
					}
					seen[d.failed] = true
					var e *Error
					if !errors.As(err, &e) {
						t.Fatalf("%s failed: the error is %v, not an *Error", d.failed, err)
					}
					if !strings.Contains(err.Error(), path) || !strings.Contains(err.Error(), kind.says) && !kind.quiet {
						t.Errorf("%s failed: message %q does not name the file and %q", d.failed, err, kind.says)
					}
					if e.Replaced != (d.failed == "sync folder") {
						t.Errorf("%s failed: Replaced is %v", d.failed, e.Replaced)
					}
					if e.Replaced {
						mustHold(t, real, after)
						continue
					}
					if got := list(t, folder); got != was {
						t.Errorf("%s failed: the folder holds %s, before it held %s", d.failed, got, was)
					}
					if start != "no file" {
						mustHold(t, real, before)
					}
				}
				for _, op := range []string{"lstat", "create", "write", "sync", "close", "rename", "sync folder"} {
					if !seen[op] {
						t.Errorf("the sweep never failed %s: it proves nothing of it", op)
					}
				}
			})
		}
	}
}

func put(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

func mustHold(t *testing.T, path string, want []byte) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s holds %d bytes beginning %.8q, want %d beginning %.8q", path, len(got), got, len(want), want)
	}
}

func list(t *testing.T, folder string) string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprint(entries)
}
