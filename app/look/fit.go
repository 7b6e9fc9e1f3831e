package look

import (
	"strings"

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
		for _, word := range strings.Fields(block) {
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
