package journal

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"skep/app/savefile"
)

// A record is one line of header, a line of JSON and the text:
//
//	skep-journal 1 SEQUENCE META-BYTES TEXT-BYTES SHA256
//	{"kind":"work",...}
//	TEXT
//
// The sum covers the numbers, the JSON and the text. A person can read a
// journal, and in need cut the design out by hand.
const (
	mark       = "skep-journal 1 "
	mostHeader = 200     // bytes of a header line
	mostPart   = 8 << 20 // bytes of a meta or a text: a design has at most 1 MiB
)

const (
	kindBase = "base"
	kindWork = "work"
)

// meta is what a record says about its text.
type meta struct {
	Kind string `json:"kind"`
	When int64  `json:"when_ms"` // since 1970: a number, as any clock can be written so
	Step string `json:"step,omitempty"`

	// Of a base only.
	Run     uint64 `json:"run,omitempty"` // counts the journals, oldest lowest
	PID     int    `json:"pid,omitempty"` // for a person who looks
	Path    string `json:"path,omitempty"`
	RawPath []byte `json:"raw_path,omitempty"` // when the path is no UTF-8
	Fresh   bool   `json:"fresh,omitempty"`
	OnDisk  bool   `json:"on_disk,omitempty"`
	Size    int64  `json:"size,omitempty"`
	ModTime int64  `json:"mod_time_ns,omitempty"`
	Hash    string `json:"hash,omitempty"`
}

type record struct {
	seq  uint64
	meta meta
	text []byte
}

func (r record) encode() ([]byte, error) {
	m, err := json.Marshal(r.meta)
	if err != nil {
		return nil, err
	}
	if len(m) > mostPart || len(r.text) > mostPart {
		return nil, fmt.Errorf("a text of %d bytes is no design", len(r.text))
	}
	numbers := fmt.Sprintf("%d %d %d", r.seq, len(m), len(r.text))
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s%s %s\n", mark, numbers, sum(numbers, m, r.text))
	b.Write(m)
	b.WriteByte('\n')
	b.Write(r.text)
	b.WriteByte('\n')
	return b.Bytes(), nil
}

func sum(numbers string, m, text []byte) string {
	h := sha256.New()
	h.Write([]byte(numbers))
	h.Write([]byte{'\n'})
	h.Write(m)
	h.Write([]byte{'\n'})
	h.Write(text)
	return hex.EncodeToString(h.Sum(nil))
}

// decode reads records up to the first that is not whole.
func decode(data []byte) (all []record) {
	for len(data) > 0 {
		r, size, ok := decodeOne(data)
		if !ok || len(all) > 0 && r.seq <= all[len(all)-1].seq {
			break
		}
		all = append(all, r)
		data = data[size:]
	}
	return all
}

func decodeOne(data []byte) (r record, size int, ok bool) {
	end := bytes.IndexByte(data[:min(len(data), mostHeader)], '\n')
	if end < 0 || !bytes.HasPrefix(data, []byte(mark)) {
		return r, 0, false
	}
	var m, n int
	var want string
	header := string(data[len(mark):end])
	if k, err := fmt.Sscanf(header, "%d %d %d %s", &r.seq, &m, &n, &want); k != 4 || err != nil {
		return r, 0, false
	}
	numbers, _, _ := cutLast(header)
	rest := data[end+1:]
	if m < 0 || m > mostPart || n < 0 || n > mostPart || len(rest) < m+n+2 || rest[m] != '\n' || rest[m+1+n] != '\n' {
		return r, 0, false
	}
	r.text = bytes.Clone(rest[m+1 : m+1+n])
	if want != sum(numbers, rest[:m], r.text) || json.Unmarshal(rest[:m], &r.meta) != nil {
		return r, 0, false
	}
	return r, end + 1 + m + n + 2, true
}

func cutLast(s string) (before, after string, found bool) {
	i := strings.LastIndexByte(s, ' ')
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+1:], true
}

// baseMeta puts a base into a record's meta.
func baseMeta(b Base) meta {
	m := meta{Kind: kindBase, Path: b.Path, Fresh: b.Fresh, OnDisk: b.OnDisk}
	if !utf8.ValidString(b.Path) {
		m.RawPath, m.Path = []byte(b.Path), ""
	}
	if b.OnDisk {
		m.Size, m.ModTime = b.Print.Size, b.Print.ModTime.UnixNano()
		m.Hash = hex.EncodeToString(b.Print.Hash[:])
	}
	return m
}

// base is baseMeta backwards; false when it is no base.
func (r record) base() (Base, bool) {
	m := r.meta
	b := Base{Path: m.Path, Fresh: m.Fresh, OnDisk: m.OnDisk, Text: string(r.text)}
	if m.RawPath != nil {
		b.Path = string(m.RawPath)
	}
	if m.OnDisk {
		b.Print = savefile.Fingerprint{Size: m.Size, ModTime: time.Unix(0, m.ModTime)}
		hash, err := hex.DecodeString(m.Hash)
		if err != nil || len(hash) != len(b.Print.Hash) {
			return Base{}, false
		}
		copy(b.Print.Hash[:], hash)
	}
	return b, m.Kind == kindBase
}

// newest is the latest work that any of some journals' contents holds, and the
// journal's number; false when none holds any.
func newest(contents ...[]byte) (w Work, run uint64, ok bool) {
	var seq uint64
	for _, data := range contents {
		all := decode(data)
		if len(all) < 2 {
			continue
		}
		base, based := all[0].base()
		last := all[len(all)-1]
		if based && last.meta.Kind == kindWork && last.seq > seq {
			seq, run, ok = last.seq, all[0].meta.Run, true
			w = Work{Base: base, Step: last.meta.Step, Text: last.text, When: time.UnixMilli(last.meta.When)}
		}
	}
	return w, run, ok
}
