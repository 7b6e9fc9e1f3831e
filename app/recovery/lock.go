package recovery

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"skep/app/savefile"
	"skep/calc/message"
)

// Lock says that a file is open here. It keeps out no other kind of program.
type Lock struct {
	path string // resolved
	held *holder
	who  string // the file with what another program is told
}

// Busy says that another program, or another window, has the file open.
type Busy struct {
	Path  string
	PID   int       // 0: not known
	Since time.Time // zero: not known
}

func (b *Busy) Error() string { return b.AsMessage().String() }

// AsMessage is for a person's language.
func (b *Busy) AsMessage() message.Message {
	if b.PID == 0 {
		return message.New("{path} is open in another Skep window; save beside it under another name, or close it there", b.Path)
	}
	return message.New("{path} is open in another Skep window (process {pid}); save beside it under another name, or close it there", b.Path, b.PID)
}

// owner is what a lock tells others.
type owner struct {
	PID   int       `json:"pid"`
	Since time.Time `json:"since"`
	Path  string    `json:"path"`
}

// Lock takes a file for this window. The error is a [*Busy] when another has
// it; any other error means that locks can't be had here, and the fingerprint
// alone guards the file. A file is known by its path with all links followed,
// so it is one lock whatever name it is opened by; it need not exist.
func (s *Store) Lock(path string) (*Lock, error) {
	real, err := resolve(path)
	if err != nil {
		return nil, s.noLock(path, err)
	}
	if err := savefile.MakeFolder(s.locks(), folderMode); err != nil {
		return nil, s.noLock(path, err)
	}
	name := filepath.Join(s.locks(), key(real))
	who := name + ".who"
	held, err := lock(name + endLock)
	if errors.Is(err, errHeld) {
		busy := &Busy{Path: path}
		var o owner
		if src, err := savefile.Read(who); err == nil && json.Unmarshal(src, &o) == nil {
			busy.PID, busy.Since = o.PID, o.Since
		}
		return nil, busy
	}
	if err != nil {
		return nil, s.noLock(path, err)
	}
	// Only a courtesy to the person at the other window.
	if src, err := json.Marshal(owner{os.Getpid(), time.Now(), real}); err == nil {
		_ = savefile.Write(who, src)
	}
	return &Lock{path: real, held: held, who: who}, nil
}

func (s *Store) noLock(path string, err error) error {
	return message.NewError("two windows on {path} would not know of each other: can't lock in {folder}: {why}", path, s.locks(), savefile.Cause(err))
}

// Holds tells whether the lock is that of a path.
func (l *Lock) Holds(path string) bool {
	real, err := resolve(path)
	return err == nil && l != nil && key(real) == key(l.path)
}

// Valid tells whether others still see the lock: its folder may have gone.
func (l *Lock) Valid() bool { return l != nil && l.held.valid() }

// Release gives the file to others.
func (l *Lock) Release() {
	if l == nil {
		return
	}
	if l.held.valid() {
		_ = savefile.Remove(l.who)
	}
	l.held.release()
}

// key names a resolved path in the folder of locks.
func key(real string) string {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		// Mostly the case does not tell files apart there. Where it does, two
		// files share a lock, which loses nothing.
		real = strings.ToLower(real)
	}
	sum := sha256.Sum256([]byte(real))
	return hex.EncodeToString(sum[:16])
}

// resolve is a path made absolute with all symbolic links followed, the last
// one too, even where there is no file yet.
func resolve(path string) (string, error) {
	const mostLinks = 40 // as Linux has it
	path, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	for range mostLinks {
		folder, err := savefile.Real(filepath.Dir(path))
		if errors.Is(err, fs.ErrNotExist) {
			return path, nil // nothing there that a link could hide
		}
		if err != nil {
			return "", err
		}
		path = filepath.Join(folder, filepath.Base(path))
		to, err := savefile.LinkOf(path)
		if err != nil {
			return path, nil // no link
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(folder, to)
		}
		path = to
	}
	return "", message.NewError("its symbolic links lead round in a circle")
}
