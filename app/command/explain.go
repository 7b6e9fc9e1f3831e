package command

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"skep/app/command/document"
	"skep/calc"
	"skep/calc/explain"
)

type explainCommand struct {
	File string   `arg:"" name:"FILE" help:"The design; - is standard input."`
	Key  string   `arg:"" name:"KEY" help:"The number, as in predict --json: final_gravity_sg, wort.maltose."`
	JSON bool     `name:"json" help:"Print one JSON object instead of the text."`
	Set  []string `name:"set" sep:"none" placeholder:"KEY=VALUE" help:"Try a change without touching the file; may be repeated."`
	evidence
}

func (explainCommand) Help() string {
	return `Opens one predicted number: its formula, what went into it, where the formula is
from, and what moves it: each lever by a small step up and down, and each doubt
from its 10th to its 90th percentile. All of that is computed for the design.
The keys are those of skep predict --json, with a dot for a number within
another (wort.maltose, volumes.sparge, honey_window_hours.opens).

  skep explain gate-field.toml final_gravity_sg

The keys:
  ` + strings.Join(wrap(strings.Join(explain.Keys(), " "), 78), "\n  ")
}

func (c *explainCommand) Run(s *session) error {
	d, err := s.load(c.File)
	if err != nil {
		return err
	}
	if err := set(&d, c.Set); err != nil {
		return err
	}
	k, err := c.known(d)
	if err != nil {
		return err
	}
	e, err := explain.Explain(k.Engine, k.Conditioned.Design, c.Key)
	if err != nil {
		return wrong(err)
	}
	if c.JSON {
		return s.json(document.Explain(&e))
	}
	s.explanation(&e)
	return nil
}

// mostEffects are shown; the rest is small beside them.
const mostEffects = 10

func (s *session) explanation(e *explain.Explanation) {
	s.printf("%s: %s\n", e.Key, e.Name)
	switch {
	case len(e.Parts) > 0:
		s.printf("\n")
		for _, p := range e.Parts {
			s.printf("  %-28s %s  skep explain FILE %s\n", p.Name, number(p.Band, p.Sure, p.Decimals, p.Unit), p.Key)
		}
	case e.Unit == "" && e.Text != "":
		s.printf("\n  %s\n", strings.ReplaceAll(e.Text, "\n", "\n  "))
	default:
		s.printf("\n  %s\n", number(e.Band, e.Sure, e.Decimals, e.Unit))
	}
	s.list("formula", e.Formula)
	if len(e.Inputs) > 0 {
		s.printf("\nwhat went in (the middle beer)\n")
		var grid [][]string
		for _, in := range e.Inputs {
			grid = append(grid, []string{"  " + in.Name, figures(in.Value, in.Unit), in.Unit, in.Key})
		}
		s.columns(grid)
	}
	s.list("source", e.Sources)
	s.list("its band", e.Notes)
	s.effects("levers, by how much each moves it", e.Levers, e.Decimals)
	s.effects("doubts, by how much each moves it", e.Doubts, e.Decimals)
}

func number(b calc.Band, sure bool, decimals int, unit string) string {
	if sure {
		return strings.TrimSpace(fixed(b.Mid, decimals) + " " + unit)
	}
	return strings.TrimSpace(fmt.Sprintf("%s (%s to %s) %s", fixed(b.Mid, decimals), fixed(b.Low, decimals), fixed(b.High, decimals), unit))
}

// figures is a number with four figures, a gravity with its four decimals.
func figures(v float64, unit string) string {
	switch {
	case unit == "SG":
		return fixed(v, 4)
	case v != 0 && math.Abs(v) < 1e-3:
		return strconv.FormatFloat(v, 'g', 2, 64)
	}
	return strconv.FormatFloat(v, 'g', 4, 64)
}

func (s *session) effects(title string, list []explain.Effect, decimals int) {
	if len(list) == 0 {
		return
	}
	s.printf("\n%s\n", title)
	grid := [][]string{}
	for i, e := range list {
		if i == mostEffects {
			break
		}
		row := []string{"  " + e.Name}
		for _, side := range []struct {
			has  bool
			what string
			by   float64
		}{{e.HasDown, e.Down, e.ByDown}, {e.HasUp, e.Up, e.ByUp}} {
			if !side.has {
				row = append(row, "", "")
				continue
			}
			row = append(row, side.what+":", signed(side.by, decimals+1))
		}
		grid = append(grid, append(row, e.Key))
	}
	s.columns(grid)
	if more := len(list) - mostEffects; more > 0 {
		s.printf("  and %d smaller\n", more)
	}
}

func signed(v float64, decimals int) string {
	t := fixed(v, decimals)
	if !strings.HasPrefix(t, "-") && strings.Trim(t, "0.") != "" {
		t = "+" + t
	}
	return t
}

// columns is grid without a head.
func (s *session) columns(rows [][]string) {
	head := make([]string, 0)
	for range rows[0] {
		head = append(head, "")
	}
	at := s.out.Len()
	s.grid(append([][]string{head}, rows...))
	// The empty head is a line to take out again.
	rest := append([]byte(nil), s.out.Bytes()[at:]...)
	_, rest, _ = cutLine(rest)
	s.out.Truncate(at)
	s.out.Write(rest)
}

func cutLine(b []byte) (line, rest []byte, found bool) {
	for i, c := range b {
		if c == '\n' {
			return b[:i], b[i+1:], true
		}
	}
	return b, nil, false
}
