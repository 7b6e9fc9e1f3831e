// Package logs reads the export of any logger. In come the bytes of a CSV, and
// how the person says that they are to be read; out go readings for a design file,
// with what was guessed, skipped and missing. It must not know what the readings
// tell of the beer (package follow does), nor where the bytes came from.
package logs

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strings"
	"time"
	"unicode/utf16"
	"unicode/utf8"

	"skep/calc/design"
	"skep/calc/message"
)

// ColumnKind is what a column of a log holds.
type ColumnKind string

// The kinds of column.
const (
	Ignored     ColumnKind = "ignored"
	When        ColumnKind = "date-and-time"
	Date        ColumnKind = "date"
	TimeOfDay   ColumnKind = "time-of-day"
	LogGravity  ColumnKind = "gravity"
	Temperature ColumnKind = "temperature"
)

// Column is one column of a log, as guessed or as a person says.
type Column struct {
	Name string // of the header; empty without one
	Kind ColumnKind
	Unit string // gravity: SG, points, °P, °Bx; temperature: °C, °F; else empty
	// Layout is how dates read, as package time has it, or unix-s, unix-ms, serial
	// (days since 30 December 1899, as spreadsheets count).
	Layout string
	Sample string // the first value
}

// Guess is how a log will be read. It is shown before anything is taken; each
// of its fields may be changed.
type Guess struct {
	Delimiter    rune
	DecimalComma bool
	Header       bool // the first row names the columns
	Columns      []Column
	// Doubts are what could as well be meant otherwise, in plain English.
	Doubts []string
	Rows   int // rows of data
}

// Log is what was read.
type Log struct {
	Guess     Guess
	Readings  []design.Reading // gravity and beer-temperature, thinned, in order of time
	Rows      int              // rows of data
	Taken     int              // rows of which something was used
	Skipped   int
	Skips     []Skip // the first of them
	Spikes    int    // gravities far off their neighbours, left out
	Gaps      []Gap
	From, To  time.Time
	ThinHours float64 // readings are the medians of so many hours; 0: every one
}

// Skip is a row that could not be used.
type Skip struct {
	Line int
	Why  message.Message
}

// Gap is a stretch without any reading.
type Gap struct{ From, To time.Time }

const (
	mostLogBytes  = 64 << 20
	mostLineBytes = 64 << 10 // more is no row of readings, but something else that was copied
	mostCellBytes = 256      // of a cell is looked at: no date and no number is longer
	mostColumns   = 64
	mostSkips     = 20
	guessRows     = 200 // rows looked at, from all over the log
)

// text is the log as UTF-8: byte order marks are taken off, UTF-16 is turned,
// anything else that is no UTF-8 is taken byte by byte as Latin-1.
func text(src []byte) []byte {
	switch {
	case bytes.HasPrefix(src, []byte{0xEF, 0xBB, 0xBF}):
		src = src[3:]
	case bytes.HasPrefix(src, []byte{0xFF, 0xFE}):
		return wide(src[2:], func(b []byte) uint16 { return uint16(b[0]) | uint16(b[1])<<8 })
	case bytes.HasPrefix(src, []byte{0xFE, 0xFF}):
		return wide(src[2:], func(b []byte) uint16 { return uint16(b[1]) | uint16(b[0])<<8 })
	}
	if utf8.Valid(src) {
		return src
	}
	out := make([]rune, len(src))
	for i, b := range src {
		out[i] = rune(b)
	}
	return []byte(string(out))
}

func wide(src []byte, unit func([]byte) uint16) []byte {
	units := make([]uint16, 0, len(src)/2)
	for i := 0; i+1 < len(src); i += 2 {
		units = append(units, unit(src[i:]))
	}
	return []byte(string(utf16.Decode(units)))
}

// row is one row of a log and where it stands.
type row struct {
	line  int
	cells []string
}

// rows splits a log. Lines that are no CSV are skipped and counted.
func rows(src []byte, delimiter rune) ([]row, []Skip, error) {
	r := csv.NewReader(bytes.NewReader(src))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes, r.TrimLeadingSpace = delimiter, -1, true, delimiter != '\t'
	var out []row
	var bad []Skip
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return out, bad, nil
		}
		if err != nil {
			var p *csv.ParseError
			if !errors.As(err, &p) {
				return nil, nil, err
			}
			bad = append(bad, Skip{p.Line, message.New("a text in quotes is not closed, or goes on behind its quotes")})
			continue
		}
		line, _ := r.FieldPos(0)
		if len(cells) > mostColumns {
			cells = cells[:mostColumns]
		}
		blank := true
		for i, c := range cells {
			if len(c) > mostCellBytes {
				c = strings.ToValidUTF8(c[:mostCellBytes], "")
			}
			cells[i] = strings.TrimSpace(c)
			blank = blank && cells[i] == ""
		}
		if !blank {
			out = append(out, row{line, cells})
		}
	}
}

// guessLog looks at a logger's export and says how it would be read. Times
// without a zone are of the given place (nil: UTC).
func guessLog(src []byte, zone *time.Location) (Guess, error) {
	src, err := checkLog(src)
	if err != nil {
		return Guess{}, err
	}
	g := Guess{Delimiter: guessDelimiter(src)}
	all, _, err := rows(src, g.Delimiter)
	if err != nil {
		return g, message.Fault("the log can't be split into columns: %w", err)
	}
	if len(all) == 0 {
		return g, message.NewError("the log holds no rows")
	}
	return g, g.columns(all, place(zone))
}

func place(zone *time.Location) *time.Location {
	if zone == nil {
		return time.UTC
	}
	return zone
}

func checkLog(src []byte) ([]byte, error) {
	if len(src) > mostLogBytes {
		return nil, message.NewError("the log is {size} MB, more than the {most} that are read: export fewer days", len(src)>>20, mostLogBytes>>20)
	}
	src = text(src)
	if bytes.IndexByte(src, 0) >= 0 {
		return nil, message.NewError("the log holds bytes that are no text: export it as CSV")
	}
	if len(bytes.TrimSpace(src)) == 0 {
		return nil, message.NewError("the log is empty")
	}
	line := 0
	for l := range bytes.Lines(src) {
		line++
		if len(l) > mostLineBytes {
			return nil, message.NewError("line {line} is {size} KB long, and no row of readings is longer than {most}: copy or export the rows of the log alone", line, len(l)>>10, mostLineBytes>>10)
		}
	}
	return src, nil
}

// ReadLog guesses and reads in one.
func ReadLog(src []byte, zone *time.Location) (Log, error) {
	g, err := guessLog(src, zone)
	if err != nil {
		return Log{Guess: g}, err
	}
	return g.Read(src, zone)
}
