package command

import (
	"math"
	"strconv"
	"strings"

	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/app/words"
	"skep/calc"
	"skep/calc/explain"
	"skep/calc/message"
	"skep/calc/quantity"
)

type explainCommand struct {
	File string   `arg:"" name:"FILE" help:"The design; - is standard input."`
	Key  string   `arg:"" name:"KEY" help:"The number, as in predict --json: final_gravity_sg, wort.maltose."`
	JSON bool     `name:"json" help:"Print one JSON object instead of the text."`
	Set  []string `name:"set" sep:"none" placeholder:"KEY=VALUE" help:"Try a change without touching the file; may be repeated."`
	evidence
}

func (explainCommand) Detail(say helptext.Speaker) string {
	about := say(message.New("Opens one predicted number: its formula, what went into it, where the formula is from, and what moves it: each lever by a small step up and down, and each doubt from its 10th to its 90th percentile. All of that is computed for the design. The keys are those of skep predict --json, with a dot for a number within another (wort.maltose, volumes.sparge, honey_window_hours.opens)."))
	return helptext.Worked(about, "skep explain gate-field.toml final_gravity_sg") + "\n\n" + say(message.New("The keys:")) + "\n\n  " +
		strings.Join(helptext.Wrap(strings.Join(explain.Keys(), " "), 78), "\n  ")
}

func (c *explainCommand) Run(s *session) error {
	k, err := c.knownIn(s, c.File, c.Set)
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
	s.printf("%s: %s\n", e.Key, s.text(e.Name))
	switch {
	case len(e.Parts) > 0:
		s.printf("\n")
		for _, p := range e.Parts {
			s.printf("  %s %s  skep explain FILE %s\n", helptext.Pad(s.text(p.Name), labelWidth-2), s.opened(p.Band, p.Sure, p.Decimals, p.Unit), p.Key)
		}
	case e.Unit == "" && !e.Text.Empty():
		s.printf("\n  %s\n", strings.ReplaceAll(s.text(e.Text), "\n", "\n  "))
	default:
		s.printf("\n  %s\n", s.opened(e.Band, e.Sure, e.Decimals, e.Unit))
	}
	s.list(words.T("formula"), e.Formula)
	if len(e.Inputs) > 0 {
		s.printf("\n%s\n", words.T("what went in (the middle beer)"))
		var grid [][]string
		for _, in := range e.Inputs {
			grid = append(grid, []string{"  " + s.text(in.Name), s.figures(in.Value, in.Unit), s.unitOf(in.Unit), in.Key})
		}
		s.printf("%s", helptext.Columns(grid))
	}
	s.list(words.T("source"), e.Sources)
	s.list(words.T("its band"), e.Notes)
	s.effects(words.T("levers, by how much each moves it"), e.Levers, e)
	s.effects(words.T("doubts, by how much each moves it"), e.Doubts, e)
}

// kindOf is the kind of a unit of the model's in which a person has a choice.
func kindOf(unit string) quantity.Kind {
	if unit == "SG" {
		return quantity.Gravity
	}
	return quantity.None
}

// unitOf is one of the model's units as a person reads it.
func (s *session) unitOf(unit string) string {
	if unit == "SG" {
		return s.unit(quantity.Gravity)
	}
	return words.Listed(unit)
}

// opened is the number itself with its unit, and its band if it has one.
func (s *session) opened(b calc.Band, sure bool, decimals int, unit string) string {
	text := s.middle(kindOf(unit), b, decimals)
	if sure {
		text = s.number(kindOf(unit), b.Mid, decimals)
	}
	return strings.TrimSpace(text + " " + s.unitOf(unit))
}

// figures is a number with four figures, a gravity with its four decimals.
func (s *session) figures(v float64, unit string) string {
	switch {
	case unit == "SG":
		return s.number(quantity.Gravity, v, 4)
	case v != 0 && math.Abs(v) < 1e-3:
		return s.say.Marked(strconv.FormatFloat(v, 'g', 2, 64))
	}
	return s.say.Marked(strconv.FormatFloat(v, 'g', 4, 64))
}

func (s *session) effects(title string, list []explain.Effect, of *explain.Explanation) {
	if len(list) == 0 {
		return
	}
	s.printf("\n%s\n", title)
	kind := kindOf(of.Unit)
	by := func(v float64) string { // in the unit that the number is shown in
		from, to := of.Band.Mid, of.Band.Mid+v
		if kind != quantity.None {
			from, to = s.say.Shown(kind, from), s.say.Shown(kind, to)
		}
		return s.signed(to-from, kind, of.Decimals+1)
	}
	grid := [][]string{}
	for i, e := range list {
		if i == mostEffects {
			break
		}
		row := []string{"  " + s.text(e.Name)}
		for _, side := range []struct {
			has       bool
			did       message.Message
			steps, by float64
		}{{e.HasDown, e.Down, -1, e.ByDown}, {e.HasUp, e.Up, 1, e.ByUp}} {
			if !side.has {
				row = append(row, "", "")
				continue
			}
			what := s.text(side.did)
			if e.Step.Kind != quantity.None {
				what = s.say.FormatSigned(e.Step.Kind, side.steps*e.Step.Value)
			}
			row = append(row, what+":", by(side.by))
		}
		grid = append(grid, append(row, e.Key))
	}
	s.printf("%s", helptext.Columns(grid))
	if more := len(list) - mostEffects; more > 0 {
		s.printf("  %s\n", words.N("and {count} smaller one", "and {count} smaller ones", more))
	}
}

// signed is a difference with its sign, none where it rounds to nothing.
func (s *session) signed(v float64, k quantity.Kind, decimals int) string {
	if k == quantity.Gravity && s.say.Unit(k) != "" {
		decimals = max(decimals-gravityDecimals, 0) + platoDecimals
	}
	text := s.say.Plain(v, decimals)
	if v > 0 && strings.ContainsAny(text, "123456789") {
		text = "+" + text
	}
	return text
}
