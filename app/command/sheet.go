package command

import (
	"bytes"
	"cmp"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"skep/app/command/helptext"
	"skep/app/locale"
	"skep/app/paper"
	"skep/calc/message"
	"skep/plotting/sheet"
)

type sheetCommand struct {
	File   string   `arg:"" name:"FILE" help:"The design; - is standard input."`
	Output string   `name:"output" short:"o" required:"" placeholder:"OUT" help:"The file to write: its ending, .pdf or .txt, says what it is."`
	Paper  string   `name:"paper" placeholder:"PAPER" help:"a4 or letter, for .pdf; left out: what is usual in your region."`
	Start  string   `name:"start" placeholder:"HOUR" help:"When the day begins, 9:30 or 2026-06-20 9:30: the steps are printed with the hours expected."`
	Yeasts bool     `name:"yeasts" help:"Add the comparison of the design's yeasts."`
	Set    []string `name:"set" sep:"none" placeholder:"KEY=VALUE" help:"Try a change without touching the file; may be repeated."`
	evidence
}

func (sheetCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("The brew day on one or two pages: what to buy, what to do in order with the numbers for this kit, boxes to tick and blanks to fill. As .txt the same content is plain text, for screen readers.")), `skep sheet gate-field.toml -o gate-field.pdf --paper letter --start 9:30`)
}

func (c *sheetCommand) Run(s *session) error {
	name := cmp.Or(c.Paper, "a4")
	if c.Paper == "" && locale.Current().Letter {
		name = "letter"
	}
	size, err := sheet.PaperOf(strings.ToLower(name))
	if err != nil {
		return misused(message.NewError("sheet: {error}", err))
	}
	start, err := paper.ParseStart(c.Start, time.Local)
	if err != nil {
		return misused(message.NewError("sheet: --start: {error}", err))
	}
	ending := strings.ToLower(filepath.Ext(c.Output))
	if ending != ".pdf" && ending != ".txt" {
		return misused(message.NewError("sheet: can't tell what to write from {path}; end the name in .pdf or .txt", strconv.Quote(c.Output)))
	}
	k, err := c.knownIn(s, c.File, c.Set)
	if err != nil {
		return err
	}
	content, err := paper.Content(k.Plan, paper.Options{Units: s.say.Units(), Yeasts: c.Yeasts, Start: start, Doubts: k.Engine.Doubts(), Known: k})
	if err != nil {
		return wrong(err)
	}
	var out bytes.Buffer
	if ending == ".txt" {
		err = sheet.Text(&out, content)
	} else {
		err = sheet.PDF(&out, content, size)
	}
	if err != nil {
		return broken(err)
	}
	return s.write(c.Output, out.Bytes())
}
