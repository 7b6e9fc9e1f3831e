package journal

import (
	"errors"
	"sync"
)

// faultyDisk is the real disk, but some of its operations fail. Every operation
// that can fail counts, those on files too.
type faultyDisk struct {
	osDisk
	mu    sync.Mutex
	first int // the first operation that fails, from 1
	many  int // how many fail in a row
	err   error
	half  bool // a failing write has first written half
	quiet bool // a failing write says no error, only fewer bytes

	done   int
	failed []string
}

func (d *faultyDisk) step(name string) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.done++
	if d.done >= d.first && d.done < d.first+d.many {
		d.failed = append(d.failed, name)
		return d.err
	}
	return nil
}

func (d *faultyDisk) failures() []string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.failed
}

// mend ends the failures.
func (d *faultyDisk) mend() {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.many = 0
}

func (d *faultyDisk) makeFolder(p string) error {
	return errors.Join(d.step("make folder"), d.osDisk.makeFolder(p))
}

func (d *faultyDisk) list(p string) ([]string, error) {
	if err := d.step("list"); err != nil {
		return nil, err
	}
	return d.osDisk.list(p)
}

func (d *faultyDisk) read(p string) ([]byte, error) {
	if err := d.step("read"); err != nil {
		return nil, err
	}
	return d.osDisk.read(p)
}

func (d *faultyDisk) create(p string) (file, error) {
	return d.opened("create", p, d.osDisk.create)
}

func (d *faultyDisk) extend(p string) (file, error) {
	return d.opened("extend", p, d.osDisk.extend)
}

func (d *faultyDisk) opened(name, p string, open func(string) (file, error)) (file, error) {
	if err := d.step(name); err != nil {
		return nil, err
	}
	f, err := open(p)
	if err != nil {
		return nil, err
	}
	return &faultyFile{f, d}, nil
}

func (d *faultyDisk) same(p string, f file) bool { return d.osDisk.same(p, f.(*faultyFile).file) }

func (d *faultyDisk) rename(from, to string) error {
	if err := d.step("rename"); err != nil {
		return err
	}
	return d.osDisk.rename(from, to)
}

func (d *faultyDisk) remove(p string) error {
	if err := d.step("remove"); err != nil {
		return err
	}
	return d.osDisk.remove(p)
}

func (d *faultyDisk) syncFolder(p string) error {
	if err := d.step("sync folder"); err != nil {
		return err
	}
	return d.osDisk.syncFolder(p)
}

func (d *faultyDisk) lock(p string) (holder, error) {
	if err := d.step("lock"); err != nil {
		return nil, err
	}
	return d.osDisk.lock(p)
}

type faultyFile struct {
	file
	d *faultyDisk
}

func (f *faultyFile) Write(p []byte) (int, error) {
	if err := f.d.step("write"); err != nil {
		n := 0
		if f.d.half {
			n, _ = f.file.Write(p[:len(p)/2])
		}
		if f.d.quiet {
			err = nil
		}
		return n, err
	}
	return f.file.Write(p)
}

func (f *faultyFile) Sync() error {
	if err := f.d.step("sync"); err != nil {
		return err
	}
	return f.file.Sync()
}

func (f *faultyFile) Close() error {
	return errors.Join(f.d.step("close"), f.file.Close())
}
