package logs

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"time"

	"skep/calc/message"
)

// guessDelimiter is the separator that splits the first lines most evenly.
func guessDelimiter(src []byte) rune {
	lines := bytes.SplitN(src, []byte("\n"), 21)
	if len(lines) > 20 {
		lines = lines[:20]
	}
	best, most := ',', 0
	for _, d := range []rune{';', '\t', ',', '|'} { // a comma may be decimal, a semicolon may not
		counts := map[int]int{}
		top, topN := 0, 0
		for _, l := range lines {
			if n := count(l, byte(d)); n > 0 {
				counts[n]++
				if counts[n] > topN || counts[n] == topN && n > top {
					top, topN = n, counts[n]
				}
			}
		}
		if topN*10+min(top, 9) > most && topN*2 > len(lines)/2 {
			best, most = d, topN*10+min(top, 9)
		}
	}
	return best
}

// count is how often a byte stands outside quotes.
func count(line []byte, d byte) int {
	n, quoted := 0, false
	for _, b := range line {
		switch {
		case b == '"':
			quoted = !quoted
		case b == d && !quoted:
			n++
		}
	}
	return n
}

// sampledColumn is a column by a sample of its values.
type sampledColumn struct {
	values  []string
	numbers []float64
}

// number reads a number: point or comma for decimals, blanks and apostrophes
// between thousands, a unit behind.
func number(s string, comma bool) (float64, bool) {
	s = strings.TrimSpace(s)
	end := strings.LastIndexAny(s, "0123456789")
	if end < 0 {
		return 0, false
	}
	for _, r := range s[end+1:] {
		if !strings.ContainsRune(" °ºCFPpBxrixSGsg%", r) {
			return 0, false
		}
	}
	s = s[:end+1]
	if comma {
		s = strings.ReplaceAll(s, ".", "")
		s = strings.Replace(s, ",", ".", 1)
	} else if strings.Contains(s, ",") {
		return 0, false
	}
	v, err := parseFloat(s)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, false
	}
	return v, true
}

// columns guesses the header and every column.
func (g *Guess) columns(all []row, zone *time.Location) error {
	width := 0
	for _, r := range all[:min(len(all), guessRows)] {
		width = max(width, len(r.cells))
	}
	data := all
	g.Header = isHeader(all[0].cells) && len(all) > 1
	if g.Header {
		data = all[1:]
	}
	g.Rows = len(data)
	sample := thinRows(data, guessRows)
	cols := make([]sampledColumn, width)
	for _, r := range sample {
		for i, c := range r.cells {
			if i < width && c != "" {
				cols[i].values = append(cols[i].values, c)
			}
		}
	}
	g.decimals(cols)
	g.Columns = make([]Column, width)
	for i := range cols {
		c := &g.Columns[i]
		c.Kind = Ignored
		if g.Header && i < len(all[0].cells) {
			c.Name = all[0].cells[i]
		}
		if len(cols[i].values) > 0 {
			c.Sample = cols[i].values[0]
		}
		for _, v := range cols[i].values {
			if x, ok := number(v, g.DecimalComma); ok {
				cols[i].numbers = append(cols[i].numbers, x)
			}
		}
	}
	g.times(cols, zone)
	g.gravities(cols)
	g.temperatures(cols)
	return g.complete()
}

func (g *Guess) complete() error {
	has := func(k ColumnKind) bool {
		return slices.ContainsFunc(g.Columns, func(c Column) bool { return c.Kind == k })
	}
	switch {
	case !has(When) && !has(Date):
		return message.NewError("no column of the log reads as dates: say which one it is, and how it reads")
	case !has(LogGravity) && !has(Temperature):
		return message.NewError("no column of the log reads as gravity or temperature: say which one it is, and its unit")
	}
	return nil
}

// isHeader: no cell of it is a number or starts with a digit.
func isHeader(cells []string) bool {
	words := 0
	for _, c := range cells {
		if c == "" {
			continue
		}
		if c[0] >= '0' && c[0] <= '9' || c[0] == '-' {
			return false
		}
		words++
	}
	return words > 0
}

func thinRows(data []row, most int) []row {
	if len(data) <= most {
		return data
	}
	out := make([]row, most)
	for i := range out {
		out[i] = data[i*(len(data)-1)/(most-1)]
	}
	return out
}

// decimals decides on the comma: where the separator is none, and numbers hold
// one comma and no point.
func (g *Guess) decimals(cols []sampledColumn) {
	commas, points := 0, 0
	for i := range cols {
		for _, v := range cols[i].values {
			_, plain := number(v, false)
			_, comma := number(v, true)
			switch {
			case comma && strings.Contains(v, ","):
				commas++
			case plain && strings.Contains(v, "."):
				points++
			}
		}
	}
	g.DecimalComma = commas > points
}

func named(name string, words ...string) bool {
	name = strings.ToLower(name)
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(name, w) })
}

func median(x []float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	y := slices.Clone(x)
	slices.Sort(y)
	return y[len(y)/2]
}

func shareWithin(x []float64, low, high float64) float64 {
	if len(x) == 0 {
		return 0
	}
	n := 0
	for _, v := range x {
		if v >= low && v <= high {
			n++
		}
	}
	return float64(n) / float64(len(x))
}
