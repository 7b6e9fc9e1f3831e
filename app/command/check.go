package command

import (
	"strings"

	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/calc"
	"skep/calc/design"
	designfile "skep/calc/design/file"
	"skep/calc/message"
)

type checkCommand struct {
	File string `arg:"" name:"FILE" help:"The design; - is standard input."`
	JSON bool   `name:"json" help:"Print one JSON object instead of lines."`
}

func (checkCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("Prints one line for each finding, FILE:LINE: message. Exit 0 when the design is clean or has warnings only, 1 with an error.")), `skep check gate-field.toml`)
}

// checkDraws is how many draws the engine makes of a design that is only checked:
// what it refuses it refuses before the first of them.
const checkDraws = 16

// Run prints the findings: they are what was asked for, so they go to standard
// output.
func (c *checkCommand) Run(s *session) error {
	src, err := s.read(c.File)
	if err != nil {
		return err
	}
	findings := check(c.File, src)
	if c.JSON {
		if err := s.json(document.Check(c.File, findings)); err != nil {
			return err
		}
	} else {
		for _, f := range findings {
			s.printf("%s\n", findingLine(f))
		}
	}
	if design.HasErrors(findings) {
		return wrong(errSaid)
	}
	return nil
}

// check is all that there is to find in a design. What reads well may still be no
// beer: the engine has the last word, so that nothing that passes here is refused by
// predict.
func check(file string, src []byte) []design.Finding {
	doc, findings := designfile.Parse(file, src)
	if doc != nil && !design.HasErrors(findings) {
		if _, err := calc.NewEngineDraws(checkDraws).PredictBeer(doc.Design, 0); err != nil {
			findings = append(findings, refusal(file, doc, err))
		}
	}
	return findings
}

// refusal is the engine's no as a finding: on the line of the first key that it
// names, else where the mash begins.
func refusal(file string, doc *designfile.Document, err error) design.Finding {
	f := design.Finding{File: file, Severity: design.Error, Message: message.OfError(err), Line: max(1, doc.Line("mash"))}
	for word := range strings.FieldsSeq(err.Error()) {
		key := strings.Trim(word, ".,:;()\"")
		if line := doc.Line(key); line > 0 {
			f.Key, f.Line = key, line
			break
		}
	}
	return f
}
