package savefile

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/adrg/xdg"
)

// The Trash Specification 1.0 (freedesktop.org): files/NAME holds the file,
// info/NAME.trashinfo its former path with RFC 2396 escapes and the local time; a
// name that is taken gets another, and nothing is written over.
func TestTrash(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the bin of a free desktop")
	}
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	xdg.Reload()
	t.Cleanup(xdg.Reload)
	folder := filepath.Join(t.TempDir(), "Skep batches ä")
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, "2026-06-20-hedge.toml")
	now := time.Date(2026, 7, 12, 9, 5, 3, 0, time.UTC)
	bin := filepath.Join(xdg.DataHome, "Trash")
	for i, name := range []string{"2026-06-20-hedge.toml", "2026-06-20-hedge.2.toml", "2026-06-20-hedge.3.toml"} {
		text := strings.Repeat("x", i+1)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		to, err := Trash(path, now)
		if err != nil || to != filepath.Join(bin, "files", name) {
			t.Fatalf("%s, %v", to, err)
		}
		if got, err := os.ReadFile(to); err != nil || string(got) != text {
			t.Errorf("%s holds %q, %v", to, got, err)
		}
		if _, err := os.Lstat(path); err == nil {
			t.Error("the file is where it was")
		}
		info, err := os.ReadFile(filepath.Join(bin, "info", name+".trashinfo"))
		want := "[Trash Info]\nPath=" + filepath.Dir(folder) + "/Skep%20batches%20%C3%A4/2026-06-20-hedge.toml\nDeletionDate=2026-07-12T09:05:03\n"
		if err != nil || string(info) != want {
			t.Errorf("%q, %v; want %q", info, err, want)
		}
	}
	if _, err := Trash(path, now); err == nil || !strings.Contains(err.Error(), path) {
		t.Errorf("a file that is not there: %v", err)
	}
	if left, _ := filepath.Glob(filepath.Join(bin, "info", "*")); len(left) != 3 {
		t.Errorf("%d notes in the bin, 3 files", len(left))
	}
}

// A file on another disk goes to that disk's own bin, with its path from there.
func TestTrashOnAnotherDisk(t *testing.T) {
	stick, err := os.MkdirTemp("/dev/shm", "skep")
	if runtime.GOOS != "linux" || err != nil {
		t.Skip("no second disk")
	}
	defer os.RemoveAll(stick)
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	xdg.Reload()
	t.Cleanup(xdg.Reload)
	if a, _ := diskOf(stick); a == func() uint64 { d, _ := diskOf(xdg.DataHome); return d }() {
		t.Skip("no second disk")
	}
	path := filepath.Join(stick, "hedge.toml")
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	to, err := Trash(path, time.Now())
	if err != nil || !strings.HasPrefix(to, "/dev/shm/.Trash") {
		t.Fatalf("%s, %v", to, err)
	}
	info := filepath.Join(filepath.Dir(filepath.Dir(to)), "info", filepath.Base(to)+".trashinfo")
	text, err := os.ReadFile(info)
	if err != nil || !strings.Contains(string(text), "\nPath="+filepath.Base(stick)+"/hedge.toml\n") {
		t.Errorf("%q, %v", text, err)
	}
	for _, f := range []string{to, info} {
		_ = os.Remove(f)
	}
}
