package record

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
)

// Given is what a published value holds for: name to value, as "plato=12
// temperature_c=20" in a file. A value with a space in it has an underscore.
type Given map[string]string

// Num is a number; not a number where it is missing or none, which no check
// agrees with.
func (g Given) Num(name string) float64 {
	v, err := strconv.ParseFloat(g[name], 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// NumOr is a number, or otherwise where nothing is said.
func (g Given) NumOr(name string, otherwise float64) float64 {
	if g[name] == "" {
		return otherwise
	}
	return g.Num(name)
}

// Word is a word.
func (g Given) Word(name string) string { return strings.ReplaceAll(g[name], "_", " ") }

// The uses of a row.
const (
	UseCheck = "check" // held against ours; the same as none
	UseFit   = "fit"   // a constant was fitted to it: no check
)

// columns of a file of rows; compare, given, published, unit and source are
// required. An id names a row once.
var columns = []string{"id", "compare", "given", "published", "unit", "tolerance", "use", "quantity", "source", "why"}

// Read reads published rows: comma-separated, with a head of [columns] in any
// order, lines that begin with # left out. What is to be compared stands in
// "compare", for [Compare]; a tolerance is the largest difference that still
// agrees, in the row's unit, or with % behind it a share of the published value;
// "at least" and "at most" make the published value a bound.
func Read(path string) ([]Row, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("the published rows cannot be read: %w", err)
	}
	defer file.Close()
	in := csv.NewReader(file)
	in.Comment = '#'
	head, err := in.Read()
	if err != nil {
		return nil, fmt.Errorf("%s: no head: %w", path, err)
	}
	at := map[string]int{}
	for i, name := range head {
		if !slices.Contains(columns, name) {
			return nil, fmt.Errorf("%s:1: unknown column %q, known are %s", path, name, strings.Join(columns, ", "))
		}
		at[name] = i
	}
	for _, name := range []string{"compare", "given", "published", "unit", "source"} {
		if _, ok := at[name]; !ok {
			return nil, fmt.Errorf("%s:1: column %q is missing", path, name)
		}
	}
	var rows []Row
	for {
		cells, err := in.Read()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		line, _ := in.FieldPos(0)
		row, err := rowOf(func(name string) string {
			if i, ok := at[name]; ok {
				return strings.TrimSpace(cells[i])
			}
			return ""
		})
		if err != nil {
			return nil, fmt.Errorf("%s:%d: %w", path, line, err)
		}
		if row.ID != "" && slices.ContainsFunc(rows, func(r Row) bool { return r.ID == row.ID }) {
			return nil, fmt.Errorf("%s:%d: id %q is used twice", path, line, row.ID)
		}
		rows = append(rows, row)
	}
}

func rowOf(cell func(name string) string) (Row, error) {
	r := Row{
		ID: cell("id"), Compare: cell("compare"), Unit: cell("unit"), Quantity: cell("quantity"),
		Source: cell("source"), Why: cell("why"), Given: Given{},
	}
	for _, pair := range strings.Fields(cell("given")) {
		name, value, ok := strings.Cut(pair, "=")
		if !ok || name == "" {
			return r, fmt.Errorf("given %q is not name=value", pair)
		}
		r.Given[name] = value
	}
	var err error
	if r.Published, err = strconv.ParseFloat(cell("published"), 64); err != nil {
		return r, fmt.Errorf("published = %q is not a number", cell("published"))
	}
	if t := cell("tolerance"); t == AtLeast || t == AtMost {
		r.Bound = t
	}
	tolerance, relative := strings.CutSuffix(cell("tolerance"), "%")
	if tolerance != "" && r.Bound == "" {
		if r.Tolerance, err = strconv.ParseFloat(strings.TrimSpace(tolerance), 64); err != nil {
			return r, fmt.Errorf("tolerance = %q is not a number", cell("tolerance"))
		}
	}
	if relative {
		r.Tolerance *= math.Abs(r.Published) / 100
	}
	switch use := cell("use"); {
	case use == UseFit && r.Bound != "":
		return r, errors.New("a bound cannot be fitted")
	case use == UseFit:
		r.Verdict = "fitted"
	case use != "" && use != UseCheck:
		return r, fmt.Errorf("use = %q is not %s or %s", use, UseCheck, UseFit)
	case r.Compare == "" || r.Source == "":
		return r, errors.New("a row needs what is compared and a source")
	}
	if r.Quantity == "" {
		r.Quantity = strings.ReplaceAll(r.Compare, "-", " ")
		if given := cell("given"); given != "" {
			r.Quantity += ", " + given
		}
	}
	if r.Bound != "" {
		r.Quantity += ", " + r.Bound
	}
	return r, nil
}

// Compare puts ours beside each row, by what the row compares. It is an error
// where a row compares what is not in by, or by has what no row compares.
func Compare(rows []Row, by map[string]func(Given) float64) ([]Row, error) {
	used := map[string]bool{}
	for i := range rows {
		ours, ok := by[rows[i].Compare]
		if !ok {
			return nil, fmt.Errorf("row %d compares %q, which nothing computes", i+1, rows[i].Compare)
		}
		used[rows[i].Compare] = true
		rows[i].Ours = ours(rows[i].Given)
	}
	for name := range by {
		if !used[name] {
			return nil, fmt.Errorf("no row compares %q", name)
		}
	}
	return rows, nil
}
