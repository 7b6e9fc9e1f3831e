package schema

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// Digits that make a number. A person or a lever sets at most tidyDigits; when
// a number needs more than dustDigits but lies within dustDigits' precision of
// one with at most tidyDigits, the rest is the dust of binary arithmetic.
const (
	dustDigits = 12
	tidyDigits = 9
)

// FormatNumber writes a number short and plain: 0.55, 66.5, 60.
func FormatNumber(x float64) string {
	if x == 0 {
		return "0" // also for the negative zero
	}
	if math.IsNaN(x) {
		return "nan"
	}
	if math.IsInf(x, 0) {
		return map[bool]string{true: "inf", false: "-inf"}[x > 0]
	}
	s := plain(x)
	if digits(s) > dustDigits {
		r, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', dustDigits-1, 64), 64)
		if t := plain(r); err == nil && digits(t) <= tidyDigits {
			return t
		}
	}
	return s
}

// plain is the shortest text that reads back as x, with an exponent only
// where zeros would fill a line.
func plain(x float64) string {
	if a := math.Abs(x); a < 1e-6 || a >= 1e15 {
		return strconv.FormatFloat(x, 'e', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// digits counts the significant digits of a plain number.
func digits(s string) int {
	n, zeros, point := 0, 0, false
	for i := 0; i < len(s) && s[i] != 'e'; i++ {
		switch c := s[i]; {
		case c == '.':
			point = true
		case c == '0' && n > 0:
			zeros++
			n++
		case c >= '1' && c <= '9':
			zeros = 0
			n++
		}
	}
	if point {
		return n
	}
	return n - zeros
}

// sameNumber tells whether two numbers would be written alike.
func sameNumber(a, b float64) bool {
	if a == b {
		return true
	}
	// Far apart is the usual case and must stay cheap.
	if math.Abs(a-b) > 1e-9*math.Max(math.Abs(a), math.Abs(b)) {
		return false
	}
	return FormatNumber(a) == FormatNumber(b)
}

// Quote writes text as a one-line TOML string.
func Quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		writeRune(&b, r)
	}
	b.WriteByte('"')
	return b.String()
}

// QuoteLines writes text with line breaks as a TOML string over several lines.
func QuoteLines(s string) string {
	var b strings.Builder
	b.WriteString("\"\"\"\n")
	for _, r := range s {
		if r == '\n' {
			b.WriteByte('\n')
		} else {
			writeRune(&b, r) // escapes every quote: no run of three can arise
		}
	}
	b.WriteString(`"""`)
	return b.String()
}

func writeRune(b *strings.Builder, r rune) {
	switch {
	case r == '"' || r == '\\':
		b.WriteByte('\\')
		b.WriteRune(r)
	case r == '\n':
		b.WriteString(`\n`)
	case r == '\t':
		b.WriteString(`\t`)
	case r == '\r':
		b.WriteString(`\r`)
	case r < 0x20 || r >= 0x7f && r < 0xa0 || r == 0xfeff || r == utf8.RuneError:
		fmt.Fprintf(b, `\u%04X`, r)
	default:
		b.WriteRune(r)
	}
}

// FormatTime writes a moment with its offset, as TOML wants it.
func FormatTime(t time.Time) string {
	if _, off := t.Zone(); off%60 != 0 {
		t = t.UTC() // such offsets (before railways) cannot be written
	}
	return t.Format(time.RFC3339Nano)
}

// bareKey tells whether a key needs no quotes.
func bareKey(s string) bool {
	for _, r := range s {
		if r != '_' && r != '-' && (r < '0' || r > '9') && (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') {
			return false
		}
	}
	return s != ""
}

func FormatKey(s string) string {
	if bareKey(s) {
		return s
	}
	return Quote(s)
}
