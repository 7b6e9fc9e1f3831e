// Package linktest makes symbolic links for tests. What a link points to and where it
// stands come in; a link stands there, or the test is skipped and says why. It is for
// tests alone and must not know what they test.
package linktest

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"testing"
)

// Symlink makes a symbolic link, and skips the test where the system makes none.
func Symlink(t testing.TB, to, at string) {
	t.Helper()
	if why := None(); why != "" {
		t.Skip(why)
	}
	if err := os.Symlink(to, at); err != nil {
		t.Fatal(err)
	}
}

// None is why there are no symbolic links here; empty: there are. Windows makes them for
// an administrator or in developer mode, and Wine until its version 10 says that it has
// made one and has not. Everywhere else a link that can't be made is a failure.
func None() string {
	if runtime.GOOS != "windows" {
		return ""
	}
	return tried()
}

var tried = sync.OnceValue(func() string {
	folder, err := os.MkdirTemp("", "skep-link-")
	if err != nil {
		return err.Error()
	}
	defer func() { _ = os.RemoveAll(folder) }()
	at := filepath.Join(folder, "link")
	if err := os.Symlink("to", at); err != nil {
		return fmt.Sprintf("no symbolic links on %s here: %v", runtime.GOOS, err)
	}
	if info, err := os.Lstat(at); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		return fmt.Sprintf("no symbolic links on %s here: one was made and is none (%v)", runtime.GOOS, err)
	}
	return ""
})
