package savefile

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// A file that another program reads for a moment is saved over when it lets go, and
// one that it keeps is not: the old file stays and nothing is left beside it.
func TestAFileThatIsReadElsewhere(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	path := filepath.Join(folder, "brew.toml")
	if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		held       time.Duration
		data, want string
	}{{200 * time.Millisecond, "new", "new"}, {20 * waitForOthers, "newer", "new"}} {
		f, err := os.Open(path) // without FILE_SHARE_DELETE
		if err != nil {
			t.Fatal(err)
		}
		closed := time.AfterFunc(c.held, func() { _ = f.Close() })
		err = Write(path, []byte(c.data))
		if fails := c.held > waitForOthers; fails != (err != nil) {
			t.Errorf("held for %v: %v", c.held, err)
		}
		if closed.Stop() {
			_ = f.Close()
		}
		if got, err := os.ReadFile(path); err != nil || string(got) != c.want {
			t.Errorf("held for %v: %q, %v", c.held, got, err)
		}
	}
	if left, _ := filepath.Glob(filepath.Join(folder, ".skep-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// A file that another program has for itself a moment is read when it lets go.
func TestAFileThatIsWrittenElsewhere(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "brew.toml")
	if err := os.WriteFile(path, []byte("whole"), 0o600); err != nil {
		t.Fatal(err)
	}
	name, err := syscall.UTF16PtrFromString(path)
	if err != nil {
		t.Fatal(err)
	}
	h, err := syscall.CreateFile(name, syscall.GENERIC_WRITE, 0, nil, syscall.OPEN_EXISTING, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.ReadFile(path); !shared(err) {
		t.Errorf("read while another has it: %v", err)
	}
	time.AfterFunc(50*time.Millisecond, func() { _ = syscall.CloseHandle(h) })
	if got, err := Read(path); err != nil || string(got) != "whole" {
		t.Errorf("%q, %v", got, err)
	}
}
