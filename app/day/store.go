package day

import (
	"encoding/json"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"time"

	"skep/app/savefile"
	"skep/calc/running"
)

// Store keeps the day that is on its way in a folder, on a goroutine of its own: the
// newest state wins, and a disk that fails is tried again every second. No method but
// Close and Flush waits for the disk.
type Store struct {
	folder string
	report func(error) // of the first failure of a row; on the store's goroutine

	mu     sync.Mutex
	moved  *sync.Cond
	want   *running.State
	asked  int
	done   int
	failed bool
	ending bool
	ended  chan struct{}
	wake   chan struct{}
}

const (
	ending     = ".json"
	prefix     = "day-"
	retryGap   = time.Second
	folderMode = 0o700
	mostBytes  = 1 << 20
)

// NewStore keeps days in a folder, which is made when it is first needed.
func NewStore(folder string, report func(error)) *Store {
	s := &Store{folder: folder, report: report, ended: make(chan struct{}), wake: make(chan struct{}, 1)}
	s.moved = sync.NewCond(&s.mu)
	go s.run()
	return s
}

// Keep asks for a state to be on the disk; one that is over is taken away.
func (s *Store) Keep(st running.State) {
	st = st.Clone()
	s.mu.Lock()
	if !s.ending {
		s.want = &st
		s.asked++
	}
	s.mu.Unlock()
	s.nudge()
}

func (s *Store) nudge() {
	select {
	case s.wake <- struct{}{}:
	default:
	}
}

// Flush waits until all that was asked for was tried.
func (s *Store) Flush() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for s.done < s.asked && !s.failed && !s.isEnded() {
		s.moved.Wait()
	}
}

// Close ends the store; a day that is on its way stays on the disk.
func (s *Store) Close() {
	s.mu.Lock()
	s.ending = true
	s.mu.Unlock()
	s.nudge()
	<-s.ended
}

func (s *Store) isEnded() bool {
	select {
	case <-s.ended:
		return true
	default:
		return false
	}
}

func (s *Store) run() {
	defer func() {
		close(s.ended)
		s.mu.Lock()
		s.moved.Broadcast()
		s.mu.Unlock()
	}()
	for {
		s.mu.Lock()
		want, asked, ending, idle := s.want, s.asked, s.ending, s.asked == s.done
		s.mu.Unlock()
		switch {
		case !idle:
			err := s.put(want)
			s.mu.Lock()
			news := (err != nil) != s.failed
			s.failed = err != nil
			if err == nil {
				s.done = asked
			}
			s.moved.Broadcast()
			s.mu.Unlock()
			if news && s.report != nil {
				s.report(err)
			}
			if err != nil {
				if ending {
					return
				}
				select {
				case <-time.After(retryGap):
				case <-s.wake:
				}
			}
		case ending:
			return
		default:
			<-s.wake
		}
	}
}

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
