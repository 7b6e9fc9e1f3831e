package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// cutDisk is a disk in memory whose power is cut after some operations. What
// was not flushed may then be there, be half there, read as zeros, or be gone:
// a file's content until its Sync, a name until its folder's. Each change of a
// name is kept or lost for itself, which is worse than any real file system.
type cutDisk struct {
	mu    sync.Mutex
	left  int // operations until the cut
	names map[string]*inode
	solid map[string]*inode // names that are flushed
	loose []change          // changes of names that are not
	held  map[string]bool
}

type inode struct{ now, solid []byte }

// change is that a name came to stand for an inode, or (nil) for none; two
// names when it is a rename.
type change struct {
	folder string
	names  map[string]*inode
}

var errCut = errors.New("the power is cut")

func newCutDisk(operations int) *cutDisk {
	return &cutDisk{left: operations, names: map[string]*inode{}, solid: map[string]*inode{}, held: map[string]bool{}}
}

// step is one operation: done, unless the power is off.
func (d *cutDisk) step(do func() error) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.left <= 0 {
		return errCut
	}
	d.left--
	return do()
}

func (d *cutDisk) off() bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.left <= 0
}

func (d *cutDisk) put(names map[string]*inode) {
	for path, i := range names {
		set(d.names, path, i)
		d.loose = append(d.loose, change{filepath.Dir(path), names})
	}
}

func set(names map[string]*inode, path string, i *inode) {
	if i == nil {
		delete(names, path)
		return
	}
	names[path] = i
}

func (d *cutDisk) makeFolder(string) error { return d.step(func() error { return nil }) }

func (d *cutDisk) list(folder string) (names []string, err error) {
	err = d.step(func() error {
		for path := range d.names {
			if filepath.Dir(path) == folder {
				names = append(names, filepath.Base(path))
			}
		}
		return nil
	})
	return names, err
}

func (d *cutDisk) find(path string) (i *inode, err error) {
	err = d.step(func() error {
		if i = d.names[path]; i == nil {
			return &fs.PathError{Op: "open", Path: path, Err: fs.ErrNotExist}
		}
		return nil
	})
	return i, err
}

func (d *cutDisk) read(path string) ([]byte, error) {
	i, err := d.find(path)
	if err != nil {
		return nil, err
	}
	return append([]byte(nil), i.now...), nil
}

func (d *cutDisk) create(path string) (file, error) {
	i := &inode{}
	err := d.step(func() error {
		if old := d.names[path]; old != nil {
			i = old
			i.now = nil
			return nil
		}
		d.put(map[string]*inode{path: i})
		return nil
	})
	if err != nil {
		return nil, err
	}
	return &cutFile{d, i}, nil
}

func (d *cutDisk) extend(path string) (file, error) {
	i, err := d.find(path)
	if err != nil {
		return nil, err
	}
	return &cutFile{d, i}, nil
}

func (d *cutDisk) same(path string, f file) bool {
	i, err := d.find(path)
	return err == nil && i == f.(*cutFile).i
}

func (d *cutDisk) rename(from, to string) error {
	return d.step(func() error {
		d.put(map[string]*inode{to: d.names[from], from: nil})
		return nil
	})
}

func (d *cutDisk) remove(path string) error {
	return d.step(func() error {
		if d.names[path] == nil {
			return fs.ErrNotExist
		}
		d.put(map[string]*inode{path: nil})
		return nil
	})
}

func (d *cutDisk) syncFolder(path string) error {
	return d.step(func() error {
		var loose []change
		for _, c := range d.loose {
			if c.folder != path {
				loose = append(loose, c)
				continue
			}
			for name, i := range c.names {
				set(d.solid, name, i)
			}
		}
		d.loose = loose
		return nil
	})
}

type cutLock struct {
	d    *cutDisk
	path string
}

func (d *cutDisk) lock(path string) (holder, error) {
	err := d.step(func() error {
		if d.held[path] {
			return errHeld
		}
		d.held[path] = true
		if d.names[path] == nil {
			d.put(map[string]*inode{path: {}})
		}
		return nil
	})
	return cutLock{d, path}, err
}

