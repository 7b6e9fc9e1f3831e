package savefile

import (
	"crypto/sha256"
	"errors"
	"io"
	"os"
	"time"
)

// maxBytes is the largest file that Read takes. A design is a few kilobytes; a
// long ledger of readings a few hundred.
const maxBytes = 1 << 20

// Fingerprint is what a file was when it was last read or written.
type Fingerprint struct {
	Size    int64
	ModTime time.Time
	Hash    [sha256.Size]byte
}

// Same tells whether the content is the same. The time does not count: a file
// that was only touched has not changed.
func (f Fingerprint) Same(o Fingerprint) bool { return f.Size == o.Size && f.Hash == o.Hash }

// PrintOf is the fingerprint of a file that holds a text, but for its time.
func PrintOf(text []byte) Fingerprint {
	return Fingerprint{Size: int64(len(text)), Hash: sha256.Sum256(text)}
}

// Read returns the file's content, refusing more than [maxBytes].
func Read(path string) ([]byte, error) { return ReadAtMost(path, maxBytes) }

// ReadAtMost is [Read] with another limit.
func ReadAtMost(path string, most int64) ([]byte, error) {
	data, _, err := read(path, most)
	return data, err
}

// ReadPrint is [Read] with the file's fingerprint.
func ReadPrint(path string) ([]byte, Fingerprint, error) { return read(path, maxBytes) }

// FingerprintOf reads the file and says what it is now: before saving, compare
// it with what it was at loading.
func FingerprintOf(path string) (Fingerprint, error) {
	_, print, err := read(path, maxBytes)
	return print, err
}

// ReadFrom is [Read] of a stream that has no path of its own; name stands for
// it in messages.
func ReadFrom(name string, r io.Reader) ([]byte, error) {
	data, err := atMost(r, maxBytes)
	if err != nil {
		return nil, &Error{Doing: Reading, Path: name, Err: err}
	}
	return data, nil
}

// patience is how long a disk may take to give a file of a megabyte: a server
// that is gone never answers, and no program can call such a reading back.
const patience = 5 * time.Second

func read(path string, most int64) ([]byte, Fingerprint, error) {
	r, err := within(patience, func() (content, error) { return readPlain(path, most) })
	if err != nil {
		return nil, Fingerprint{}, &Error{Doing: Reading, Path: path, Err: err}
	}
	return r.data, r.print, nil
}

// content is what was read of a file.
type content struct {
	data  []byte
	print Fingerprint
}

// within gives up waiting for a reading; what it was waiting for ends when the
// system lets it.
func within[T any](d time.Duration, do func() (T, error)) (T, error) {
	type result struct {
		is  T
		err error
	}
	done := make(chan result, 1)
	go func() {
		is, err := do()
		done <- result{is, err}
	}()
	late := time.NewTimer(d)
	defer late.Stop()
	select {
	case r := <-done:
		return r.is, r.err
	case <-late.C:
		var none T
		return none, errSilent
	}
}

// readPlain reads a plain file and nothing else: a pipe or a device could keep
// one waiting for ever. It is opened without waiting, and what it is is asked of
// the open file, as its name may mean another a moment later.
func readPlain(path string, most int64) (content, error) {
	wait(path)
	f, err := os.OpenFile(path, os.O_RDONLY|withoutWaiting, 0)
	for range 10 { // Windows opens no file that is saved over just now
		if !shared(err) {
			break
		}
		time.Sleep(20 * time.Millisecond)
		f, err = os.OpenFile(path, os.O_RDONLY|withoutWaiting, 0)
	}
	if err != nil {
		return content{}, err
	}
	info, err := f.Stat()
	if err == nil && !info.Mode().IsRegular() {
		err = notPlain(info.Mode())
	}
	if err != nil {
		return content{}, errors.Join(err, f.Close())
	}
	data, err := atMost(f, most)
	if err := errors.Join(err, f.Close()); err != nil {
		return content{}, err
	}
	return content{data, Fingerprint{int64(len(data)), info.ModTime(), sha256.Sum256(data)}}, nil
}

func atMost(r io.Reader, most int64) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, most+1))
	if err != nil {
		return nil, err
	}
	if int64(len(data)) > most {
		return nil, largeError{most}
	}
	return data, nil
}
