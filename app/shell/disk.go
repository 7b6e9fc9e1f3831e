package shell

import (
	"skep/app/disk"
	"skep/app/words"
)

// Beside has all that waits for a disk done beside the window from now on; until
// then it is done at once, as in the tests that are not about waiting.
func (s *Shell) Beside() { s.disk = disk.New(s.Do, s.Status.Wait) }

// Disk is where a place asks for what lies on the disk.
func (s *Shell) Disk() *disk.Disk { return s.disk }

// Write writes to a path in a lane, and hands over what came of it.
func (s *Shell) Write(lane, path string, write func() error, then func(error)) {
	s.disk.Ask(lane, words.T("Writing {file}…", path), func() func() {
		err := write()
		return func() { then(err) }
	})
}

// Visit changes whenever the person has moved on: to another place or design, or to
// something that opens over the window or closes there.
func (s *Shell) Visit() int { return s.visit }

// MoveOn says that the person has.
func (s *Shell) MoveOn() { s.visit++ }
