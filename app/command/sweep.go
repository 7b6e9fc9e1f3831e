package command

import (
	"encoding/csv"
	"slices"
	"strconv"

	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
)

// mostSteps keeps a slip of the finger from running for an hour: so many are more
// than any picture shows, and come in two seconds of the longest design.
const mostSteps = 200

type sweepCommand struct {
	File  string `arg:"" name:"FILE" help:"The design; - is standard input."`
	Key   string `arg:"" name:"KEY" help:"The lever, as in --set: honey.0.mass_kg."`
	From  string `arg:"" name:"FROM" help:"Its first value."`
	To    string `arg:"" name:"TO" help:"Its last value."`
	Steps string `arg:"" name:"STEPS" help:"How many values, both ends counted."`
	JSON  bool   `name:"json" xor:"form" help:"Print one JSON object instead of the table."`
	CSV   bool   `name:"csv" xor:"form" help:"Print comma-separated values, with every band."`
}

func (sweepCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("Prints one row for each value, evenly spaced from FROM to TO, both included. The table has the mid and, in brackets, the 10th and 90th percentile.")), `skep sweep gate-field.toml mash.rest.0.temperature_c 62 70 5`)
}

// outcome is one column group of a sweep.
type outcome struct {
	key      string
	label    message.Message
	kind     quantity.Kind
	decimals int
	of       func(*calc.Prediction) calc.Band
}

var outcomes = []outcome{
	{"original_gravity_sg", message.New("original gravity"), quantity.Gravity, gravityDecimals, func(p *calc.Prediction) calc.Band { return p.OriginalGravitySG }},
	{"effective_original_gravity_sg", message.New("with honey"), quantity.Gravity, gravityDecimals, func(p *calc.Prediction) calc.Band { return p.EffectiveOriginalGravitySG }},
	{"final_gravity_sg", message.New("final gravity"), quantity.Gravity, gravityDecimals, func(p *calc.Prediction) calc.Band { return p.FinalGravitySG }},
	{"strength_pct", message.New("strength %"), quantity.None, strengthDecimals, func(p *calc.Prediction) calc.Band { return p.StrengthPct }},
	{"apparent_attenuation_pct", message.New("attenuation %"), quantity.None, indexDecimals, func(p *calc.Prediction) calc.Band { return p.ApparentAttenuationPct }},
	{"dryness", message.New("dryness"), quantity.None, indexDecimals, func(p *calc.Prediction) calc.Band { return p.Dryness }},
	{"body", message.New("body"), quantity.None, indexDecimals, func(p *calc.Prediction) calc.Band { return p.Body }},
}

// inTable are the outcomes that fit a terminal: the four pictures.
var inTable = []string{"final_gravity_sg", "strength_pct", "dryness", "body"}

func (c *sweepCommand) Run(s *session) error {
	if k, ok := design.KeyOf(c.Key); ok && k.Kind != design.Number {
		return wrong(message.NewError("{key} holds {kind}, and a sweep needs a number to move", c.Key, k.Kind.Message()))
	}
	values, err := c.values()
	if err != nil {
		return misused(err)
	}
	d, err := s.load(c.File)
	if err != nil {
		return err
	}
	rows, err := sweep(d, c.Key, values)
	if err != nil {
		return err
	}
	if c.JSON {
		return s.sweepJSON(c.Key, values, rows)
	}
	if c.CSV {
		return s.sweepCSV(c.Key, values, rows)
	}
	s.sweepTable(c.Key, values, rows)
	return nil
}

// sweep predicts the design at each value.
func sweep(d design.Design, key string, values []string) ([]calc.Prediction, error) {
	moved := make([]design.Design, len(values))
	for i, v := range values { // all or none: what is refused is known before anything is computed
		moved[i] = d.Clone()
		if err := moved[i].Set(key, v); err != nil {
			return nil, wrong(err)
		}
		if err := whole(moved[i]); err != nil {
			return nil, err
		}
	}
	rows, failed := make([]calc.Prediction, len(values)), make([]error, len(values))
	calc.NewEngine().Each(len(values), func(e *calc.Engine, i int) { rows[i], failed[i] = e.Predict(moved[i]) })
	for _, err := range failed {
		if err != nil {
			return nil, wrong(err)
		}
	}
	return rows, nil
}

// values are the settings to try, as text that Set takes.
func (c *sweepCommand) values() ([]string, error) {
	var ends [2]float64
	for i, text := range []string{c.From, c.To} {
		var err error
		if ends[i], err = strconv.ParseFloat(text, 64); err != nil {
			return nil, message.NewError("sweep: {argument} is {text}, want a number", []string{"FROM", "TO"}[i], strconv.Quote(text))
		}
	}
	steps, err := strconv.Atoi(c.Steps)
	if err != nil || steps < 2 || steps > mostSteps {
		return nil, message.NewError("sweep: STEPS is {text}, want a whole number from 2 to {most}", strconv.Quote(c.Steps), mostSteps)
	}
	out := make([]string, steps)
	for i := range out {
		v := ends[0] + (ends[1]-ends[0])*float64(i)/float64(steps-1)
		// Ten digits: 66.3, not 66.30000000000001.
		out[i] = strconv.FormatFloat(v, 'g', 10, 64)
	}
	return out, nil
}

func (s *session) sweepJSON(key string, values []string, rows []calc.Prediction) error {
	out := document.Sweep{Key: key, Rows: []document.SweepRow{}}
	if k, ok := design.KeyOf(key); ok {
		out.Unit = k.Unit
	}
	for i := range rows {
		v, err := strconv.ParseFloat(values[i], 64)
		if err != nil {
			return wrong(err)
		}
		out.Rows = append(out.Rows, document.Row(v, &rows[i]))
	}
	return s.json(out)
}

func (s *session) sweepCSV(key string, values []string, rows []calc.Prediction) error {
	w := csv.NewWriter(&s.out)
	head := []string{key}
	for _, o := range outcomes {
		head = append(head, o.key+"_low", o.key+"_mid", o.key+"_high")
	}
	_ = w.Write(head) // into memory: can't fail
	for i := range rows {
		line := []string{values[i]}
		for _, o := range outcomes {
			b := o.of(&rows[i])
			for _, v := range []float64{b.Low, b.Mid, b.High} {
				line = append(line, short(v))
			}
		}
		_ = w.Write(line)
	}
	w.Flush()
	return w.Error()
}

func (s *session) sweepTable(key string, values []string, rows []calc.Prediction) {
	grid := [][]string{{key}}
	for _, o := range outcomes {
		if slices.Contains(inTable, o.key) {
			grid[0] = append(grid[0], s.text(o.label))
		}
	}
	for i := range rows {
		line := []string{s.say.Marked(values[i])}
		for _, o := range outcomes {
			if slices.Contains(inTable, o.key) {
				line = append(line, s.middle(o.kind, o.of(&rows[i]), o.decimals))
			}
		}
		grid = append(grid, line)
	}
	s.printf("%s", helptext.Grid(grid))
}
