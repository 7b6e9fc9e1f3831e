package journal

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"

	"github.com/gofrs/flock"
)

// disk is what the journal asks of the operating system, step by step, so that
// a test can fail any of them or cut the power between two.
type disk interface {
	// makeFolder makes a folder and those above it, for the person alone.
	makeFolder(path string) error
	list(folder string) ([]string, error)
	read(path string) ([]byte, error)
	create(path string) (file, error) // emptied if it is there
	extend(path string) (file, error) // which must be there; writes go to its end
	same(path string, f file) bool    // path still names f
	rename(from, to string) error
	remove(path string) error
	syncFolder(path string) error
	// lock makes a lock file and holds it; errHeld when another does.
	lock(path string) (holder, error)
}

type file interface {
	Write(p []byte) (int, error)
	Sync() error
	Close() error
}

// holder is a lock that is held.
type holder interface {
	// valid tells whether the lock file still is the one that is held: its
	// folder may have gone, and then nobody else sees the lock.
	valid() bool
	release() // and removes the lock file
}

var errHeld = errors.New("held by another process")

// osDisk is the disk of the machine.
type osDisk struct{}

const (
	folderMode = 0o700
	fileMode   = 0o600
	mostRead   = 64 << 20 // bytes of a journal, far above what one grows to
)

func (d osDisk) makeFolder(path string) error {
	info, err := os.Stat(path)
	if err == nil && !info.IsDir() {
		return &fs.PathError{Op: "mkdir", Path: path, Err: syscall.ENOTDIR}
	}
	if err == nil || !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	above := filepath.Dir(path)
	if above == path {
		return err
	}
	if err := d.makeFolder(above); err != nil {
		return err
	}
	if err := os.Mkdir(path, folderMode); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return d.syncFolder(above)
}

func (osDisk) list(folder string) ([]string, error) {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names, err
}

func (osDisk) read(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(f, mostRead))
	return data, errors.Join(err, f.Close())
}

func (osDisk) create(path string) (file, error) {
	return opened(os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, fileMode))
}

func (osDisk) extend(path string) (file, error) {
	return opened(os.OpenFile(path, os.O_WRONLY|os.O_APPEND, fileMode))
}

func opened(f *os.File, err error) (file, error) {
	if err != nil {
		return nil, err // not a file that holds a nil
	}
	return f, nil
}

func (osDisk) same(path string, f file) bool {
	there, err := os.Stat(path)
	if err != nil {
		return false
	}
	ours, err := f.(*os.File).Stat()
	return err == nil && os.SameFile(there, ours)
}

func (osDisk) rename(from, to string) error { return os.Rename(from, to) }
func (osDisk) remove(path string) error     { return os.Remove(path) }

// syncFolder makes a rename last through a power cut; where the system can't,
// it is as lasting as the system makes it.
func (osDisk) syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(path)
	if errors.Is(err, fs.ErrPermission) {
		return nil // a folder that may be written but not listed
	}
	if err != nil {
		return err
	}
	err = d.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil
	}
	return errors.Join(err, d.Close())
}

type osLock struct{ *flock.Flock }

func (osDisk) lock(path string) (holder, error) {
	const attempts = 100 // each lost to a process that ends or starts this moment
	for range attempts {
		l := osLock{flock.New(path, flock.SetPermissions(fileMode))}
		switch ok, err := l.TryLock(); {
		case err != nil:
			return nil, err
		case !ok:
			return nil, errHeld
		case l.valid():
			return l, nil
		}
		// The file was removed between its opening and its locking: what we
		// hold nobody else will see.
		_ = l.Unlock()
	}
	return nil, fmt.Errorf("%s comes and goes", path)
}

func (l osLock) valid() bool {
	ours, err := l.Stat()
	if err != nil {
		return false
	}
	there, err := os.Stat(l.Path())
	return err == nil && os.SameFile(there, ours)
}

// release removes the file while it is still held, so that nobody can have
// locked it in between; Windows removes no open file, but there nobody's can
// be removed either.
func (l osLock) release() {
	if runtime.GOOS == "windows" {
		_ = l.Unlock()
		_ = os.Remove(l.Path())
		return
	}
	if l.valid() {
		_ = os.Remove(l.Path())
	}
	_ = l.Unlock()
}
