package compare

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
	"unicode/utf8"

	"skep/app/safetext"
	"skep/calc"
	"skep/calc/design"
)

// Strain is one row: a prediction and the attenuation range that the strain is
// given with, apparent on the reference wort.
type Strain struct {
	Prediction      calc.Prediction
	LowPct, HighPct float64
	Difference      *calc.Difference // from the first strain; nil in its own row
}

// Strains predicts a design with each of its yeasts in turn.
func Strains(e *calc.Engine, d design.Design) ([]Strain, error) {
	strains := make([]Strain, len(d.Yeast))
	differences, err := Differences(e, d, len(d.Yeast))
	if err != nil {
		return nil, err
	}
	for i, y := range d.Yeast {
		p, err := e.PredictYeast(d, i)
		if err != nil {
			return nil, err
		}
		strains[i] = Strain{Prediction: p, LowPct: y.AttenuationLowPct, HighPct: y.AttenuationHighPct, Difference: differences[i]}
	}
	return strains, nil
}

// Differences are what each strain of a design has more than the first one: none
// for the first.
func Differences(e *calc.Engine, d design.Design, strains int) ([]*calc.Difference, error) {
	out := make([]*calc.Difference, strains)
	if strains < 2 {
		return out, nil
	}
	own, err := e.Drawn(d, 0)
	if err != nil {
		return nil, err
	}
	for i := 1; i < strains; i++ {
		x, err := e.Difference(own, d, i)
		if err != nil {
			return nil, err
		}
		out[i] = &x
	}
	return out, nil
}

// aligned writes rows in columns, two spaces apart, leaning left.
func aligned(rows [][]string) string {
	var width []int
	for _, row := range rows {
		for i, cell := range row {
			if i == len(width) {
				width = append(width, 0)
			}
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	var out strings.Builder
	for _, row := range rows {
		var line strings.Builder
		for i, cell := range row {
			if i > 0 {
				line.WriteString("  ")
			}
			line.WriteString(cell + strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell)))
		}
		out.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
	return out.String()
}

// CSV is the comparison as comma-separated values: metric, at full precision,
// a row for each strain with every band and the difference of the middles from
// the first strain's, with its own band where that is known.
func CSV(strains []Strain) []byte {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	columns := Columns()
	head := []string{"yeast", "attenuation_low_pct", "attenuation_high_pct"}
	for _, c := range columns {
		head = append(head, c.Key+"_low", c.Key+"_mid", c.Key+"_high", c.Key+"_difference")
		if c.Than != nil {
			head = append(head, c.Key+"_difference_low", c.Key+"_difference_high")
		}
	}
	_ = w.Write(head) // into memory: can't fail
	for i := range strains {
		s := &strains[i]
		row := []string{safetext.Cell(s.Prediction.Yeast), number(s.LowPct), number(s.HighPct)}
		for _, c := range columns {
			b := c.Of(&s.Prediction)
			row = append(row, number(b.Low), number(b.Mid), number(b.High), number(b.Mid-c.Of(&strains[0].Prediction).Mid))
			if c.Than != nil {
				var than calc.Band
				if s.Difference != nil {
					than = c.Than(s.Difference)
				}
				row = append(row, number(than.Low), number(than.High))
			}
		}
		_ = w.Write(row)
	}
	w.Flush()
	return out.Bytes()
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
