package schema

// Join is a path with one more name.
func Join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// Short keeps a key in a message printable and on one line.
func Short(path string) string {
	if q := ShortQuote(path); len(q) != len(path)+2 {
		return q
	}
	return path
}

// Distance is the number of single-character edits between two words.
func Distance(a, b string) int {
	if len(a) > 200 || len(b) > 200 {
		return 200
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		diag := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := diag
			if a[i-1] != b[j-1] {
				cost++
			}
			diag = row[j]
			row[j] = min(cost, row[j]+1, row[j-1]+1)
		}
	}
	return row[len(b)]
}
