package look

import (
	"strings"
	"unicode/utf8"

	"fyne.io/fyne/v2"
)

// Widths measures texts of a size, for [Shortened] and [Wrapped].
func Widths(size float32, bold bool) func(string) float32 {
	return func(text string) float32 {
		return fyne.MeasureText(text, size, fyne.TextStyle{Bold: bold}).Width
	}
}

// Shortened is a text that fits a width, with an ellipsis where it is cut.
func Shortened(text string, width float32, measure func(string) float32) string {
	short := text
	for runes := []rune(text); len(runes) > 1 && measure(short) > width; {
		runes = runes[:len(runes)-1]
		short = strings.TrimRight(string(runes), " ,;:") + "…"
	}
	return short
}

// Wrapped breaks a text into lines at its spaces, and a word too long for a line where it
// must be. What stands beyond so many lines is cut off the last; 0: as many as there are.
func Wrapped(text string, width float32, most int, measure func(string) float32) []string {
	if text == "" {
		return nil
	}
	space := measure("a a") - measure("aa")
	var lines []string
	for _, block := range strings.Split(text, "\n") {
		line, used := "", float32(0)
		for _, word := range pieces(block) {
			w := measure(word)
			if line != "" && used+space+w > width {
				lines = append(lines, line)
				line, used = "", 0
			}
			for r := []rune(word); line == "" && w > width && len(r) > 1; {
				n := len(r)
				for n > 1 && measure(string(r[:n])) > width {
					n--
				}
				lines = append(lines, string(r[:n]))
				r = r[n:]
				word = string(r)
				w = measure(word)
			}
			if line == "" {
				line, used = word, w
			} else {
				line, used = line+" "+word, used+space+w
			}
		}
		lines = append(lines, line)
	}
	if most > 0 && len(lines) > most {
		lines[most-1] = Shortened(strings.Join(lines[most-1:], " "), width, measure)
		lines = lines[:most]
	}
	return lines
}

// pieces are what a line of text may be broken between: its words, a number with the unit
// behind it.
func pieces(text string) []string {
	words := strings.Fields(text)
	pieces := words[:0]
	for _, word := range words {
		if n := len(pieces); n > 0 && holds(pieces[n-1], word) {
			pieces[n-1] += " " + word
		} else {
			pieces = append(pieces, word)
		}
	}
	return pieces
}

// holds tells whether a word ends in a number and the next may be its unit. All units that
// are shown are short, and another short word kept beside a number does no harm.
func holds(word, next string) bool {
	last := word[len(word)-1]
	return '0' <= last && last <= '9' && utf8.RuneCountInString(strings.TrimRight(next, ".,;:)")) <= 3
}