func (l cutLock) valid() bool { return true }

func (l cutLock) release() {
	_ = l.d.step(func() error {
		delete(l.d.held, l.path)
		l.d.put(map[string]*inode{l.path: nil})
		return nil
	})
}

type cutFile struct {
	d *cutDisk
	i *inode
}

func (f *cutFile) Write(p []byte) (n int, err error) {
	err = f.d.step(func() error {
		f.i.now = append(f.i.now, p...)
		return nil
	})
	if err != nil {
		return 0, err
	}
	return len(p), nil
}

func (f *cutFile) Sync() error {
	return f.d.step(func() error {
		f.i.solid = append([]byte(nil), f.i.now...)
		return nil
	})
}

func (f *cutFile) Close() error { return f.d.step(func() error { return nil }) }

// again is the disk as it may be found when the power is back.
func (d *cutDisk) again(luck *rand.Rand) *cutDisk {
	d.mu.Lock()
	defer d.mu.Unlock()
	n := newCutDisk(1 << 30)
	for path, i := range d.solid {
		n.names[path] = i
	}
	for _, c := range d.loose {
		if luck.IntN(2) == 0 {
			for path, i := range c.names {
				set(n.names, path, i)
			}
		}
	}
	// One content for one inode, whatever names it.
	found := map[*inode]*inode{}
	for path, i := range n.names {
		if found[i] == nil {
			found[i] = &inode{now: i.after(luck)}
		}
		n.names[path] = found[i]
	}
	return n
}

func (i *inode) after(luck *rand.Rand) []byte {
	if !strings.HasPrefix(string(i.now), string(i.solid)) { // emptied and written anew
		if luck.IntN(2) == 0 {
			return append([]byte(nil), i.solid...)
		}
		return append([]byte(nil), i.now[:luck.IntN(len(i.now)+1)]...)
	}
	loose := append([]byte(nil), i.now[len(i.solid):]...)
	loose = loose[:luck.IntN(len(loose)+1)]
	if luck.IntN(2) == 0 {
		clear(loose[luck.IntN(len(loose)+1):]) // blocks that were given but never written
	}
	return append(append([]byte(nil), i.solid...), loose...)
}

// The power is cut after the 1st, 2nd, ... operation of a session until one
// runs through, and each cut leaves the disk in many ways. What Flush said is
// there must be there, or newer; and never anything that is no work.
func TestPowerCut(t *testing.T) {
	t.Parallel()
	const ways, works = 60, 14
	luck := rand.New(rand.NewPCG(8, 1))
	cuts := 0
	for operations := 1; ; operations++ {
		d := newCutDisk(operations)
		s := quick(open(d, "/state"))
		w := s.Write(nil)
		safe, cleared := 0, false
		for i := 1; i <= works && !d.off(); i++ {
			if i%4 == 0 { // a save: the old work may go, the new must come
				w.Clear()
				cleared = true
				_ = w.Flush()
			}
			w.Put(plain(fmt.Sprint("base ", i/4), fmt.Sprint("work ", i)))
			if w.Flush() == nil {
				safe, cleared = i, false
			}
		}
		through := !d.off()
		_ = w.Close(true)
		cuts++
		for range ways {
			all, err := quick(open(d.again(luck), "/state")).Left()
			if err != nil {
				t.Fatalf("cut after %d operations: %v", operations, err)
			}
			n := 0
			for _, l := range all {
				if _, err := fmt.Sscanf(string(l.Text), "work %d", &n); err != nil || l.Step != "step "+string(l.Text) || l.Base.Text != fmt.Sprint("base ", n/4) {
					t.Fatalf("cut after %d operations: offered %+v", operations, l.Work)
				}
			}
			if len(all) > 1 || n < safe && !cleared || n > works {
				t.Fatalf("cut after %d operations: work %d was on the disk, %d journals offer work %d", operations, safe, len(all), n)
			}
		}
		if through {
			break
		}
	}
	if cuts < 40 {
		t.Errorf("only %d cuts: the session is too short to prove much", cuts)
	}
	t.Logf("%d cuts, %d disks found afterwards", cuts, cuts*ways)
}
