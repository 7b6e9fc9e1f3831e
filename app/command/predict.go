package command

import (
	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/calc/message"
)

type predictCommand struct {
	File string   `arg:"" name:"FILE" help:"The design; - is standard input."`
	JSON bool     `name:"json" help:"Print one JSON object instead of the table."`
	Set  []string `name:"set" sep:"none" placeholder:"KEY=VALUE" help:"Try a change without touching the file; may be repeated."`
	evidence
}

func (predictCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("Every quantity that is uncertain has three numbers: the 10th, 50th and 90th percentile. The file is not touched. With readings in the file it is the beer as they have left it.")), `skep predict gate-field.toml --set mash.rest.0.temperature_c=68`)
}

func (c *predictCommand) Run(s *session) error {
	k, err := c.knownIn(s, c.File, c.Set)
	if err != nil {
		return err
	}
	p, err := k.Engine.Predict(k.Conditioned.Design)
	if err != nil {
		return wrong(err)
	}
	if c.JSON {
		return s.json(document.Predicted(p))
	}
	s.table(p)
	return nil
}

// json prints one object, its schema first.
func (s *session) json(v any) error {
	text, err := document.Encode(v)
	if err != nil {
		return broken(err)
	}
	s.out.Write(text)
	return nil
}
