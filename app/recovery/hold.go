package recovery

import (
	"os"
	"runtime"
	"time"

	"github.com/gofrs/flock"

	"skep/app/savefile"
	"skep/calc/message"
)

// holder is a lock that is held.
type holder struct{ *flock.Flock }

var errHeld = message.NewError("held by another process")

// lock makes a lock file and holds it; the error is errHeld when another does.
func lock(path string) (*holder, error) {
	if info, err := savefile.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return nil, message.NewError("{path} is no plain file", path) // opening a pipe would wait for ever
	}
	const attempts = 100 // each lost to a process that ends or starts this moment
	// Windows frees the locks of a process that was killed a while after it is gone
	// (LockFileEx: "depends upon available system resources"); elsewhere at once.
	dying := 0
	if runtime.GOOS == "windows" {
		dying = 5
	}
	why := message.NewError("{path} keeps appearing and disappearing", path)
	for range attempts {
		l := &holder{flock.New(path, flock.SetPermissions(fileMode))}
		switch ok, err := l.TryLock(); {
		case savefile.InUse(err):
			// Windows lets no file be opened that another process removes just now.
			time.Sleep(time.Millisecond)
			why = err
			continue
		case err != nil:
			return nil, err
		case !ok && dying > 0:
			dying--
			time.Sleep(20 * time.Millisecond)
			continue
		case !ok:
			return nil, errHeld
		case l.valid():
			return l, nil
		}
		// The file was removed between its opening and its locking: what we
		// hold nobody else will see.
		_ = l.Unlock()
	}
	return nil, why
}

func (l *holder) valid() bool {
	ours, err := l.Stat()
	if err != nil {
		return false
	}
	there, err := savefile.Stat(l.Path())
	return err == nil && os.SameFile(there, ours)
}

// release removes the file while it is still held, so that nobody can have
// locked it in between; Windows removes no open file, but there nobody's can
// be removed either.
func (l *holder) release() {
	if runtime.GOOS == "windows" {
		_ = l.Unlock()
		_ = savefile.Remove(l.Path())
		return
	}
	if l.valid() {
		_ = savefile.Remove(l.Path())
	}
	_ = l.Unlock()
}
