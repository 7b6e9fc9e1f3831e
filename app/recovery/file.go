package recovery

import (
	"path/filepath"

	"skep/app/savefile"
)

const (
	endWork = ".json"
	endLock = ".lock"

	folderMode = 0o700
	fileMode   = 0o600
)

// file is the recovery file of one window. It is for one goroutine.
type file struct {
	folder string
	id     string
	held   *holder // the lock that says we live; nil: never written
}

func (f *file) path(ending string) string { return filepath.Join(f.folder, f.id+ending) }

// put brings work to the disk, whole.
func (f *file) put(w Work) error {
	data, err := w.encode()
	if err != nil {
		return err
	}
	if err := f.live(); err != nil {
		return err
	}
	return savefile.Write(f.path(endWork), data)
}

// live makes sure of the folder and of the lock that says we live, before any
// work of ours is to be seen. A folder that vanished is made anew.
func (f *file) live() error {
	if err := savefile.MakeFolder(f.folder, folderMode); err != nil {
		return err
	}
	if f.held != nil && f.held.valid() {
		return nil
	}
	held, err := lock(f.path(endLock))
	if err != nil {
		return err
	}
	if f.held != nil {
		f.held.release() // of the folder that is gone
	}
	f.held = held
	return nil
}

// clear removes the recovery file: its work is saved or given up. It tells
// whether there was anything to do, so that the disk was tried.
func (f *file) clear() (tried bool, err error) {
	if f.held == nil {
		return false, nil
	}
	return true, savefile.Remove(f.path(endWork))
}

// end gives the lock back: what is there counts as left by the dead.
func (f *file) end() {
	if f.held != nil {
		f.held.release()
		f.held = nil
	}
}
