package savefile

import (
	"crypto/rand"
	"errors"
	"io"
	"io/fs"
	"path/filepath"
)

// Write makes data the content of the file at path: wholly, or not at all. On
// an error that is an [*Error] the old file is as it was and nothing is left
// behind; only [Error.Replaced] tells of the one exception.
func Write(path string, data []byte) error {
	_, err := WriteOver(path, data)
	return err
}

// WriteOver is [Write] of a file that a person may have had before Skep: it says what
// could not be kept of the one that it takes the place of.
func WriteOver(path string, data []byte) (Lost, error) {
	wait(path)
	return write(osDisk{}, path, data)
}

func write(d disk, path string, data []byte) (Lost, error) {
	fail := func(err error) (Lost, error) { return Lost{}, &Error{Doing: Saving, Path: path, Err: err} }
	target, old, err := resolve(d, path)
	if err != nil {
		return fail(err)
	}
	mode := fs.FileMode(0o666) // less the umask, as for any new file
	if old != nil {
		if !old.Mode().IsRegular() {
			return fail(notPlain(old.Mode()))
		}
		// A rename would go over a write-protected file without asking.
		if err := d.writable(target); err != nil {
			return fail(err)
		}
		mode = old.Mode().Perm()
	}
	folder := filepath.Dir(target)
	temp := filepath.Join(folder, ".skep-"+rand.Text()+".tmp")
	lost, err := fill(d, temp, target, mode, old, data)
	if err != nil {
		return fail(err)
	}
	if err := d.rename(temp, target); err != nil {
		return fail(errors.Join(err, gone(d.remove(temp))))
	}
	if err := d.syncFolder(folder); err != nil {
		return lost, &Error{Doing: Saving, Path: path, Err: err, Replaced: true}
	}
	return lost, nil
}

// fill writes the temporary file and flushes it to the disk; on an error it is
// gone again.
func fill(d disk, temp, target string, mode fs.FileMode, old fs.FileInfo, data []byte) (lost Lost, err error) {
	f, err := d.create(temp, mode)
	if err != nil {
		return lost, err
	}
	err = func() error {
		n, err := f.Write(data)
		if err != nil {
			return err
		}
		if n < len(data) {
			return io.ErrShortWrite
		}
		if old != nil {
			lost = f.keepOwner(old)
			if lost.Group {
				mode = withoutGroup(mode)
			}
			if err := f.Chmod(mode); err != nil { // the umask took some at creation
				return err
			}
			// After the mode, which would narrow an access list.
			lost.Attributes = f.keepAttributes(target, lost.Group)
		}
		return f.Sync()
	}()
	if err := errors.Join(err, f.Close()); err != nil {
		return lost, errors.Join(err, gone(d.remove(temp)))
	}
	return lost, nil
}

// gone is the error of a removal, unless what was to go is not there anyway.
func gone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// resolve follows symbolic links at the end of path, also to a file that is not
// there yet, and returns what stands at the end of them; nil when nothing does.
func resolve(d disk, path string) (string, fs.FileInfo, error) {
	const mostLinks = 40 // as Linux has it
	for range mostLinks {
		info, err := d.lstat(path)
		if errors.Is(err, fs.ErrNotExist) {
			return path, nil, nil
		}
		if err != nil {
			return "", nil, err
		}
		if info.Mode()&fs.ModeSymlink == 0 {
			return path, info, nil
		}
		to, err := d.readlink(path)
		if err != nil {
			return "", nil, err
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(realFolder(path), to)
		}
		path = to
	}
	return "", nil, errLinks
}

// realFolder is the folder of path with its own links resolved, since ".." in a
// link counts from where the link really stands.
func realFolder(path string) string {
	folder := filepath.Dir(path)
	if real, err := filepath.EvalSymlinks(folder); err == nil {
		return real
	}
	return folder
}
