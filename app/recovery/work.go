package recovery

import (
	"encoding/hex"
	"encoding/json"
	"time"
	"unicode/utf8"

	"skep/app/savefile"
	"skep/calc/message"
)

// Base is what unsaved work started from: the file as it was read or last
// saved, or the text of a design that has no file yet.
type Base struct {
	Path   string               // absolute; empty: no file yet
	Print  savefile.Fingerprint // of the file, when OnDisk
	OnDisk bool                 // the file was read or written by us
	Fresh  bool                 // never saved, so unsaved even when unchanged
	Text   string               // as read, comments and all
	// Saving is what the file is once a save that has begun is done; nil where none has.
	Saving *savefile.Fingerprint
}

// Entry is unsaved work to be kept.
type Entry struct {
	Base     Base
	Step     string // the name of the last change, in Language
	Language string // of Step, as a tag of BCP 47; empty: not known
	// Text gives the whole design as text. It is called on the writer's own
	// goroutine, so it must not look at what the window goes on changing.
	Text func() ([]byte, error)
}

// Work is unsaved work as it was read back.
type Work struct {
	Base           Base
	Step, Language string
	Text           []byte
	When           time.Time // of the last change, by the clock of that moment
}

// mostBytes bounds a recovery file: two designs of a megabyte, each character of
// which JSON may write as six.
const mostBytes = 16 << 20

// version is that of the recovery file's format.
const version = 1

// stored is a recovery file. In need a person can read it, and cut the design
// out by hand.
type stored struct {
	Version int    `json:"version"`
	When    int64  `json:"when_ms"` // since 1970: any clock can be written so
	Step    string `json:"step,omitempty"`
	// Of the step's name; an older recovery file has none.
	Language string `json:"language,omitempty"`
	Path     string `json:"path,omitempty"`
	RawPath  []byte `json:"raw_path,omitempty"` // when the path is no UTF-8
	Fresh    bool   `json:"fresh,omitempty"`
	OnDisk   bool   `json:"on_disk,omitempty"`
	Size     int64  `json:"size,omitempty"` // of the file then, and its SHA-256
	Hash     string `json:"hash,omitempty"`
	// What the file is once a save that had begun is done.
	SavingSize int64  `json:"saving_size,omitempty"`
	SavingHash string `json:"saving_hash,omitempty"`
	Design     string `json:"design"` // the unsaved work
	Base       string `json:"base"`   // what it started from
}

func (w Work) encode() ([]byte, error) {
	b := w.Base
	s := stored{Version: version, When: w.When.UnixMilli(), Step: w.Step, Language: w.Language, Path: b.Path, Fresh: b.Fresh, OnDisk: b.OnDisk, Design: string(w.Text), Base: b.Text}
	if !utf8.ValidString(b.Path) {
		s.Path, s.RawPath = "", []byte(b.Path)
	}
	if b.OnDisk {
		s.Size, s.Hash = written(b.Print)
	}
	if b.Saving != nil {
		s.SavingSize, s.SavingHash = written(*b.Saving)
	}
	return json.MarshalIndent(s, "", " ")
}

func decode(data []byte) (w Work, err error) {
	var s stored
	if err := json.Unmarshal(data, &s); err != nil {
		return w, message.NewError("it is damaged")
	}
	if s.Version != version {
		return w, message.NewError("another version of Skep wrote it")
	}
	if s.RawPath != nil {
		s.Path = string(s.RawPath)
	}
	print, ok := read(s.Size, s.Hash)
	if !ok && (s.OnDisk || s.Hash != "") {
		return w, message.NewError("it is damaged")
	}
	var saving *savefile.Fingerprint
	if next, ok := read(s.SavingSize, s.SavingHash); ok {
		saving = &next
	}
	return Work{
		Base: Base{Path: s.Path, Print: print, OnDisk: s.OnDisk, Fresh: s.Fresh, Text: s.Base, Saving: saving},
		Step: s.Step, Language: s.Language, Text: []byte(s.Design), When: time.UnixMilli(s.When),
	}, nil
}

// written is a fingerprint as the recovery file has it, and read takes it back.
func written(f savefile.Fingerprint) (size int64, hash string) {
	return f.Size, hex.EncodeToString(f.Hash[:])
}

func read(size int64, hash string) (f savefile.Fingerprint, ok bool) {
	bytes, err := hex.DecodeString(hash)
	ok = err == nil && len(bytes) == len(f.Hash)
	copy(f.Hash[:], bytes)
	f.Size = size
	return f, ok
}
