package helptext

import (
	"strings"
	"unicode/utf8"
)

// Wrap breaks a cell at spaces into lines of at most width letters.
func Wrap(cell string, width int) []string {
	lines := []string{""}
	for _, word := range strings.Fields(cell) {
		last := &lines[len(lines)-1]
		switch {
		case *last == "":
			*last = word
		case utf8.RuneCountInString(*last)+1+utf8.RuneCountInString(word) <= width:
			*last += " " + word
		default:
			lines = append(lines, word)
		}
	}
	return lines
}

// Grid is rows in aligned columns, two spaces apart. Columns that hold
// numbers below the first row lean right.
func Grid(rows [][]string) string { return inColumns(rows, 1) }

// Columns is Grid without a head.
func Columns(rows [][]string) string { return inColumns(rows, 0) }

func inColumns(rows [][]string, heads int) string {
	var out strings.Builder
	var width []int
	var right []bool
	for r, row := range rows {
		for i, cell := range row {
			if i == len(width) {
				width, right = append(width, 0), append(right, true)
			}
			width[i] = max(width[i], utf8.RuneCountInString(cell))
			if first, _ := utf8.DecodeRuneInString(cell); r >= heads && cell != "" && !strings.ContainsRune("-−0123456789", first) {
				right[i] = false
			}
		}
	}
	for _, row := range rows {
		var line strings.Builder
		for i, cell := range row {
			gap := strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell))
			if i > 0 {
				line.WriteString("  ")
			}
			if right[i] {
				line.WriteString(gap + cell)
			} else {
				line.WriteString(cell + gap)
			}
		}
		out.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
	return out.String()
}

// Pad fills a label to its column, [Lean] a number; fmt counts bytes where a person
// counts letters.
func Pad(label string, width int) string {
	return label + strings.Repeat(" ", max(1, width-utf8.RuneCountInString(label)))
}

// Lean puts a number at the right of its column.
func Lean(number string, width int) string {
	return strings.Repeat(" ", max(0, width-utf8.RuneCountInString(number))) + number
}
