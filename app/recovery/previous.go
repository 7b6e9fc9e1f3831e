package recovery

import (
	"path/filepath"
	"regexp"
	"time"

	"skep/app/savefile"
	"skep/calc/message"
)

// KeepPrevious keeps what a file held before it was saved, in place of what
// was kept of it earlier. Call it once the new text is safely in the file.
func (s *Store) KeepPrevious(path string, old []byte) error {
	to, err := s.previousOf(path)
	if err != nil {
		return err
	}
	if err := savefile.MakeFolder(s.previous(), folderMode); err != nil {
		return message.NewError("the version of {path} before this save was not kept: can't make {folder}: {why}", path, s.previous(), savefile.Cause(err))
	}
	s.SweepTemporaries(to)
	if err := savefile.Write(to, old); err != nil {
		return message.NewError("the version of {path} before this save was not kept: {error}", path, err)
	}
	return nil
}

// Previous is the file with what a file held before its last save; false when
// there is none.
func (s *Store) Previous(path string) (string, bool) {
	to, err := s.previousOf(path)
	if err != nil {
		return "", false
	}
	_, err = savefile.Stat(to)
	return to, err == nil
}

func (s *Store) previousOf(path string) (string, error) {
	real, err := resolve(path)
	if err != nil {
		return "", err
	}
	name := filepath.Base(real)
	const mostName = 100 // bytes; with the key before it, far below what any system takes
	if len(name) > mostName {
		name = name[len(name)-mostName:]
	}
	return filepath.Join(s.previous(), key(real)+"-"+name), nil
}

// temporary is the name of a file that package savefile fills before it takes
// the old one's place; the middle is crypto/rand's Text.
var temporary = regexp.MustCompile(`^\.skep-[A-Z2-7]{26}\.tmp$`)

// SweepTemporaries removes what saves that were killed halfway left beside a
// file. One that a living program may be filling this moment is left alone; it
// is there for milliseconds, so that age tells.
func (s *Store) SweepTemporaries(path string) {
	real, err := resolve(path)
	if err != nil {
		return
	}
	folder := filepath.Dir(real)
	entries, err := savefile.List(folder)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !temporary.MatchString(e.Name()) || !e.Type().IsRegular() {
			continue
		}
		// Either way: a clock that jumped back makes its age negative.
		if info, err := e.Info(); err == nil && time.Since(info.ModTime()).Abs() >= s.stale {
			_ = savefile.Remove(filepath.Join(folder, e.Name()))
		}
	}
}
