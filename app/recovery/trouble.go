package recovery

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"syscall"
)

// Trouble says that unsaved work can't be kept at present.
type Trouble struct {
	Folder   string
	Clearing bool // only a recovery file that is no longer needed could not be removed
	Err      error
}

func (t *Trouble) Unwrap() error { return t.Err }

func (t *Trouble) Error() string {
	if t.Clearing {
		return fmt.Sprintf("can't remove a recovery copy that is no longer needed from %s: %s; the next start may offer it", t.Folder, cause(t.Err))
	}
	return fmt.Sprintf("unsaved changes would not survive a crash: can't write to %s: %s; save soon, Skep keeps trying", t.Folder, cause(t.Err))
}

// cause puts the commonest reasons in plain words, without the system call and
// the file's name, which would tell a person nothing.
func cause(err error) string {
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return "the disk is full"
	case errors.Is(err, syscall.EROFS):
		return "the disk is read-only"
	case errors.Is(err, fs.ErrPermission):
		return "no permission"
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err.Error()
	}
	return err.Error()
}
