package command

import (
	"bytes"
	"encoding/json"
	"fmt"

	"skep/calc"
)

type predictCommand struct {
	File string   `arg:"" name:"FILE" help:"The design; - is standard input."`
	JSON bool     `name:"json" help:"Print one JSON object instead of the table."`
	Set  []string `name:"set" sep:"none" placeholder:"KEY=VALUE" help:"Try a change without touching the file; may be repeated."`
	evidence
}

func (predictCommand) Help() string {
	return `Every quantity that is uncertain has three numbers: the 10th, 50th and 90th
percentile. The file is not touched. With readings in the file it is the beer as
they have left it.

  skep predict gate-field.toml --set mash.rest.0.temperature_c=68`
}

func (c *predictCommand) Run(s *session) error {
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
	p, err := k.Engine.Predict(k.Conditioned.Design)
	if err != nil {
		return wrong(err)
	}
	if c.JSON {
		return s.json(withArrays(p))
	}
	s.table(p)
	return nil
}

// withArrays makes empty lists arrays in JSON, not null.
func withArrays(p calc.Prediction) calc.Prediction {
	if p.Cautions == nil {
		p.Cautions = []string{}
	}
	if p.Warnings == nil {
		p.Warnings = []string{}
	}
	return p
}

// jsonSchema is the number of the form that every JSON object is marked with: a
// change that could break a reader raises it.
const jsonSchema = 1

// json prints one object, its schema first.
func (s *session) json(v any) error {
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return broken(fmt.Errorf("the result has a number that JSON can't hold, a fault of Skep: %w", err))
	}
	s.printf("{\n  \"schema\": %d,%s", jsonSchema, bytes.TrimPrefix(text.Bytes(), []byte("{")))
	return nil
}
