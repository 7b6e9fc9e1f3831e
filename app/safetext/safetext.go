// Package safetext makes text that somebody else wrote safe to show: names in a
// design, a file's name. A terminal obeys control characters, a spreadsheet runs what
// looks like a formula, and XML holds no control characters at all.
//
// Any text comes in, the same text with what could do harm made visible or harmless
// goes out. It must not know where the text is from.
package safetext

import (
	"strings"
	"unicode"
)

// Text keeps line ends and tabs; every other character that a terminal would
// obey becomes the sign for one that can't be shown.
func Text(s string) string { return clean(s, "\n\t") }

// Line is Text on one line: for a title, a label, a message.
func Line(s string) string { return clean(s, "") }

// Cell is a cell of a CSV file that no spreadsheet takes for a formula. What a
// program reads may begin with an apostrophe then.
func Cell(s string) string {
	s = Text(s)
	if t := strings.TrimLeft(s, " \t\n"); t != "" && strings.ContainsRune("=+-@", rune(t[0])) {
		return "'" + s
	}
	return s
}

func clean(s, keep string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case strings.ContainsRune(keep, r):
			return r
		case r == '\n' || r == '\t' || r == '\r':
			return ' '
		case unicode.IsControl(r), r == '\u2028', r == '\u2029',
			r >= '\u202a' && r <= '\u202e', r >= '\u2066' && r <= '\u2069': // turn the line round
			return unicode.ReplacementChar
		}
		return r
	}, s)
}
