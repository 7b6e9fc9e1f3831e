package command

import (
	"skep/calc/design"
)

type checkCommand struct {
	File string `arg:"" name:"FILE" help:"The design; - is standard input."`
}

func (checkCommand) Help() string {
	return `Prints one line for each finding, FILE:LINE: message. Exit 0 when the design is
clean or has warnings only, 1 with an error.

  skep check gate-field.toml`
}

// Run prints the findings: they are what was asked for, so they go to standard
// output.
func (c *checkCommand) Run(s *session) error {
	_, findings, err := s.parse(c.File)
	if err != nil {
		return err
	}
	for _, f := range findings {
		s.printf("%s\n", findingLine(f))
	}
	if design.HasErrors(findings) {
		return wrong(errSaid)
	}
	return nil
}
