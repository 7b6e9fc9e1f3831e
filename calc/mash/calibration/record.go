package calibration

import (
	"fmt"
	"io"

	"skep/calc/mash"
	"skep/calc/record"
)

// Record is every published mash beside ours with the committed constants, in
// the order of the file at path (testdata/mash/rows.toml of the repository).
func Record(path string) ([]record.Row, error) {
	rows, err := Load(path)
	if err != nil {
		return nil, err
	}
	out := make([]record.Row, 0, len(rows))
	for _, r := range rows {
		ours, err := Measure(mash.Committed(), r)
		if err != nil {
			return nil, err
		}
		out = append(out, r.record(ours))
	}
	return out, nil
}

func (r Row) record(ours float64) record.Row {
	q := record.Row{Quantity: r.title(), Unit: r.Unit, Published: r.Value, Source: r.Source,
		Ours: ours, Tolerance: r.Sigma, Why: r.Why}
	verdict := func(ok bool) string {
		if ok {
			return "agrees"
		}
		return "misses"
	}
	switch {
	case r.AtLeast != nil:
		q.Quantity += ", at least"
		q.Published, q.Verdict = *r.AtLeast, verdict(ours >= *r.AtLeast)
	case r.AtMost != nil:
		q.Quantity += ", at most"
		q.Published, q.Verdict = *r.AtMost, verdict(ours <= *r.AtMost)
	case r.Use == "fit":
		q.Verdict, q.Why = "fitted", "one of the rows that the mash constants were fitted to"
	}
	return q
}

// title says in words what a row compares.
func (r Row) title() string {
	at := fmt.Sprintf("%g min at %g °C", r.Minutes, r.TemperatureC)
	switch {
	case r.ConcentrationPct != 0:
		at += fmt.Sprintf(", mash of %g %%", r.ConcentrationPct)
	case r.LiquorLPerKg != 3:
		at += fmt.Sprintf(", %g L/kg", r.LiquorLPerKg)
	}
	switch r.Quantity {
	case "optimum-fermentable-extract":
		return "mash temperature that gives most fermentable extract"
	case "congress-rdf":
		return "congress mash, limit of fermentation"
	case "limit-attenuation-middle":
		return fmt.Sprintf("limit attenuation, middle of the band, mean over %g to %g °C", r.TemperatureC, r.OtherC)
	case "attenuation-difference":
		return fmt.Sprintf("limit attenuation, %g less %g °C", r.TemperatureC, r.OtherC)
	case "extract-difference":
		return fmt.Sprintf("extract, %g less %g °C", r.TemperatureC, r.OtherC)
	case "beta-half-life":
		return fmt.Sprintf("beta-amylase, half-life at %g °C", r.TemperatureC)
	case "beta-left-in-maltose":
		return "beta-amylase left in 500 mM maltose, " + at
	}
	names := map[string]string{
		"limit-attenuation": "limit attenuation", "glucose": "glucose", "maltose": "maltose",
		"maltotriose": "maltotriose", "dextrin": "dextrin",
		"maltose-of-carbohydrate": "maltose", "maltotriose-of-carbohydrate": "maltotriose", "dextrin-of-carbohydrate": "dextrin",
		"beta-left": "beta-amylase left", "alpha-left": "alpha-amylase left",
		"carbohydrate-extracted": "starch extracted", "reducing-sugar": "reducing sugar", "sugar-of-reference": "fermentable sugar",
	}
	return names[r.Quantity] + ", " + at
}

// Print writes a fit as a report: constants with their uncertainty, fitted
// rows with their residuals, held-out rows with their differences.
func (f *Fit) Print(w io.Writer, all []Row) error {
	p := &printer{w: w}
	p.line("sum of squares %.2f: rows %.2f over %d, prior knowledge %.2f over %d constants; %d evaluations\n",
		f.ChiSquare, f.rowSquares(), len(f.Rows), f.ChiSquare-f.rowSquares(), len(f.Estimates), f.Evaluations)
	p.line("%-18s %12s %12s %12s  %s\n", "constant", "fitted", "std error", "committed", "unit")
	for _, e := range f.Estimates {
		p.line("%-18s %12.5g %12.2g %12.5g  %s\n", e.Name, e.Value, e.StdErr, e.Committed, e.Unit)
	}
	p.line("\n%-30s %10s %10s %8s  %s\n", "fitted row", "published", "ours", "in sd", "unit")
	for i, r := range f.Rows {
		p.line("%-30s %10.4g %10.4g %8.2f  %s\n", r.ID, r.Value, f.Model[i], (f.Model[i]-r.Value)/r.Sigma, r.Unit)
	}
	p.line("\n%-30s %10s %10s %8s  %s\n", "row held out", "published", "ours", "verdict", "unit")
	for _, r := range all {
		if r.Use != "check" {
			continue
		}
		v, err := Measure(f.Kinetics, r)
		if err != nil {
			return err
		}
		q := r.record(v)
		p.line("%-30s %10.4g %10.4g %8s  %s\n", r.ID, q.Published, v, q.Judge(), r.Unit)
	}
	return p.err
}

func (f *Fit) rowSquares() float64 {
	var s float64
	for i, r := range f.Rows {
		q := (f.Model[i] - r.Value) / r.Sigma
		s += q * q
	}
	return s
}

// printer keeps the first error of many lines.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, a ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format, a...)
	}
}
