package savefile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
	"time"
)

// disk is what saving asks of the operating system, step by step, so that a
// test can fail any of them.
type disk interface {
	lstat(path string) (fs.FileInfo, error)
	readlink(path string) (string, error)
	// writable tells by opening the file for writing, without touching it.
	writable(path string) error
	create(path string, mode fs.FileMode) (file, error)
	rename(from, to string) error
	remove(path string) error
	syncFolder(path string) error
}

// file is the temporary file while it is being written.
type file interface {
	Write(p []byte) (int, error)
	Chmod(mode fs.FileMode) error
	Sync() error
	Close() error
	// keepOwner gives the file the owner of old where the system allows it, and says
	// what it did not, and which links will be parted.
	keepOwner(old fs.FileInfo) Lost
	// keepAttributes gives it the extended attributes, access lists too, of the
	// file that it takes the place of, and names those that the system refused.
	keepAttributes(of string, narrow bool) []string
}

// osDisk is the disk of the machine.
type osDisk struct{}

type osFile struct{ *os.File }

func (osDisk) lstat(path string) (fs.FileInfo, error) { return os.Lstat(path) }
func (osDisk) readlink(path string) (string, error)   { return os.Readlink(path) }
func (osDisk) remove(path string) error               { return os.Remove(path) }

// waitForOthers is how long a save waits for another program to let a file go.
const waitForOthers = time.Second

func (osDisk) rename(from, to string) error {
	err := os.Rename(from, to)
	for start := time.Now(); InUse(err) && time.Since(start) < waitForOthers; {
		time.Sleep(20 * time.Millisecond)
		err = os.Rename(from, to)
	}
	return err
}

func (osDisk) writable(path string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|withoutWaiting, 0)
	if err != nil {
		return err
	}
	return f.Close()
}

func (osDisk) create(path string, mode fs.FileMode) (file, error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return nil, err
	}
	return osFile{f}, nil
}

func (f osFile) keepOwner(old fs.FileInfo) Lost { return keepOwner(f.File, old) }

func (f osFile) keepAttributes(of string, narrow bool) []string {
	return keepAttributes(f.File, of, narrow)
}

// syncFolder makes the rename itself last through a power cut. Windows can't
// open a folder for that, and some network file systems refuse it: then the
// rename is as lasting as the system makes it.
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

// MakeFolder makes a folder and those above it that are missing, flushed like a
// save. One that is there keeps its mode.
func MakeFolder(path string, mode fs.FileMode) error {
	wait(path)
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
	if err := MakeFolder(above, mode); err != nil {
		return err
	}
	if err := os.Mkdir(path, mode); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return osDisk{}.syncFolder(above)
}
