package command

import (
	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/app/compare"
	"skep/calc/message"
)

type compareCommand struct {
	File string `arg:"" name:"FILE" help:"The design; - is standard input."`
	JSON bool   `name:"json" xor:"form" help:"Print one JSON object instead of the table."`
	CSV  bool   `name:"csv" xor:"form" help:"Print comma-separated values, with every band."`
	evidence
}

func (compareCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("Every yeast of the file on the same wort, in the file's order: the first is the one brewed with, the others are set against it.")), `skep compare gate-field.toml`)
}

func (c *compareCommand) Run(s *session) error {
	k, err := c.knownIn(s, c.File, nil)
	if err != nil {
		return err
	}
	strains, err := compare.Strains(k.Engine, k.Conditioned.Design)
	if err != nil {
		return wrong(err)
	}
	switch {
	case c.JSON:
		return s.json(document.Compare(strains))
	case c.CSV:
		s.out.Write(compare.CSV(strains))
	default:
		s.printf("%s", compare.Text(s.say, titled(k.Plan.Title), strains))
	}
	return nil
}
