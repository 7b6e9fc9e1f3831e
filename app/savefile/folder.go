package savefile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"skep/calc/message"
)

// Stat is os.Stat, which gives a disk up that does not answer.
func Stat(path string) (fs.FileInfo, error) { return info(path, os.Stat) }

// Lstat is os.Lstat, which gives a disk up that does not answer.
func Lstat(path string) (fs.FileInfo, error) { return info(path, os.Lstat) }

func info(path string, of func(string) (fs.FileInfo, error)) (fs.FileInfo, error) {
	return within(patience, func() (fs.FileInfo, error) {
		wait(path)
		return of(path)
	})
}

// IsThere tells whether a path names anything. On a disk that does not answer
// nothing is there.
func IsThere(path string) bool {
	_, err := Stat(path)
	return err == nil
}

// List is os.ReadDir: what is in a folder, by name.
func List(folder string) ([]fs.DirEntry, error) {
	return within(patience, func() ([]fs.DirEntry, error) {
		wait(folder)
		return os.ReadDir(folder)
	})
}

// Real is a path with the links of its folders followed.
func Real(path string) (string, error) {
	return within(patience, func() (string, error) {
		wait(path)
		return filepath.EvalSymlinks(path)
	})
}

// LinkOf is where a symbolic link leads; an error where it is none.
func LinkOf(path string) (string, error) {
	return within(patience, func() (string, error) {
		wait(path)
		return os.Readlink(path)
	})
}

// Remove removes a file; one that is not there is no error.
func Remove(path string) error {
	wait(path)
	return gone(os.Remove(path))
}

// Move gives a file another name on its disk. It is for a name that [FreePath] has
// found: another file of that name would be written over.
func Move(from, to string) error {
	wait(from)
	return os.Rename(from, to)
}

// TemporaryFolder makes a folder that only this person may read.
func TemporaryFolder(pattern string) (string, error) {
	wait(os.TempDir())
	return os.MkdirTemp("", pattern)
}

// FreePath is a path in a folder that nothing stands at: of that name, or with a
// number before its ending, "kettle.toml", "kettle-2.toml".
func FreePath(folder, name string) (string, error) { return freePath(folder, name, "-") }

func freePath(folder, name, before string) (string, error) {
	const most = 10000
	for n := 1; n < most; n++ {
		to := filepath.Join(folder, numbered(name, before, n))
		if _, err := Lstat(to); errors.Is(err, fs.ErrNotExist) {
			return to, nil
		} else if err != nil {
			return "", err
		}
	}
	return "", message.NewError("{folder} holds too many files of that name", folder)
}

// numbered is a file's name with a number before its ending; 1 is none.
func numbered(name, before string, n int) string {
	if n == 1 {
		return name
	}
	ending := filepath.Ext(name)
	return strings.TrimSuffix(name, ending) + before + strconv.Itoa(n) + ending
}
