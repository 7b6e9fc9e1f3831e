// Package compare sets the predictions of several strains on the same wort side by
// side: the window's Yeasts place and the command skep compare both show what is
// worked out here, so that their numbers are the same.
//
// Strains on a wort come in, a table of cells goes out. It must not know who shows it.
//
// A cell has the middle, the 10th and the 90th percentile of one outcome, and
// the difference of its middle from that of the first strain, the brew's own.
// The difference is taken between the middles as they are shown, so that a
// reader who subtracts two rows gets what stands there. How sure it is comes from
// the same draws of both: it stands in brackets where its band holds nought, and
// there is no difference to be sure of.
package compare

import (
	"math"
	"strings"

	"skep/calc"
	"skep/calc/message"
	"skep/calc/quantity"
)

// Column is one outcome that strains are compared by.
type Column struct {
	Key  string          // as in predict --json, with its unit
	Name message.Message // for a heading
	Kind quantity.Kind
	Of   func(*calc.Prediction) calc.Band
	Than func(*calc.Difference) calc.Band // nil: how sure the difference is is not known
}

// Columns are the outcomes, in the order to show them.
func Columns() []Column {
	return []Column{
		{"final_gravity_sg", message.New("final gravity"), quantity.Gravity, func(p *calc.Prediction) calc.Band { return p.FinalGravitySG },
			func(d *calc.Difference) calc.Band { return d.FinalGravitySG }},
		{"strength_pct", message.New("strength"), quantity.Strength, func(p *calc.Prediction) calc.Band { return p.StrengthPct },
			func(d *calc.Difference) calc.Band { return d.StrengthPct }},
		{"dryness", message.New("dryness"), quantity.Index, func(p *calc.Prediction) calc.Band { return p.Dryness },
			func(d *calc.Difference) calc.Band { return d.Dryness }},
		{"body", message.New("body"), quantity.Index, func(p *calc.Prediction) calc.Band { return p.Body },
			func(d *calc.Difference) calc.Band { return d.Body }},
		{"apparent_attenuation_pct", message.New("attenuation"), quantity.Percent, func(p *calc.Prediction) calc.Band { return p.ApparentAttenuationPct }, nil},
		{"height_hours", message.New("height"), quantity.Hours, func(p *calc.Prediction) calc.Band { return p.HeightHours }, nil},
		{"finished_hours", message.New("finished"), quantity.Hours, func(p *calc.Prediction) calc.Band { return p.FinishedHours }, nil},
	}
}

// Heading is the column's name with the unit that its numbers are in.
func (c Column) Heading(f quantity.Formatter) string {
	if u := f.Unit(c.Kind); u != "" {
		return f.Message(message.New("{column}, {unit}", c.Name, u))
	}
	return f.Message(c.Name)
}

// Cell is one outcome of one strain as text in a person's units.
type Cell struct {
	Mid, Low, High string
	Difference     string // from the first strain; empty in its own row
	// Sure and Unsure tell whether there is a difference to be sure of; neither
	// where that is not known.
	Sure, Unsure bool
}

// Shown is the difference as it stands in a table: in brackets where there is none
// to be sure of.
func (c Cell) Shown() string {
	if c.Unsure {
		return "(" + c.Difference + ")"
	}
	return c.Difference
}

// CellOf writes one outcome of a strain; own is the first strain's prediction,
// nil in its own row, and than how the strain differs from it, nil where that is
// not known.
func CellOf(f quantity.Formatter, c Column, p, own *calc.Prediction, than *calc.Difference) Cell {
	v := c.Of(p)
	d := decimals(f, c.Kind)
	shown := func(metric float64) float64 { return round(f.Shown(c.Kind, metric), d) }
	text := func(shown float64) string { return f.Number(c.Kind, f.Metric(c.Kind, shown)) }
	cell := Cell{Mid: text(shown(v.Mid)), Low: text(shown(v.Low)), High: text(shown(v.High))}
	if own == nil {
		return cell
	}
	difference := round(shown(v.Mid)-shown(c.Of(own).Mid), d)
	switch {
	case difference == 0:
		cell.Difference = "±0"
	case difference > 0:
		cell.Difference = "+" + text(difference)
	default:
		cell.Difference = text(difference)
	}
	if c.Than != nil && than != nil {
		cell.Unsure = c.Than(than).Unsure()
		cell.Sure = !cell.Unsure
	}
	return cell
}

// decimals are those of the table: hours and percentages of attenuation have
// bands that leave nothing behind the point.
func decimals(f quantity.Formatter, k quantity.Kind) int {
	switch {
	case k == quantity.Gravity && f.Units().Gravity == quantity.Plato, k == quantity.Strength:
		return 1
	case k == quantity.Gravity:
		return 3
	}
	return 0
}

func round(v float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Round(v*p) / p
}

// Text is the comparison as plain text in columns, for a terminal or to paste.
// Names and ranges stand in the strains' own order.
func Text(f quantity.Formatter, title string, strains []Strain) string {
	columns := Columns()
	say := func(text string, with ...any) string { return f.Message(message.New(text, with...)) }
	grid := [][]string{{""}}
	for _, c := range columns {
		grid[0] = append(grid[0], c.Heading(f))
	}
	for i := range strains {
		s := &strains[i]
		name := s.Prediction.Yeast
		if strings.TrimSpace(name) == "" {
			name = say("unnamed")
		}
		upper, lower := []string{name}, []string{"  " + f.FormatRange(quantity.Percent, s.LowPct, s.HighPct)}
		for _, c := range columns {
			var own *calc.Prediction
			if i > 0 {
				own = &strains[0].Prediction
			}
			cell := CellOf(f, c, &s.Prediction, own, s.Difference)
			mid := cell.Mid
			if cell.Difference != "" {
				mid += " " + cell.Shown()
			}
			upper = append(upper, mid)
			lower = append(lower, say("{low} to {high}", cell.Low, cell.High))
		}
		grid = append(grid, upper, lower)
	}
	var out strings.Builder
	out.WriteString(title + "\n")
	out.WriteString(say("The middle, then its difference from the first strain, in brackets where that is not sure; below them the 10th and 90th percentile.") + "\n\n")
	out.WriteString(aligned(grid))
	return out.String()
}
