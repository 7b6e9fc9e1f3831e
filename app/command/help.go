package command

import (
	"strconv"
	"strings"

	"skep/app/command/helptext"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/message"
)

type helpCommand struct {
	Topic string `arg:"" optional:"" name:"COMMAND" help:"A command, design for the keys of a design file, or json for those of --json."`
}

func (helpCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New(`Explains a command with a worked line; "help design" lists every key of a design file with its unit, default and range, "help json" every key that --json prints. "help man" is the man page, "help bash", "help zsh" and "help fish" are completions for these shells.`)), `skep help predict`)
}

func (c *helpCommand) Run(s *session) error {
	switch {
	case c.Topic == "":
		return s.run([]string{"--help"})
	case c.Topic == "design":
		s.designKeys()
		return nil
	case c.Topic == "json":
		s.jsonKeys()
		return nil
	case helptext.IsManual(c.Topic):
		return s.manual(c.Topic)
	case isCommand(c.Topic):
		return s.run([]string{c.Topic, "--help"})
	}
	return misused(message.NewError("help: there is no command {name}; see skep help", strconv.Quote(c.Topic)))
}

// designKeys prints the format of the design file from the format's own table.
func (s *session) designKeys() {
	s.paragraph(message.New("The design file is TOML, always metric. N counts from 0, as in --set and sweep: mash.rest.0.temperature_c is temperature_c in the first [[mash.rest]]. Outside its range a value is an error; an unknown key is a warning and stays in the file."))
	s.printf("\n")
	rows := [][]string{{words.T("key"), words.T("default"), words.T("range"), words.T("note")}}
	for _, k := range design.Keys() {
		def := k.Default
		switch {
		case k.Required:
			def = words.T("required")
		case def == "":
			def = words.T("none")
		}
		ranges, notes := helptext.Wrap(words.Print(k.Range()), columnWidth), helptext.Wrap(words.Listed(k.Note), columnWidth)
		n := max(len(ranges), len(notes))
		ranges, notes = append(ranges, make([]string, n)...), append(notes, make([]string, n)...)
		name := []string{k.Path, def}
		for i := range n {
			rows = append(rows, []string{name[0], name[1], ranges[i], notes[i]})
			name = []string{"", ""}
		}
	}
	s.printf("%s", helptext.Grid(rows))
}

// paragraph prints a text in lines of a terminal's width.
func (s *session) paragraph(m message.Message) {
	s.printf("%s\n", strings.Join(helptext.Wrap(s.text(m), terminalWidth), "\n"))
}

const terminalWidth = 84

// columnWidth keeps the list of keys readable in an ordinary terminal.
const columnWidth = 36

// manual writes the man page or a shell's completion.
func (s *session) manual(topic string) error {
	p, err := parser(&grammar{}, s, s.text)
	if err != nil {
		return err
	}
	helptext.Manual(topic, p.Model.Node, Version, s.printf)
	return nil
}
