package savefile

import (
	"errors"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"syscall"
	"time"

	"github.com/adrg/xdg"

	"skep/calc/message"
)

// Trash moves a file to the desktop's waste bin and says where it is now. On a free
// desktop that is the Trash Specification 1.0 of freedesktop.org: the bin among the
// person's own files, or, for a file on another disk, that disk's own. Nothing is
// copied and nothing written over; where there is no bin the file stays.
func Trash(path string, now time.Time) (string, error) {
	failed := func(err error) error { return &Error{Doing: Trashing, Path: path, Err: err} }
	full, err := filepath.Abs(path)
	if err != nil {
		return "", failed(err)
	}
	if _, err := Lstat(full); err != nil {
		return "", failed(err)
	}
	switch runtime.GOOS {
	case "windows", "js", "wasip1", "plan9":
		return "", failed(message.NewError("this desktop's waste bin is not known here: remove the file with its own file manager"))
	case "darwin":
		home, err := os.UserHomeDir()
		if err != nil {
			return "", failed(err)
		}
		to, err := freePath(filepath.Join(home, ".Trash"), filepath.Base(full), ".")
		if err == nil {
			err = os.Rename(full, to)
		}
		if err != nil {
			return "", failed(err)
		}
		return to, nil
	}
	to, err := bin{filepath.Join(xdg.DataHome, "Trash"), full}.take(full, now)
	if errors.Is(err, syscall.EXDEV) {
		to, err = onItsDisk(full, now)
	}
	if err != nil {
		return "", failed(err)
	}
	return to, nil
}

// bin is a waste bin, and how a file's former place is written in it.
type bin struct{ folder, path string }

// take reserves a name by its .trashinfo, and then moves the file.
func (b bin) take(full string, now time.Time) (string, error) {
	files, info := filepath.Join(b.folder, "files"), filepath.Join(b.folder, "info")
	for _, folder := range []string{files, info} {
		if err := os.MkdirAll(folder, 0o700); err != nil {
			return "", err
		}
	}
	text := "[Trash Info]\nPath=" + (&url.URL{Path: b.path}).EscapedPath() + "\nDeletionDate=" + now.Format("2006-01-02T15:04:05") + "\n"
	for n := 1; n < 10000; n++ {
		name := numbered(filepath.Base(full), ".", n)
		about := filepath.Join(info, name+".trashinfo")
		f, err := os.OpenFile(about, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return "", err
		}
		_, err = f.WriteString(text)
		err = errors.Join(err, f.Close())
		to := filepath.Join(files, name)
		if err == nil {
			if _, there := os.Lstat(to); there == nil { // a file without its .trashinfo
				_ = os.Remove(about)
				continue
			}
			err = os.Rename(full, to)
		}
		if err != nil {
			_ = os.Remove(about)
			return "", err
		}
		return to, nil
	}
	return "", message.NewError("{folder} holds too many files of that name", b.folder)
}

// onItsDisk is the waste bin at the top of the disk that a file is on: .Trash/UID
// where an administrator has made .Trash with the sticky bit, else .Trash-UID.
func onItsDisk(full string, now time.Time) (string, error) {
	top, err := topOfDisk(full)
	if err != nil {
		return "", err
	}
	rel, err := filepath.Rel(top, full)
	if err != nil {
		return "", err
	}
	user := strconv.Itoa(os.Getuid())
	folder := filepath.Join(top, ".Trash-"+user)
	if shared, err := os.Lstat(filepath.Join(top, ".Trash")); err == nil && shared.IsDir() && shared.Mode()&fs.ModeSticky != 0 {
		folder = filepath.Join(top, ".Trash", user)
	}
	return bin{folder, filepath.ToSlash(rel)}.take(full, now)
}

// topOfDisk is the highest folder above a file that is on the same disk.
func topOfDisk(full string) (string, error) {
	top := filepath.Dir(full)
	disk, err := diskOf(top)
	if err != nil {
		return "", err
	}
	for {
		up := filepath.Dir(top)
		if up == top {
			return top, nil
		}
		if other, err := diskOf(up); err != nil || other != disk {
			return top, nil
		}
		top = up
	}
}
