package file

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"skep/calc/message"
)

// Limits on a source, checked before anything else looks at it: the decoder
// recurses into brackets and walks dotted keys from their root, so that a small
// hostile file could otherwise take all memory or many minutes.
const (
	sizeLimit  = 1 << 20 // bytes; a long brewing diary in notes fits many times
	depthLimit = 16      // brackets within brackets, and parts of a key
)

// limits returns the offset and the reason for which a source is refused
// unread; empty: it is read.
func limits(src string) (at int, reason message.Message) {
	if len(src) > sizeLimit {
		return 0, message.New("the file has {count} bytes, a design has at most {most}", len(src), sizeLimit)
	}
	if !utf8.ValidString(src) {
		for i, r := range src {
			if r == utf8.RuneError && !strings.HasPrefix(src[i:], "\uFFFD") {
				return i, message.New("byte {byte} is not UTF-8, expected a text file in UTF-8", fmt.Sprintf("0x%02X", src[i]))
			}
		}
	}
	depth, dots := 0, 0
	for i := 0; i < len(src); i++ {
		switch src[i] {
		case '#':
			for i+1 < len(src) && src[i+1] != '\n' {
				i++
			}
		case '"', '\'':
			i = skipString(src, i) - 1
		case '[', '{':
			depth++
			dots = 0
		case ']', '}':
			depth--
		case '.':
			dots++
		case ',', '=':
			dots = 0
		case '\n':
			dots = 0
		}
		if depth > depthLimit || dots >= depthLimit {
			return i, message.New("nested deeper than {most} levels", depthLimit)
		}
	}
	return 0, message.Message{}
}

// skipString returns the offset behind a string. In a source that is invalid it
// may stop short or run on, but then the decoder stops before it too.
func skipString(src string, i int) int {
	q := src[i]
	long := strings.HasPrefix(src[i:], strings.Repeat(string(q), 3))
	step := 1
	if long {
		step = 3
	}
	for i += step; i < len(src); i++ {
		switch {
		case src[i] == '\\' && q == '"':
			i++
		case src[i] == '\n' && !long:
			return i
		case src[i] != q:
		case !long:
			return i + 1
		case strings.HasPrefix(src[i:], src[i:i+1]+src[i:i+1]+src[i:i+1]):
			i += 3
			for n := 0; n < 2 && i < len(src) && src[i] == q; n++ {
				i++
			}
			return i
		}
	}
	return len(src)
}
