//go:build unix

package savefile

import (
	"errors"
	"net"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// What is no plain file is refused at once, whoever sits at its other end.
func TestOnlyPlainFilesAreRead(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	pipe := filepath.Join(dir, "pipe.toml")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Skip(err)
	}
	socket := filepath.Join(dir, "s")
	if l, err := net.Listen("unix", socket); err == nil {
		defer l.Close()
	}
	link := filepath.Join(dir, "link.toml")
	if err := os.Symlink(pipe, link); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{pipe, link, socket, dir, "/dev/zero", "/dev/tty"} {
		start := time.Now()
		_, err := Read(path)
		if took := time.Since(start); err == nil || took > 2*time.Second {
			t.Errorf("reading %s: %v after %v", path, err, took)
		}
		if err := Write(path, []byte("x")); err == nil || time.Since(start) > 4*time.Second {
			t.Errorf("writing %s: %v after %v", path, err, time.Since(start))
		}
	}
	var failed *Error
	if _, err := Read(pipe); !errors.As(err, &failed) || !failed.Unfit() || !strings.Contains(err.Error(), "pipe") {
		t.Errorf("reading a pipe: %v", err)
	}
}

// A server that is gone never answers; a test can only stand in for it.
func TestADiskThatDoesNotAnswer(t *testing.T) {
	t.Parallel()
	never := make(chan struct{})
	defer close(never)
	_, err := within(10*time.Millisecond, func() (content, error) {
		<-never
		return content{}, nil
	})
	if !errors.Is(err, errSilent) {
		t.Errorf("gave up with %v", err)
	}
}
