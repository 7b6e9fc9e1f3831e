package savefile

import (
	"crypto/sha256"
	"errors"
	"io"
	"io/fs"
	"os"
	"time"
)

// MaxBytes is the largest file that Read takes. A design is a few kilobytes; a
// long ledger of readings a few hundred.
const MaxBytes = 1 << 20

// Fingerprint is what a file was when it was last read or written.
type Fingerprint struct {
	Size    int64
	ModTime time.Time
	Hash    [sha256.Size]byte
}

// Same tells whether the content is the same. The time does not count: a file
// that was only touched has not changed.
func (f Fingerprint) Same(o Fingerprint) bool { return f.Size == o.Size && f.Hash == o.Hash }

// Read returns the file's content, refusing more than [MaxBytes].
func Read(path string) ([]byte, error) {
	data, _, err := read(path)
	return data, err
}

// ReadPrint is [Read] with the file's fingerprint.
func ReadPrint(path string) ([]byte, Fingerprint, error) { return read(path) }

// FingerprintOf reads the file and says what it is now: before saving, compare
// it with what it was at loading.
func FingerprintOf(path string) (Fingerprint, error) {
	_, print, err := read(path)
	return print, err
}

// ReadFrom is [Read] of a stream that has no path of its own; name stands for
// it in messages.
func ReadFrom(name string, r io.Reader) ([]byte, error) {
	data, err := atMost(r)
	if err != nil {
		return nil, &Error{Doing: "read", Path: name, Err: err}
	}
	return data, nil
}

func read(path string) ([]byte, Fingerprint, error) {
	fail := func(err error) ([]byte, Fingerprint, error) {
		return nil, Fingerprint{}, &Error{Doing: "read", Path: path, Err: err}
	}
	info, err := os.Stat(path)
	if err != nil {
		return fail(err)
	}
	// A pipe is fine (a shell's <(…) is one), a folder or a disk is not.
	if m := info.Mode(); !m.IsRegular() && m&(fs.ModeNamedPipe|fs.ModeCharDevice) == 0 {
		return fail(notPlain(m))
	}
	f, err := os.Open(path)
	if err != nil {
		return fail(err)
	}
	data, err := atMost(f)
	if err := errors.Join(err, f.Close()); err != nil {
		return fail(err)
	}
	return data, Fingerprint{int64(len(data)), info.ModTime(), sha256.Sum256(data)}, nil
}

func atMost(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, err
	}
	if len(data) > MaxBytes {
		return nil, errLarge
	}
	return data, nil
}
