package day

import (
	"encoding/json"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"skep/app/disk"
	"skep/app/savefile"
	"skep/calc/running"
)

// Store keeps the day that is on its way in a folder, beside the window: the newest
// state wins, and a disk that fails is tried again every second.
type Store struct {
	folder string
	newest *disk.Newest[running.State]
}

const (
	ending     = ".json"
	prefix     = "day-"
	retryGap   = time.Second
	folderMode = 0o700
	mostBytes  = 1 << 20
)

// NewStore keeps days in a folder, which is made when it is first needed. report hears
// of the first failure of a row, on another goroutine.
func NewStore(folder string, report func(error)) *Store {
	s := &Store{folder: folder}
	s.newest = disk.KeepNewest(0, retryGap, func(st running.State) (bool, error) { return true, s.put(&st) }, report, func() {})
	return s
}

// Keep asks for a state to be on the disk; one that is over is taken away.
func (s *Store) Keep(st running.State) { s.newest.Ask(st.Clone()) }

// Close ends the store; a day that is on its way stays on the disk.
func (s *Store) Close() { _ = s.newest.Close() }

// path is the file of a day, named by its beginning.
func (s *Store) path(st *running.State) string {
	return filepath.Join(s.folder, prefix+strconv.FormatInt(st.Begun.UnixMilli(), 10)+ending)
}

func (s *Store) put(st *running.State) error {
	if st.Over {
		return savefile.Remove(s.path(st))
	}
	text, err := json.MarshalIndent(st, "", " ")
	if err != nil {
		return err
	}
	if err := savefile.MakeFolder(s.folder, folderMode); err != nil {
		return err
	}
	return savefile.Write(s.path(st), text)
}

// Load reads the days that are on their way, the one begun last first. What can't be
// read is left where it is, and out. It reads files: not for the window's goroutine.
func (s *Store) Load() (all []running.State) {
	files, err := savefile.List(s.folder)
	if err != nil {
		return nil
	}
	for i := len(files) - 1; i >= 0; i-- {
		name := files[i].Name()
		if !strings.HasPrefix(name, prefix) || !strings.HasSuffix(name, ending) {
			continue
		}
		src, err := savefile.ReadAtMost(filepath.Join(s.folder, name), mostBytes)
		if err != nil {
			continue
		}
		var st running.State
		if json.Unmarshal(src, &st) == nil && st.Version == running.Version && !st.Over {
			all = append(all, st)
		}
	}
	return all
}
